import { perPiece, type WorkedPart } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import type { Fix, Found } from "./rule";
import { isRearranged, turningOf } from "./turning";
import { rowName } from "./wording";

/** So many pairs of rows with a turn show that the piece writes them. */
const turnedAtLeast = 3;

/** A row whose turn went missing: the next one is marked with the other side, and all others say that they turn. */
export function lostTurns(part: WorkedPart): Found[] {
  const { piece } = part;
  const at = piece && pairWithoutTurn(piece);
  const [before, row] = piece && at != null ? piece.rows.slice(at, at + 2) : [];
  return before && row && !isRearranged(part, before, row) ? [found(before, row)] : [];
}

/** The index of the first row of the only such pair; null where there is none, or several. */
const pairWithoutTurn = perPiece(({ rows }: WorkedPiece): number | null => {
  const turns = rows.map((row, at) => turnsTo(row, rows[at + 1]));
  const isClear = turns.filter((n) => n === 1).length >= turnedAtLeast;
  const [only, ...others] = turns.flatMap((n, at) => (n === 0 ? [at] : []));
  return isClear && only !== undefined && others.length === 0 ? only : null;
});

/** Turns from a row to the next one, which is marked with the other side; null where they are not known. */
function turnsTo(before: WorkedRow, row: WorkedRow | undefined): number | null {
  const sides = [before.line.head?.side, row?.line.head?.side];
  const isOtherSide = sides[0] != null && sides[1] != null && sides[0] !== sides[1];
  const isOne = before.times?.every((n) => n === 1);
  if (!row || !isOtherSide || !isOne) return null;
  const [above, own] = [turningOf(before.line.content), turningOf(row.line.content)];
  if (!above || !own || above.standsForOthers || own.standsForOthers) return null;
  return (above.last ? 1 : 0) + (own.first ? 1 : 0);
}

function found(before: WorkedRow, row: WorkedRow): Found {
  const [then, now] = [rowName(before), rowName(row)];
  const sides = say`${then} is marked ${before.line.head?.side} and ${now} is marked ${row.line.head?.side}`;
  return {
    span: before.line.span,
    message: say`${sides}, and no turn is written between them, as it is between the other rows. Say "turn" at the end of ${then}.`,
    fixes: [turning(before)],
    related: [{ span: row.line.span, message: say`${now} is marked ${row.line.head?.side}.` }],
  };
}

/** Before the count, where there is one. */
function turning({ line: { text, start, plan } }: WorkedRow): Fix {
  const worked = text.slice(0, plan?.statedSpan?.start ?? text.length).replace(/[\s.,;:=–—([{-]+$/, "");
  const at = start + worked.length;
  return {
    title: say`Add "turn"`,
    edits: () => [{ span: { start: at, end: at }, newText: ", turn" }],
  };
}
