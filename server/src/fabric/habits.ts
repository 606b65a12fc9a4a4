import type { Meant, Outcome } from "./outcome";
import { differing } from "./paths";
import type { WorkedRow } from "./worked";

/** What a pattern does throughout where the trade leaves a choice, by what the choice is about. */
export type Habits = ReadonlyMap<string, string>;

export const noHabits: Habits = new Map();

/** Ways to work a row that its piece left open, by the index of the row. */
export type OpenRows = ReadonlyMap<number, readonly Outcome[]>;

export function openRows(rows: readonly WorkedRow[], alive: readonly (readonly Outcome[])[]): OpenRows {
  const open = alive.flatMap((ways, i): [number, readonly Outcome[]][] =>
    rows[i]?.outcome && differing(ways).length > 1 ? [[i, ways]] : [],
  );
  return new Map(open);
}

/** What the rows show whose stated count left one way only. */
export function shownBy(rows: readonly WorkedRow[], alive: readonly (readonly Outcome[])[]): Meant[] {
  return rows.flatMap(({ line }, i) => {
    const ways = alive[i] ?? [];
    const [only] = ways;
    return only && ways.length === 1 && line.plan?.stated ? only.meant : [];
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
export function settle(row: WorkedRow, alive: readonly Outcome[], habits: Habits): WorkedRow {
  const isDoubted = row.outcome?.counted.some((one) => one?.doubt) ?? false;
  if ((row.result !== "ok" && row.result !== "ambiguous") || isDoubted || alive.length === 0) return row;
  const [only] = alive;
  if (alive.length === 1 && only === row.outcome) return row;
  const usual = cheapest(alive);
  const asElsewhere = usual.length > 1 ? cheapest(alive.filter((one) => agrees(one, habits))) : [];
  if (asElsewhere.length === 1)
    return known(row, asElsewhere[0] as Outcome, ", as elsewhere in this pattern");
  if (usual.length > 1) return { ...row, result: "ambiguous", outcome: usual[0] as Outcome, others: usual };
  return differing(alive).length > 1
    ? known(row, usual[0] as Outcome, "")
    : { ...row, outcome: usual[0] as Outcome };
}

function known(row: WorkedRow, outcome: Outcome, why: string): WorkedRow {
  const assumptions = [...row.assumptions, ...outcome.assumptions.map((one) => `${one}${why}`)];
  return { ...row, result: "ok", outcome, others: [], assumptions };
}

function cheapest(alive: readonly Outcome[]): readonly Outcome[] {
  const least = Math.min(...alive.map((one) => one.cost));
  return differing(alive.filter((one) => one.cost === least));
}

function agrees({ meant }: Outcome, habits: Habits): boolean {
  return (
    meant.some(({ topic }) => habits.has(topic)) &&
    meant.every(({ topic, means }) => (habits.get(topic) ?? means) === means)
  );
}
