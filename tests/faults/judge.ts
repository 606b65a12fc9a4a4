import { Checker } from "../../server/src/workspace/checker";
import type { Finding } from "../../server/src/workspace/report";
import { countPattern } from "../spec/naive-counter";
import type { Mutant } from "./mutants";

/** `elsewhere`: the findings are all on other lines than the changed one. */
export type Seen = "on the line" | "elsewhere" | "not at all" | "crash";

/** What is reported of a mutant that was clean before the change. */
export function seen(mutant: Mutant): Seen {
  const findings = findingsOf(mutant);
  if (findings === null) return "crash";
  const loud = findings.filter(isLoud);
  if (loud.length === 0) return "not at all";
  return loud.some(({ span }) => mutant.start <= span.start && span.start <= mutant.end)
    ? "on the line"
    : "elsewhere";
}

/** A fault that stops the checker is no reason to stop the count of faults. */
function findingsOf({ text }: Mutant): readonly Finding[] | null {
  try {
    return new Checker().check(text).findings;
  } catch {
    return null;
  }
}

export function isLoud({ severity, rule }: Pick<Finding, "severity" | "rule">): boolean {
  return severity === "error" || rule === "ambiguous";
}

/**
 * Whether the change is a fault of counting. A stated count, or the number behind `to last`, was right before
 * and is wrong now. Anything else is asked of a count that shares no code with the project: where every row is
 * within its reach, fits the row below and makes what it says, the change is no fault (a beginning chain that
 * counts for nothing, a longer loop whose length nothing names).
 */
export function isFault(mutant: Mutant): boolean {
  if (mutant.place === "count" || mutant.place === "stretch") return true;
  return countPattern(mutant.text).some(({ verdict }) => verdict !== "ok");
}
