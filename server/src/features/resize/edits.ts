import type { WorkedPattern, WorkedPiece } from "../../fabric/worked";
import type { NumberedRow, RowEdits } from "../../reshape/resize/draft";
import type { Resized } from "../../reshape/resize/resize";
import { say } from "../../text/say";
import type { NotedEdit } from "../actions/action";
import { rowTitle } from "../row-names";
import { eyeletsOf } from "./eyelets";
import { type Mentions, mentionsOf } from "./mentions";

/** All that a new size of a piece changes, each line to be looked at and left out by itself. */
export function editsOf(pattern: WorkedPattern, piece: WorkedPiece, resized: Resized): Mentions {
  const own = resized.rows.flatMap(notedEdits);
  const said = [mentionsOf(pattern, piece, resized), eyeletsOf(pattern, piece, resized)];
  return {
    edits: [...own, ...said.flatMap(({ edits }) => edits)],
    left: said.flatMap(({ left }) => left),
  };
}

function notedEdits({ row, edits }: RowEdits): NotedEdit[] {
  const note = { label: labelOf(row) };
  return edits.map((edit) => ({ ...edit, note }));
}

function labelOf({ row, state, from, rows, body }: NumberedRow): string {
  const numbers = from === null ? "" : rows > 1 ? ` ${from}-${from + rows - 1}` : ` ${from}`;
  if (state === "gone") return say`${rowTitle(row)}: left out`;
  if (state !== "kept") return say`New:${numbers}`;
  const isMoved =
    from !== row.line.head?.from || rows !== (row.line.head?.to?.[0] ?? from ?? 1) - (from ?? 1) + 1;
  const isTold = body !== row.line.text;
  const moved = isMoved && from !== null ? say` now${numbers}` : "";
  return `${rowTitle(row)}:${moved}${moved && isTold ? "," : ""}${isTold ? say` told anew` : ""}`;
}
