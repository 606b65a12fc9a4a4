import type { WorkedPiece } from "../../fabric/worked";
import type { WorkedPattern } from "../../rules/rule";
import { numbers } from "../../rules/wording";
import { say } from "../../text/say";
import { shift } from "../../text/span";
import { whereNamed } from "../named-pieces";
import type { Stale } from "./stale";
import type { LineTwins, Twins } from "./twins";

/** Words with which a finished piece is put to use. */
const joining =
  /\b(?:sew|seam|join|attach|pin|whip|gather|slip|fit|stuff|place|insert|match|edging|edge|border|fasten|close|lace|thread|fold|line)/i;

/** Sentences that put a piece to use which ends with another number of stitches now, is made more often, or is gone. */
export function stalePieces(
  { lines, pieceBefore }: Twins,
  before: WorkedPattern,
  now: WorkedPattern,
): Stale[] {
  const changes = now.pieces.flatMap((is) => {
    const was = pieceBefore.get(is);
    return was && is.piece.name ? changesOf(was, is) : [];
  });
  const left = new Set(now.pieces.map(({ piece }) => piece.name));
  const gone = before.pieces
    .filter(({ piece }) => piece.name !== "" && !left.has(piece.name))
    .map(({ piece }) => ({ name: piece.name, says: say`No piece is called ${piece.name} any more.` }));
  return [...changes, ...gone].flatMap((change) => lines.flatMap((line) => staleIn(line, change)));
}

interface Change {
  readonly name: string;
  readonly says: string;
}

function changesOf(was: WorkedPiece, is: WorkedPiece): Change[] {
  const { name, make } = is.piece;
  const [ended, ends] = [endOf(was), endOf(is)];
  const says = [
    ...(ended && ends && ended !== ends
      ? [say`${name} ends with ${ends} stitches now; it ended with ${ended}.`]
      : []),
    ...(was.piece.make !== make
      ? [say`${name} is made ${times(make)} now, before ${times(was.piece.make)}.`]
      : []),
  ];
  return says.length > 0 ? [{ name, says: says.join(" ") }] : [];
}

/** The stitches of its last row; null where they are not known. */
function endOf({ rows }: WorkedPiece): string | null {
  const makes = rows.at(-1)?.outcome?.makes;
  return makes?.some((n) => n !== null) ? numbers(makes) : null;
}

function times(n: number): string {
  return n === 1 ? say`once` : say`${n} times`;
}

function staleIn({ now: { text, start, kind } }: LineTwins, { name, says }: Change): Stale[] {
  const named = kind === "heading" ? null : whereNamed(text, name);
  if (!named || !joining.test(text)) return [];
  return [{ sort: "piece", span: shift(named, start), name: text.trim(), piece: name, says, mend: null }];
}
