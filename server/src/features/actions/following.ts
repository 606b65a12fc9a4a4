import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { addressOf, type Followed, follow } from "../../reshape/follow";
import type { Rewritten } from "../../reshape/rewrite-row";
import type { Refusal } from "../../reshape/row-trial";
import { shift, type TextEdit } from "../../text/span";
import { roundsOrRows, rowTitle } from "../row-names";
import type { NotedEdit, Scene } from "./action";

/** Changes of a row, in offsets of the whole text, together with those of its starting chain. */
export function editsOf({ line, below }: WorkedRow, { edits, chainEdits }: Rewritten): TextEdit[] {
  const own = edits.map(({ span, newText }) => ({ span: shift(span, line.start), newText }));
  const chain = chainEdits.map(({ span, newText }) => ({ span: shift(span, below?.start ?? 0), newText }));
  return [...chain, ...own];
}

/**
 * Some edits with what the rows from one on become after them, each row to be looked at and left out by itself; or
 * why not: a row cannot follow, or something new would be found.
 */
export function withFollowing(
  { text, worked, prover }: Scene,
  from: WorkedRow | null,
  first: readonly TextEdit[],
): readonly NotedEdit[] | Refusal {
  const address = from && addressOf(worked.pieces, from);
  const following = address ? follow(text, address, first) : null;
  const stopped = following?.stopped;
  if (stopped) return { why: `${rowTitle(stopped.row)} cannot follow: ${stopped.why}` };
  const all = [...first, ...(following?.changed.flatMap(notedEdits) ?? [])];
  const after = prover.aftermath(all, []);
  if (!after) return { why: "nothing has to be changed" };
  const [fresh] = after.fresh;
  return fresh ? { why: `something else would be wrong then: ${fresh.message}` } : all;
}

function notedEdits({ row, how, edits }: Followed): NotedEdit[] {
  const note = { label: `${rowTitle(row)}: ${deeds[how]}` };
  return edits.map((edit) => ({ ...edit, note }));
}

const deeds: Readonly<Record<Followed["how"], string>> = {
  count: "another count",
  numbers: "another number",
  spaced: "spaced anew",
};

/** `the rounds that follow`, as the rows of a piece are called. */
export function thoseBehind({ line }: WorkedRow, piece: WorkedPiece): string {
  return `the ${roundsOrRows(line, piece)} that follow`;
}
