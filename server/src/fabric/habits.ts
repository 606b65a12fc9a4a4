import { say } from "../text/say";
import type { Meant, Outcome } from "./outcome";
import { differing, type Way } from "./paths";
import type { WorkedRow } from "./worked";

/** What a pattern does throughout where the trade leaves a choice, by what the choice is about. */
export type Habits = ReadonlyMap<string, string>;

export const noHabits: Habits = new Map();

/** Ways to work a row that its piece left open, by the index of the row. */
export type OpenRows = ReadonlyMap<number, readonly Way[]>;

export function openRows(rows: readonly WorkedRow[], alive: readonly (readonly Way[])[]): OpenRows {
  const open = alive.flatMap((ways, i): [number, readonly Way[]][] =>
    rows[i]?.outcome && differing(outcomesOf(ways)).length > 1 ? [[i, ways]] : [],
  );
  return new Map(open);
}

/** What the rows show whose stated count left one way only. */
export function shownBy(rows: readonly WorkedRow[], alive: readonly (readonly Way[])[]): Meant[] {
  return rows.flatMap(({ line }, i) => {
    const ways = alive[i] ?? [];
    const [only] = ways;
    return only && ways.length === 1 && line.plan?.stated ? only.outcome.meant : [];
  });
}

/** What all rows show alike; where they differ, the pattern has no habit. */
export function consistent(shown: readonly Meant[]): Habits {
  const habits = new Map<string, string>();
  const mixed = new Set<string>();
  for (const { topic, means } of shown) {
    if ((habits.get(topic) ?? means) !== means) mixed.add(topic);
    habits.set(topic, means);
  }
  for (const topic of mixed) habits.delete(topic);
  return habits;
}

/** A right row with what is known at the end of its pattern: settled, assumed, or ambiguous. */
export function settle(row: WorkedRow, alive: readonly Way[], habits: Habits): WorkedRow {
  const isDoubted = row.outcome?.counted.some((one) => one?.doubt) ?? false;
  if ((row.result !== "ok" && row.result !== "ambiguous") || isDoubted || alive.length === 0) return row;
  const [only] = alive;
  if (alive.length === 1 && only?.outcome === row.outcome) return row;
  const usual = cheapest(alive);
  const asElsewhere =
    usual.length > 1 ? cheapest(alive.filter(({ outcome }) => agrees(outcome, habits))) : [];
  if (asElsewhere.length === 1)
    return known(row, asElsewhere[0] as Outcome, say`, as elsewhere in this pattern`);
  if (usual.length > 1) return { ...row, result: "ambiguous", outcome: usual[0] as Outcome, others: usual };
  return differing(outcomesOf(alive)).length > 1
    ? known(row, usual[0] as Outcome, "")
    : { ...row, outcome: usual[0] as Outcome };
}

function known(row: WorkedRow, outcome: Outcome, why: string): WorkedRow {
  const told = outcome.assumptions.map((one) => `${one}${why}`);
  const assumptions = [...new Set([...row.assumptions, ...told])];
  return { ...row, result: "ok", outcome, others: [], assumptions };
}

function cheapest(alive: readonly Way[]): readonly Outcome[] {
  const least = Math.min(...alive.map(({ cost }) => cost));
  // Costs are sums of tenths.
  return differing(outcomesOf(alive.filter(({ cost }) => cost - least < 0.01)));
}

function outcomesOf(ways: readonly Way[]): readonly Outcome[] {
  return ways.map(({ outcome }) => outcome);
}

function agrees({ meant }: Outcome, habits: Habits): boolean {
  return (
    meant.some(({ topic }) => habits.has(topic)) &&
    meant.every(({ topic, means }) => (habits.get(topic) ?? means) === means)
  );
}
