import { isRefusal, type Refusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import type { Span } from "../../text/span";
import type { NotedEdit, Scene } from "../actions/action";
import { type RewrittenWith, rewriteAbove, rewriteWithFollowing } from "../actions/rewrite-row";
import { type RowHere, rowHere } from "../actions/row-here";
import { provedInAllSizes } from "./in-all-sizes";
import { type SizeScene, sizeScenes } from "./size-scenes";

/** A row in each of the sizes that work it. */
export interface RowInSizes {
  readonly all: readonly SizeScene[];
  readonly rows: readonly { readonly size: SizeScene; readonly here: RowHere; readonly now: number }[];
}

/** Null where there is no row, or a size cannot be told alone. */
export function rowInSizes(scene: Scene, focus: Span): RowInSizes | null {
  const here = rowHere(scene, focus);
  const all = here && sizeScenes(scene.worked);
  if (!all || !here) return null;
  const { start } = here.row.line;
  const rows = all.flatMap((size) => {
    if (!size.one.works(start)) return [];
    const at = size.one.inSize(start);
    const own = rowHere(size.scene, { start: at, end: at });
    const now = own?.row.outcome?.makes[0];
    return own && now != null ? [{ size, here: own, now }] : [];
  });
  return rows.length > 0 ? { all, rows } : null;
}

export interface RewrittenInSizes {
  /** What became of each row in its size; null where a size stays as it is. */
  readonly each: readonly (RewrittenWith | null)[];
  readonly edits: readonly NotedEdit[];
}

/**
 * The row for a count in each size that works it; `null`: that size stays as it is. Where the sizes would need different
 * words for it, it is rewritten from a row above.
 */
export function rewriteInSizes(
  scene: Scene,
  row: RowInSizes,
  counts: readonly (number | null)[],
): RewrittenInSizes | Refusal {
  const own = rewrittenBy(scene, row, counts, rewriteWithFollowing);
  if (!isRefusal(own)) return own;
  const above = rewrittenBy(scene, row, counts, rewriteAbove);
  return isRefusal(above) ? own : above;
}

/** A reason, with the size that it holds for. */
export function inSize(name: string, why: string): string {
  return say`size ${name}: ${why}`;
}

type Rewriting = (scene: Scene, here: RowHere, count: number) => RewrittenWith | Refusal | null;

function rewrittenBy(
  scene: Scene,
  { all, rows }: RowInSizes,
  counts: readonly (number | null)[],
  rewritten: Rewriting,
): RewrittenInSizes | Refusal {
  const each: (RewrittenWith | null)[] = [];
  for (const [i, { size, here, now }] of rows.entries()) {
    const count = counts[i] ?? null;
    const isSame = count === null || count === now;
    const found = isSame
      ? null
      : (rewritten(size.scene, here, count) ?? { why: say`no row above it sets its count` });
    if (found && isRefusal(found)) return { why: inSize(size.one.name, found.why) };
    each.push(found);
  }
  const done = provedInAllSizes(
    scene,
    all.map((size) => ({ size, edits: each[rows.findIndex((row) => row.size === size)]?.edits ?? [] })),
  );
  return isRefusal(done) ? done : { each, edits: done.edits };
}
