import { say } from "../../text/say";
import { withEdits } from "../../text/span";
import { rewriteToMake } from "../rewrite-row";
import type { Rewritten } from "../rewritten";
import { isRefusal, type Refusal } from "../row-trial";
import type { DraftRow } from "./draft";
import type { DraftParts } from "./resize";
import type { Silhouette } from "./silhouette";
import type { Workbench } from "./workbench";

/** The first row is made wider or narrower; what follows keeps its increases. */
export function restart(
  parts: DraftParts,
  { piece }: Workbench,
  { rungs, begin }: Silhouette,
  to: number,
): DraftParts | Refusal {
  const first = rungs[begin];
  if (!first) return { why: say`it has no first row` };
  if (to < 1) return { why: say`its first row would have ${to} stitches` };
  const found = rewriteToMake(first.row, piece, to);
  if (isRefusal(found))
    return { why: say`${first.row.line.headText} cannot be made wider or narrower: ${found.why}` };
  return { ...parts, up: parts.up.map((one) => rewrittenIn(one, first.row, found)) };
}

/** The row itself, and the chain on the line before it. */
function rewrittenIn(one: DraftRow, row: DraftRow["row"], { text, chainEdits, after }: Rewritten): DraftRow {
  if (one.row === row) return { ...one, body: text, after };
  return one.row.line === row.below ? { ...one, body: withEdits(one.body, chainEdits) } : one;
}
