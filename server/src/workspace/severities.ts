import { allRules, quietRules } from "../rules/all-rules";
import { closest } from "../rules/closest";
import { withSeverity } from "../rules/rule";
import { say } from "../text/say";
import type { Finding, PatternReport } from "./report";
import { type SeveritySetting, severitySettings } from "./settings-table";

/** How loudly rules are to speak, by their ids; a rule that is not in it keeps its own severity. */
export type Severities = ReadonlyMap<string, SeveritySetting>;

const ids = allRules.map(({ id }) => id);

/** A severity as somebody wrote it, or what is wrong with it, as a whole sentence. */
export function readSeverity(
  rule: string,
  value: unknown,
): { readonly severity: SeveritySetting } | { readonly problem: string } {
  const severity = severitySettings.find((known) => known === value);
  if (!ids.includes(rule)) return { problem: say`There is no rule "${rule}". ${likely(rule)}` };
  if (severity) return { severity };
  return { problem: say`${rule} is ${JSON.stringify(value)}; use ${severitySettings.join(", ")}.` };
}

function likely(rule: string): string {
  const near = closest(rule, ids);
  return near ? say`Did you mean ${near}?` : say`The rules are ${ids.join(", ")}.`;
}

/** The findings of rules that are off until somebody turns them on, and that somebody has turned on. */
export function turnedOn(
  report: Pick<PatternReport, "quietFindings">,
  severities: Severities,
): readonly Finding[] {
  const wanted = quietRules.filter(({ id }) => (severities.get(id) ?? "off") !== "off");
  return wanted.length === 0
    ? []
    : withSeverities(report.quietFindings ?? [], severities).filter(({ rule }) =>
        wanted.some(({ id }) => id === rule),
      );
}

/** The findings with the severities wanted, without those of rules that are turned off. */
export function withSeverities(findings: readonly Finding[], severities: Severities): Finding[] {
  return findings.flatMap((finding) => {
    const severity = severities.get(finding.rule) ?? finding.severity;
    if (severity === "off") return [];
    return severity === finding.severity ? [finding] : [withSeverity(finding, severity)];
  });
}
