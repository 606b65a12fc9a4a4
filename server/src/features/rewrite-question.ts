import type { WorkedRow } from "../fabric/worked";
import { yarnUseOf } from "../measure/yarn-used";
import { whyNoCount } from "../reshape/count-from-above";
import { isRefusal } from "../reshape/row-trial";
import { say } from "../text/say";
import { sentence } from "../text/sentence";
import type { NotedEdit, Scene } from "./actions/action";
import { nearestWithFollowing, type RewrittenWith, rewriteWithFollowing } from "./actions/rewrite-row";
import { type RowHere, rowHere } from "./actions/row-here";
import { gaugeLine } from "./gauge-line";
import { rowTitle } from "./row-names";
import { sts } from "./shown/counts";
import { type Wanted, wantedIn } from "./wanted-count";

/** The answer to a number that somebody types for a row. */
export interface RewriteAnswer {
  /** What the row is called; null where no row that can be rewritten is at the caret. */
  readonly row: string | null;
  /** The stitches that it makes now, as its count would tell them: `60 (64, 68)`. */
  readonly now: string | null;
  /** What may be typed. */
  readonly ways: string;
  /** Whether the number can be had; `says` is why not, with the nearest that can. */
  readonly fits: boolean;
  readonly says: string;
  readonly edits: readonly NotedEdit[];
}

/** Whether the row at an offset can be rewritten for a count, as it is typed; `null`: nothing is typed yet. */
export function rewriteAnswer(scene: Scene, offset: number, typed: string | null): RewriteAnswer {
  const lineStart = scene.text.lastIndexOf("\n", offset - 1) + 1;
  const here = rowHere(scene, { start: lineStart, end: offset });
  if (!here) return refused(null, say`There is no row at the caret. Put the caret on a row and try again.`);
  const none = whyNoCount(here.row, here.piece);
  if (none) return refused(here.row, say`${rowTitle(here.row)} cannot be rewritten: ${none.why}.`);
  const now = here.row.outcome?.makes[0] ?? null;
  const asked = {
    row: rowTitle(here.row),
    now: `${now ?? ""}`,
    ways: say`60, x1.5 or, at your gauge, 50 cm`,
  };
  if (typed === null) return { ...asked, fits: true, says: "", edits: [] };
  const wanted = wantedIn(typed, now, () => yarnUseOf(scene.worked).ground.basis?.gauge ?? null);
  if (!isRefusal(wanted)) return { ...answer(scene, here, wanted), ...asked };
  return { ...refused(here.row, wanted.why), ...gaugeLine(scene, wanted), ...asked };
}

export function refused(row: WorkedRow | null, says: string): RewriteAnswer {
  return { row: row && rowTitle(row), now: null, ways: "", fits: false, says, edits: [] };
}

function answer(scene: Scene, here: RowHere, { count, sized }: Wanted): RewriteAnswer {
  const found = rewriteWithFollowing(scene, here, count);
  if (isRefusal(found))
    return refused(here.row, `${sentence(found.why)} ${nearestWords(scene, here, { count, sized })}`.trim());
  const says = fitsWords(here, found, sized(count));
  return { ...refused(here.row, says), fits: true, edits: found.edits };
}

function fitsWords(
  { row }: RowHere,
  { makes, text, edits, setter, lookAt }: RewrittenWith,
  size: string,
): string {
  const from = setter === row ? "" : say`, from ${rowTitle(setter)} on`;
  const besides = lookAt
    ? say` Look at ${rowTitle(lookAt)} and what follows yourself: it is not checked.`
    : "";
  return say`${sts(makes)}${size} fit${from}: ${text}${linesBelow(edits)}${besides}`;
}

export function linesBelow(edits: readonly NotedEdit[]): string {
  const others = new Set(edits.flatMap(({ note }) => note?.label ?? [])).size;
  if (others === 0) return "";
  return others === 1 ? say` (1 line below changes too)` : say` (${others} lines below change too)`;
}

export function nearestWords(scene: Scene, here: RowHere, { count, sized }: Wanted): string {
  const { below, above } = nearestWithFollowing(scene, here, count);
  if (!below && !above) return "";
  const now = here.row.outcome?.makes[0] ?? count;
  const near = [below?.makes ?? now, above?.makes ?? now, now];
  const fewer = Math.max(...near.filter((one) => one < count));
  const more = Math.min(...near.filter((one) => one > count));
  const words = [fewer, more]
    .filter(Number.isFinite)
    .map((one) => `${one}${sized(one)}${one === now ? say` (as it is now)` : ""}`);
  return say`The nearest that fit: ${words.join(say` and `)}.`;
}
