import type { WorkedPattern, WorkedRow } from "../../fabric/worked";
import type { PatternLine } from "../../notation/lines";
import { offsetAfter, type Span, type TextEdit, withEdits } from "../../text/span";
import { listsOf, sizedListsOf } from "../grading/size-lists";

/*
 * A pattern of several sizes, told for one of them: each list is its number for that size, and rows that the size does
 * not work are left out. It has the lines of the whole pattern, so that what changes in it can be put back.
 */

/** A list with the one of its entries that stays. */
export interface Cut extends TextEdit {
  /** Where that entry stands in the whole pattern. */
  readonly cell: Span | null;
}

export interface OneSize {
  readonly name: string;
  readonly text: string;
  /** What was cut from the whole pattern, in order. */
  readonly cuts: readonly Cut[];
  /** Whether the size works what stands there. */
  works(offset: number): boolean;
  /** Where an offset of the whole pattern is in it. */
  inSize(offset: number): number;
}

/** A list, and which sizes its entries are for; null for all of them. */
interface List extends Span {
  readonly cells: readonly (Span & { readonly text: string })[];
  readonly sizes: readonly number[] | null;
}

/** The pattern for each of its sizes. */
export function oneSizeEach(pattern: WorkedPattern): OneSize[] {
  const lists = [...ofAll(pattern), ...rangesOf(pattern), ...ofSome(pattern)];
  return pattern.context.sizes.map((name, size) => {
    const gone = unworked(pattern, lists, size);
    const isGone = (offset: number): boolean =>
      gone.some(({ start, end }) => start <= offset && offset < end);
    const kept = lists
      .filter(({ start }) => !isGone(start))
      .flatMap((list) => cutTo(list, size, pattern.text));
    const cuts = [...kept, ...gone.map((span) => ({ span, newText: "", cell: null }))];
    cuts.sort((a, b) => a.span.start - b.span.start);
    return {
      name,
      text: withEdits(pattern.text, cuts),
      cuts,
      works: (offset) => !isGone(offset),
      inSize: (offset) => offsetAfter(offset, cuts),
    };
  });
}

function ofAll(pattern: WorkedPattern): List[] {
  return sizedListsOf(pattern).map((list) => ({ ...list, sizes: null }));
}

/** `Rows 33-44 (37-50)`. */
function rangesOf({ pieces, lines, context }: WorkedPattern): List[] {
  return pieces.flatMap(({ rows }) =>
    rows.flatMap(({ line }) =>
      linesIn(lines, { start: line.span.start, end: line.start }).flatMap((one) =>
        listsOf(one, context.sizes.length, "ranges").map((list) => ({ ...list, sizes: null })),
      ),
    ),
  );
}

/** Lists of rows that some of the sizes work, with a number for each of those. */
function ofSome({ pieces, lines, context }: WorkedPattern): List[] {
  return pieces.flatMap(({ rows }) =>
    rows.flatMap(({ line: { sizes, span } }) =>
      sizes && sizes.length > 1 && sizes.length < context.sizes.length
        ? linesIn(lines, span).flatMap((one) =>
            listsOf(one, sizes.length, "numbers").map((list) => ({ ...list, sizes })),
          )
        : [],
    ),
  );
}

function cutTo({ start, end, cells, sizes }: List, size: number, text: string): Cut[] {
  const cell = cells[sizes ? sizes.indexOf(size) : size];
  return cell ? [{ span: { start, end }, newText: text.slice(cell.start, cell.end), cell }] : [];
}

function linesIn(lines: readonly PatternLine[], { start, end }: Span): PatternLine[] {
  return lines.filter((line) => line.end > start && line.start < end);
}

/** The lines of rows that a size does not work, and those that tell which sizes rows are for. */
function unworked({ pieces, lines }: WorkedPattern, lists: readonly List[], size: number): Span[] {
  const rows = pieces.flatMap(({ rows }) => rows.filter((row) => !isWorkedBy(row, lists, size)));
  const ofRows = rows.flatMap(({ line }) => linesIn(lines, line.span));
  const heads = lines.filter(({ kind }) => kind === "size");
  return [...ofRows, ...heads].map(({ start, end }) => ({ start, end }));
}

function isWorkedBy({ line }: WorkedRow, lists: readonly List[], size: number): boolean {
  const { sizes, span } = line;
  if (sizes && !sizes.includes(size)) return false;
  const own = lists.filter(({ start }) => span.start <= start && start < span.end);
  return !own.some((list) => !list.sizes && /^[-–—]$/.test(list.cells[size]?.text ?? ""));
}
