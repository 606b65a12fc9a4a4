import { forSize } from "../fabric/instructions";
import { partsOf, perPiece, type WorkedPart } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { sentencesOf } from "../notation/assembly";
import { say } from "../text/say";
import { numberFrom } from "../trade/number-words";
import { stitchOf, type Terms } from "../trade/stitches";
import { partNamesOf } from "./pieces-made";
import type { Found, WorkedPattern } from "./rule";
import { numbers, rowName, says } from "./wording";

/** Rounds that are worked along the row ends of a piece in a number that does not go with its rows. */
export function alongRowEnds(pattern: WorkedPattern): Found[] {
  const parts = partsOf(pattern);
  return parts.flatMap((part, at) =>
    part.piece && worksAlong(part.piece).length > 0 ? foundIn(part, at, parts, pattern) : [],
  );
}

/** How many stitches go into how many row ends. */
interface Along {
  /** The index of the row in its piece. */
  readonly at: number;
  /** As the row says; null for "evenly". */
  readonly inEach: number | null;
}

/** `work 26 (28, 30) hdc evenly along the row ends`: all that the row makes. */
const ends =
  /\b(\d+)(?:\s*[([][\d\s,;:–-]+[)\]])?\s+(?:\w+\s+){1,2}(?:evenly\s+)?(?:spaced\s+)?(?:around|along|across|in(?:to)?|over|up|on)\s+(?:the\s+|each\s+of\s+the\s+)?(?:row[\s-]ends?|ends\s+of\s+(?:the\s+)?rows)\b/i;
const inEachRow =
  /\b(one|two|three|[1-3])\s+(?:\w+\s+)?(?:in(?:to)?|for|per)\s+(?:each|every)\s+row\b|\b(?:one|1)\s+per\s+row\b/i;

/** `Ch 1, sc in each row end around, join. (64)`: that and nothing else. */
const oneInEach =
  /^\W*(?:turn\W+)?(?:(?:ch\s*1|1\s*ch)\W+)?(?:work\s+)?(?:1\s+|one\s+)?(?:sc|dc)\s+(?:evenly\s+)?in(?:to)?\s+(?:the\s+end\s+of\s+)?(?:each|every)(?:\s+of\s+the)?\s+(?:row(?:[\s-]ends?)?)\b(?:\s+of\s+the\s+\p{L}+)?(?:\s+(?:around|across|along))?\s*[,.;]?\s*(?:join\b[^()[\]{}]*)?[-–—=()[\]{}.,\s\d]*(?:sc|dc|sts)?\s*[)\]}]?\W*$/iu;

const worksAlong = perPiece(({ rows }: WorkedPiece): readonly Along[] =>
  rows.flatMap(({ line: { plan, text }, result, outcome }, at) => {
    // Rows whose places are not known are looked at only: the others are checked.
    const isOpen = result === "unchecked" || (outcome?.needs.every((n) => n === null) ?? false);
    if (!isOpen || !plan?.stated) return [];
    if (oneInEach.test(text)) return [{ at, inEach: 1 }];
    const worked = ends.exec(text)?.[1];
    if (worked === undefined || Number(worked) !== plan.stated[0]?.n[0]) return [];
    const match = inEachRow.exec(text);
    const said = (match?.[1] ?? (match ? "one" : "")).toLowerCase();
    return [{ at, inEach: match ? numberFrom(said) : null }];
  }),
);

function foundIn(
  part: WorkedPart,
  at: number,
  parts: readonly WorkedPart[],
  pattern: WorkedPattern,
): Found[] {
  const piece = part.piece as WorkedPiece;
  return worksAlong(piece).flatMap(({ at: index, inEach }) => {
    const row = piece.rows[index] as WorkedRow;
    const along = partMeant(row, parts.slice(0, at), pattern)?.piece;
    const rows = along ? rowsOf(along, pattern.context.sizes.length) : null;
    const perRow = along ? (inEach ?? heightOf(along, pattern.context.terms)) : null;
    if (!along || !rows || perRow === null) return [];
    const made = rows.map((_, size) => forSize(row.line.plan?.stated?.[0]?.n ?? [], size));
    const isOff = rows.some((n, size) => isFar(made[size] ?? null, n * perRow, inEach !== null));
    return isOff ? [found(row, made, rows, along, inEach)] : [];
  });
}

/** A piece of fewer rows is written out in part only, or is an edge itself. */
const rowsAtLeast = 6;

/** So much more or less is no matter of how firmly somebody works. */
const half = 1.5;

function isFar(made: number | null, expected: number, isExact: boolean): boolean {
  if (made === null) return false;
  return isExact ? made !== expected : made > half * expected || made * half < expected;
}

/** The piece that a row names, else the one before it. */
function partMeant(
  { line }: WorkedRow,
  before: readonly WorkedPart[],
  pattern: WorkedPattern,
): WorkedPart | undefined {
  const named = sentencesOf(line.content).flatMap((one) => partNamesOf(pattern).mentionsIn(one));
  const parts = [...new Set(named.flatMap(({ pieces }) => pieces))];
  return parts.length > 0
    ? parts.find((part) => before.includes(part))
    : before.findLast(({ piece }) => piece);
}

/** How many rows a piece has, one number a size; null where that is not plain. */
function rowsOf(piece: WorkedPiece, sizes: number): readonly number[] | null {
  const rows = piece.rows.filter(({ line }) => line.kind !== "foundation");
  const last = rows.at(-1)?.line.head;
  const arePlain = rows.every(({ line, times }) => line.head?.word === "row" && line.head.from && times);
  const first = rows[0]?.line.head?.from;
  if (!last || !arePlain || first !== 1) return null;
  const all = [...Array(sizes).keys()].map((size) => forSize(last.to ?? [last.from], size) ?? 0);
  return all.every((n) => n >= rowsAtLeast) ? all : null;
}

/** How many stitches the end of a row takes; null where it is not of one plain stitch. */
function heightOf({ rows }: WorkedPiece, terms: Terms): number | null {
  const kinds = rows.at(-1)?.outcome?.counted[0]?.kinds ?? new Map<string, number>();
  const [kind, ...others] = [...kinds.keys()];
  const stitch = kind === undefined || others.length > 0 ? undefined : stitchOf(kind, terms);
  return heights.get(stitch?.family === "plain" ? stitch.id : "") ?? null;
}

/** Stitches worked into the end of one row. Common practice, no source. */
const heights: ReadonlyMap<string, number> = new Map([
  ["sc", 1],
  ["hdc", 1.5],
  ["dc", 2],
  ["tr", 3],
]);

function found(
  row: WorkedRow,
  made: readonly (number | null)[],
  rows: readonly number[],
  along: WorkedPiece,
  inEach: number | null,
): Found {
  const last = along.rows.at(-1) as WorkedRow;
  const how = inEach === null ? "" : say`, ${inEach === 1 ? say`one` : inEach} in each`;
  return {
    span: row.line.span,
    message: say`${says(rowName(row), "is")} ${numbers(made)} stitches along the ${numbers(rows)} rows of "${along.piece.name}"${how}. Make the numbers agree, or say how the stitches are spread.`,
    fixes: [],
    related: [{ span: last.line.span, message: say`"${along.piece.name}" has ${numbers(rows)} rows.` }],
  };
}
