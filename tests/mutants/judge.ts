import { Checker } from "../../server/src/workspace/checker";
import type { Finding } from "../../server/src/workspace/report";
import { countPattern } from "../spec/naive-counter";
import type { Mutant } from "./mutant";

/** `elsewhere`: the findings are all on other lines than the changed one. */
export type Seen = "on the line" | "elsewhere" | "not at all" | "crash";

/** What is reported of a mutant that was clean before the change. */
export function seen(mutant: Mutant, checker = new Checker(), counts: typeof isLoud = isLoud): Seen {
  const findings = findingsOf(mutant, checker);
  if (findings === null) return "crash";
  const loud = findings.filter(counts);
  if (loud.length === 0) return "not at all";
  return loud.some(({ span }) => mutant.start <= span.start && span.start <= mutant.end)
    ? "on the line"
    : "elsewhere";
}

/** A fault that stops the checker is no reason to stop the count of faults. */
function findingsOf({ text }: Mutant, checker: Checker): readonly Finding[] | null {
  try {
    return checker.check(text).findings;
  } catch {
    return null;
  }
}

/** What nobody overlooks: also a row told to be doubled, or an abbreviation that nobody explains. */
export function isLoud({ severity }: Pick<Finding, "severity" | "rule">): boolean {
  return severity === "error" || severity === "warning";
}

/** What only a row that does not work is told. */
export function isSure({ severity, rule }: Pick<Finding, "severity" | "rule">): boolean {
  return severity === "error" || rule === "ambiguous";
}

/** `open`: nothing is wrong that the second count can read, and there is something that it cannot. */
export type Verdict = "right" | "wrong" | "open";

/** What a count that shares no code with the project says of a whole pattern. */
export function verdictOf(text: string): Verdict {
  const verdicts = countPattern(text).map(({ verdict }) => verdict);
  if (verdicts.some((one) => one === "does-not-fit" || one === "wrong-count")) return "wrong";
  return verdicts.every((one) => one === "ok") ? "right" : "open";
}

/**
 * Whether the change is a fault of counting: some row no longer fits, or no longer makes what it says. A beginning
 * chain that counts for nothing, or a longer loop whose length nothing names, changes no sum.
 */
export function isFault({ text }: Mutant): boolean {
  return verdictOf(text) === "wrong";
}
