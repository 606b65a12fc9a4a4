import type { SeveritySetting } from "../workspace/settings-table";
import { readSeverity, type Severities } from "../workspace/severities";

/** What the client has set, read from data that may be anything. */
export interface Settings {
  /** `loopledger.rules.<id>`. */
  readonly severities: Severities;
  /** What was set but cannot be used, for the log. */
  readonly problems: readonly string[];
}

/** Reads the `loopledger` section of a client's settings; what is not usable there counts as not set. */
export function readSettings(section: unknown): Settings {
  const severities = new Map<string, SeveritySetting>();
  const problems: string[] = [];
  for (const [rule, value] of Object.entries(rulesOf(section))) {
    const read = readSeverity(rule, value);
    if ("severity" in read) severities.set(rule, read.severity);
    else problems.push(`Settings, loopledger.rules: ${read.problem}`);
  }
  return { severities, problems };
}

function rulesOf(section: unknown): object {
  if (typeof section !== "object" || section === null || !("rules" in section)) return {};
  const { rules } = section;
  return typeof rules === "object" && rules !== null ? rules : {};
}
