import { plainKinds, statedTotal, tally } from "../fabric/count";
import { forSize, type StatedTerm } from "../fabric/instructions";
import type { Outcome } from "../fabric/outcome";
import type { WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import type { Counts, ReadingReport, RowReport } from "./report";

/** One worked row as the report shows it; `sizes` is how many sizes the pattern has. */
export function rowReport(row: WorkedRow, sizes: number): RowReport {
  const { line, outcome } = row;
  const unchecked = row.result === "unchecked";
  const numbers = unchecked
    ? { needs: null, has: known(row.has), makes: known(row.makes) }
    : numbersOf(row, outcome);
  const stated = line.kind === "foundation" ? null : (line.plan?.stated ?? null);
  return {
    kind: line.kind === "foundation" ? "foundation" : "row",
    head: line.headText,
    span: line.span,
    times:
      row.times &&
      [...Array(sizes).keys()].map(
        (size) => (row.times?.length === 1 ? row.times[0] : row.times?.[size]) ?? 1,
      ),
    ...numbers,
    stated:
      stated &&
      [...Array(sizes).keys()].map((size) =>
        line.sizes && !line.sizes.includes(size) ? null : statedTotal(stated, size),
      ),
    made: unchecked || !outcome ? {} : madeOf(outcome, stated),
    statedKinds: stated && stated.length > 1 ? statedKinds(stated, sizes) : null,
    result: row.result,
    assumptions: row.assumptions,
    readings: row.result === "ambiguous" ? readingsOf(row) : [],
    reason: unchecked ? row.reason : null,
  };
}

function numbersOf(row: WorkedRow, outcome: Outcome | null): Pick<RowReport, "needs" | "has" | "makes"> {
  if (!outcome) return { needs: null, has: known(row.has), makes: known(row.makes) };
  return { needs: known(outcome.needs), has: known(outcome.has), makes: known(outcome.makes) };
}

function known(counts: readonly (number | null)[] | null): Counts | null {
  return counts?.some((n) => n !== null) ? counts : null;
}

function statedKinds(stated: readonly StatedTerm[], sizes: number): Record<string, Counts> {
  return Object.fromEntries(
    stated.map((term) => [term.noun || "sts", [...Array(sizes).keys()].map((size) => forSize(term.n, size))]),
  );
}

function madeOf(outcome: Outcome, stated: readonly StatedTerm[] | null): Record<string, Counts> {
  const several = stated !== null && stated.length > 1;
  const chains = outcome.counted.some((one) => one?.chainsCounted);
  const kinds = outcome.counted.map((one, size) =>
    one === null
      ? null
      : several || chains || (stated?.[0]?.sort !== "any" && stated !== null)
        ? one.kinds
        : plainKinds(tally(outcome.steps[size] ?? [])),
  );
  const names = new Set(kinds.flatMap((one) => (one ? [...one.keys()] : [])));
  return Object.fromEntries(
    [...names].map((name) => [name, kinds.map((one) => (one === null ? null : (one.get(name) ?? 0)))]),
  );
}

function readingsOf(row: WorkedRow): ReadingReport[] {
  const stated = row.line.plan?.stated ?? null;
  const doubt = row.outcome?.counted.find((one) => one?.doubt)?.doubt;
  if (row.outcome && doubt) {
    const first = { ...reading(row.outcome, stated), assumption: say`the spaces are meant` };
    const made = Object.fromEntries([...doubt.kinds].map(([kind, n]) => [kind, [n]]));
    return [first, { needs: known(row.outcome.needs), makes: [doubt.makes], made, assumption: doubt.says }];
  }
  return row.others.map((one) => reading(one, stated));
}

function reading(outcome: Outcome, stated: readonly StatedTerm[] | null): ReadingReport {
  return {
    needs: known(outcome.needs),
    makes: known(outcome.makes),
    made: madeOf(outcome, stated),
    assumption: outcome.assumptions.join("; "),
  };
}
