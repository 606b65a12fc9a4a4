import type { Finding } from "../workspace/report";
import { type SeveritySetting, severitySettings } from "../workspace/settings-table";

/** What the client has set, read from data that may be anything. */
export interface Settings {
  /** `loopledger.rules.<id>`; a rule that is not in it keeps its own severity. */
  readonly severities: ReadonlyMap<string, SeveritySetting>;
  /** What was set but cannot be used, for the log. */
  readonly problems: readonly string[];
}

/** Reads the `loopledger` section of a client's settings; what is not usable there counts as not set. */
export function readSettings(section: unknown): Settings {
  const severities = new Map<string, SeveritySetting>();
  const problems: string[] = [];
  for (const [rule, value] of Object.entries(rulesOf(section))) {
    const severity = severitySettings.find((known) => known === value);
    if (severity) severities.set(rule, severity);
    else
      problems.push(
        `loopledger.rules.${rule} is ${JSON.stringify(value)}; use ${severitySettings.join(", ")}.`,
      );
  }
  return { severities, problems };
}

export function severityOf(finding: Finding, settings: Settings): SeveritySetting {
  return settings.severities.get(finding.rule) ?? finding.severity;
}

function rulesOf(section: unknown): object {
  if (typeof section !== "object" || section === null || !("rules" in section)) return {};
  const { rules } = section;
  return typeof rules === "object" && rules !== null ? rules : {};
}
