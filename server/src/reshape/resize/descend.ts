import type { State } from "../../fabric/outcome";
import type { WorkedRow } from "../../fabric/worked";
import { say } from "../../text/say";
import { rewriteOnToMake } from "../rewrite-row";
import { isRefusal, type Refusal } from "../row-trial";
import type { DraftRow } from "./draft";
import { type DraftParts, widensAtStart } from "./resize";
import type { Rung, Silhouette } from "./silhouette";
import type { Workbench } from "./workbench";

/** Decrease rows are put in or left out at the widest end, so that the others stay as they are. */
export function descend(
  parts: DraftParts,
  bench: Workbench,
  shape: Silhouette,
  widest: number,
): DraftParts | Refusal {
  const own = shape.rungs.slice(shape.last + 1, shape.end + 1);
  const rate = shape.fallRate;
  if (rate === null || own.every(({ turn }) => turn !== "fall") || isShapedAtEdges(own, shape)) return parts;
  const ranged = own.findIndex(({ turn, makes }) => turn === "fall" && makes < widest);
  if ((own[ranged]?.rows ?? 1) > 1) return shorter(parts, own, ranged, widest);
  const stays = own.findIndex(({ turn, makes, by }) => turn === "fall" && makes - by <= widest);
  const top = own[stays];
  if (!top) return fewerInLast(parts, bench, own, widest);
  const kept = parts.down.map((one, i): DraftRow => (i < stays ? { ...one, state: "gone" } : one));
  if (widest === top.makes - top.by) return { ...parts, down: kept };
  const on = leftAbove(parts, bench);
  if (isRefusal(on)) return on;
  const counts = countsDown(widest, top.makes - top.by, rate);
  const added = fallen(on, counts, { bench, before: top.row, cycle: cycleOf(own) });
  return isRefusal(added)
    ? added
    : { ...parts, down: [...kept.slice(0, stays), ...added, ...kept.slice(stays)] };
}

/** A line for several rows that take away as many each stands for more of them, or fewer. */
function shorter(parts: DraftParts, own: readonly Rung[], at: number, widest: number): DraftParts | Refusal {
  const { row, makes, by } = own[at] as Rung;
  const rows = (makes - widest) / by;
  if (!Number.isInteger(rows))
    return { why: say`${row.line.headText} go by ${-by} stitches a row: ${widest} is between two` };
  const down = parts.down.map((one, i): DraftRow => {
    if (i < at) return { ...one, state: "gone" };
    return i === at ? { ...one, rows } : one;
  });
  return { ...parts, down };
}

/** What the rows of the full width leave. */
function leftAbove({ up, wide }: DraftParts, bench: Workbench): State | Refusal {
  const above = bench.followed([...up, ...wide]);
  if (isRefusal(above)) return above;
  return (
    above.piece.rows.at(-1)?.outcome?.leaves.state ?? { why: say`nothing shows how its decreases begin` }
  );
}

/** All that is left of the decreases is the last row, which takes away fewer. */
function fewerInLast(
  parts: DraftParts,
  bench: Workbench,
  own: readonly Rung[],
  widest: number,
): DraftParts | Refusal {
  const at = own.findLastIndex(({ turn }) => turn === "fall");
  const last = own[at];
  if (!last || last.makes >= widest)
    return { why: say`its last decrease row has ${last?.makes ?? 0} stitches already` };
  const on = leftAbove(parts, bench);
  if (isRefusal(on)) return on;
  const found = rewriteOnToMake(last.row, bench.piece, on, last.makes);
  if (isRefusal(found)) return { why: say`${last.row.line.headText} cannot take away fewer` };
  const down = parts.down.map((one, i): DraftRow => {
    if (i < at) return { ...one, state: "gone" };
    return i === at ? { ...one, body: found.text, after: found.after } : one;
  });
  return { ...parts, down };
}

/** Decreases that take away less than half of what began with its full width stay as they are, on other rows. */
function isShapedAtEdges(own: readonly Rung[], shape: Silhouette): boolean {
  return widensAtStart(shape) && (own.at(-1)?.makes ?? 0) * 2 >= shape.widest;
}

/** From one count to another by whole steps, the first of them shorter where that does not come out. */
function countsDown(from: number, to: number, rate: number): number[] {
  const counts: number[] = [];
  for (let now = from - ((from - to) % rate || rate); now >= to; now -= rate) counts.push(now);
  return counts;
}

/** The rows from one decrease row up to the next. */
function cyclesOf(own: readonly Rung[]): readonly (readonly Rung[])[] {
  const cycles: Rung[][] = [];
  for (const one of own) {
    if (one.turn === "fall") cycles.push([one]);
    else cycles.at(-1)?.push(one);
  }
  return cycles;
}

/** Whether as many plain rows come behind each decrease row: new ones bring theirs along. */
export function isRegularFall(own: readonly Rung[]): boolean {
  const cycles = cyclesOf(own).slice(0, -1);
  const shapes = new Set(cycles.map((cycle) => cycle.map(({ rows }) => rows).join()));
  return cycles.length > 1 && shapes.size === 1;
}

function cycleOf(own: readonly Rung[]): readonly (readonly Rung[])[] {
  const cycles = cyclesOf(own);
  return isRegularFall(own) ? cycles : cycles.map((cycle) => cycle.slice(0, 1));
}

interface Falling {
  readonly bench: Workbench;
  /** The first decrease row that stays. */
  readonly before: WorkedRow;
  readonly cycle: readonly (readonly Rung[])[];
}

/** New rows, each written like one that goes on in the same way: every other one where decreases are staggered. */
function fallen(
  on: State,
  counts: readonly number[],
  { bench, before, cycle }: Falling,
): DraftRow[] | Refusal {
  const added: DraftRow[] = [];
  let left = on;
  for (const [i, count] of counts.entries()) {
    const like = cycle[(counts.length - i) % 2] ?? cycle[0] ?? [];
    for (const { row, rows } of like) {
      const found = rewriteOnToMake(row, bench.piece, left, count);
      if (isRefusal(found)) return { why: say`no row like ${row.line.headText} comes to ${count}` };
      added.push({
        row: before,
        state: "new-before",
        body: withoutTalk(found.text, row),
        rows,
        after: found.after,
      });
      left = found.after;
    }
  }
  return added;
}

/** Up to its count: what is said behind belongs to the row that was the model. */
function withoutTalk(text: string, { line }: WorkedRow): string {
  const behind = line.text.slice(line.plan?.statedSpan?.end ?? line.text.length);
  const stop = /^\s*[.)\]]*\./.test(behind) ? "." : "";
  return `${text.slice(0, text.length - behind.length)}${stop}`;
}
