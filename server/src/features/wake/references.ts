import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { type NumberInText, readRowReferences } from "../../notation/row-references";
import type { WorkedPattern } from "../../rules/rule";
import { numbers } from "../../rules/wording";
import { say } from "../../text/say";
import { shift, type TextEdit } from "../../text/span";
import { piecesMeant, rowNumbered } from "./meant-rows";
import type { Stale } from "./stale";
import type { Twins } from "./twins";

/** A line that names rows, as it is now. */
interface Speaking {
  readonly text: string;
  readonly start: number;
  readonly name: string;
  /** The pieces it may mean, before a change and after it. */
  readonly pieces: readonly Pair[];
}

interface Pair {
  readonly was: WorkedPiece;
  readonly is: WorkedPiece;
}

/** Rows named in other rows: the number has gone over to another row, or is gone. */
export function staleReferences(twins: Twins): Stale[] {
  const astray = piecesAstray(twins);
  return twins.rows.flatMap(({ now: { line }, piece }) => {
    if (!astray.has(piece)) return [];
    const speaking = {
      text: line.text,
      start: line.start,
      name: line.headText,
      pieces: pairsOf([piece], twins),
    };
    return staleIn(speaking, "reference", movesIn(speaking, twins));
  });
}

/** Pieces in which some number no longer bears the row it bore: only there a row can name a wrong one. */
function piecesAstray({ pieceBefore, rowNow, rowsNow }: Twins): ReadonlySet<WorkedPiece> {
  const isAstray = (row: WorkedRow, is: WorkedPiece): boolean => {
    const from = row.line.head?.from;
    if (from == null) return false;
    const twin = rowNow.get(row);
    return twin ? twin.line.head?.from !== from : lost(from, rowNumbered(is, from), rowsNow).length > 0;
  };
  const pairs = [...pieceBefore].filter(([is, was]) => was.rows.some((row) => isAstray(row, is)));
  return new Set(pairs.map(([is]) => is));
}

/** Rows named in prose, to say where something is placed: their number, or how many stitches they have, is another. */
export function stalePlacements(twins: Twins, now: WorkedPattern): Stale[] {
  return twins.lines.flatMap(({ now: line }) => {
    if (!/\d/.test(line.text)) return [];
    const pieces = pairsOf(piecesMeant(now, line), twins);
    const speaking = { text: line.text, start: line.start, name: inShort(line.text), pieces };
    return staleIn(speaking, "placement", [...movesIn(speaking, twins), ...othersIn(speaking, twins)]);
  });
}

function pairsOf(pieces: readonly WorkedPiece[], { pieceBefore }: Twins): Pair[] {
  return pieces.flatMap((is) => {
    const was = pieceBefore.get(is);
    return was ? [{ was, is }] : [];
  });
}

/** What became of one row that is named. */
interface Change {
  readonly says: string;
  readonly edit: TextEdit | null;
}

function staleIn(
  { text, start, name, pieces }: Speaking,
  sort: Stale["sort"],
  changes: readonly Change[],
): Stale[] {
  if (changes.length === 0) return [];
  const edits = changes.flatMap(({ edit }) => edit ?? []);
  const renamed = [...new Set(edits.map(({ newText }) => newText))].join(say` and `);
  const mend = edits.length > 0 ? { title: say`Write ${renamed}`, edits: () => edits } : null;
  const says = [...new Set(changes.map((change) => change.says))].join(" ");
  const span = { start: start + text.length - text.trimStart().length, end: start + text.trimEnd().length };
  return [{ sort, span, name, piece: pieces[0]?.is.piece.name ?? "", says, mend }];
}

/** A row that a number named before, in the first piece that had such a row. */
interface Named extends Pair {
  readonly number: NumberInText;
  readonly row: WorkedRow;
}

function namedIn({ text, pieces }: Speaking): Named[] {
  if (pieces.length === 0 || !/\d/.test(text)) return [];
  const all = readRowReferences(text).flatMap(({ numbers }) => numbers);
  return all.flatMap((number): Named[] => {
    const pair = pieces.find(({ was }) => rowNumbered(was, number.n));
    const row = pair && rowNumbered(pair.was, number.n);
    return pair && row ? [{ ...pair, number, row }] : [];
  });
}

function movesIn(speaking: Speaking, { rowNow, rowsNow }: Twins): Change[] {
  return namedIn(speaking).flatMap(({ number, row, is }): Change[] => {
    const twin = rowNow.get(row);
    if (!twin) return lost(number.n, rowNumbered(is, number.n), rowsNow);
    const to = number.n + (twin.line.head?.from ?? 0) - (row.line.head?.from ?? 0);
    const span = shift(number, speaking.start);
    return to === number.n
      ? []
      : [{ says: say`Row ${number.n} has become row ${to}.`, edit: { span, newText: `${to}` } }];
  });
}

/** A row that was changed bears its number still; one that is gone may have left it to another. */
function lost(n: number, now: WorkedRow | undefined, rowsNow: ReadonlySet<WorkedRow>): Change[] {
  if (!now) return [{ says: say`Row ${n} is gone.`, edit: null }];
  return rowsNow.has(now) ? [{ says: say`Row ${n} is another row now.`, edit: null }] : [];
}

/** Rows that make another number of stitches. */
function othersIn(speaking: Speaking, { rowNow }: Twins): Change[] {
  return namedIn(speaking).flatMap(({ number: { n }, row, is }): Change[] => {
    const same = rowNow.get(row) ?? rowNumbered(is, n);
    const [made, makes] = [row.outcome?.makes, same?.outcome?.makes];
    if (!same || !made || !makes || numbers(made) === numbers(makes)) return [];
    return [
      { says: say`${same.line.headText} makes ${numbers(makes)} now; it made ${numbers(made)}.`, edit: null },
    ];
  });
}

const longestName = 60;

function inShort(text: string): string {
  const line = text.trim().replace(/\s+/g, " ");
  return line.length <= longestName ? line : `${line.slice(0, longestName - 1).trimEnd()}…`;
}
