import { frontMatterOf } from "../notation/front-matter/front-matter";
import { type SizeList, shortListsIn } from "../notation/mentions/size-lists";
import { say } from "../text/say";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { placeOf, type Used, usesOf } from "./uses";
import { listed } from "./wording";

/** A list has more or fewer numbers than the pattern has sizes. */
export const unevenSizes: PatternRule = {
  id: "uneven-sizes",
  severity: "warning",
  documentation: `## What it finds
A list of numbers, one a size, with more or fewer numbers than the pattern has sizes.

## Why it matters
Makers of the last sizes find no number of theirs, or take that of their neighbour.

## Example
\`\`\`crochet
Sizes: S (M, L)
Finished circumference: 40 (46, 51, 57) cm

Ch 41 (47, 53).
Row 1: Sc in 2nd ch from hook and in each ch across. 40 (46, 52) sc.
\`\`\`

## Mended
\`\`\`crochet
Sizes: S (M, L)
Finished circumference: 40 (46, 51) cm

Ch 41 (47, 53).
Row 1: Sc in 2nd ch from hook and in each ch across. 40 (46, 52) sc.
\`\`\`
`,
  check(pattern) {
    const { sizes } = pattern.context;
    if (sizes.length < 2) return [];
    const told = toldRows(pattern);
    const lists = sizes.length < 3 ? [] : usesOf(pattern).sizeLists;
    const wrong = [...lists, ...shortLists(lists, sizes.length), ...shortAmounts(pattern)].filter(
      ({ line, mention }) => mention.length !== sizes.length && !told.has(line.start),
    );
    const found = wrong.map((used) => foundOn(used, sizes));
    return [...found, ...rowsLeft(pattern, found)];
  },
};

/** Rows for some sizes only, and rows that have a query of their own already. */
function toldRows({ pieces }: WorkedPattern): ReadonlySet<number> {
  const rows = pieces.flatMap((piece) => piece.rows);
  const told = rows.filter(
    ({ line, result }) => line.sizes !== null || (result !== "ok" && result !== "unchecked"),
  );
  return new Set(told.map(({ line }) => line.span.start));
}

/** `18 (20) cm / 7 (8, 8¾) in`: a list that is whole tells that the other beside it is not. */
function shortLists(lists: readonly Used<SizeList>[], sizes: number): Used<SizeList>[] {
  const lines = new Set(lists.filter(({ mention }) => mention.length === sizes).map(({ line }) => line));
  return [...lines]
    .filter(({ kind }) => kind !== "row")
    .flatMap((line) => shortListsIn(line.text).map((mention) => ({ line, mention })));
}

/** `200 (230) g`: how much of a yarn for two of more sizes. */
function shortAmounts({ lines, context }: WorkedPattern): Used<SizeList>[] {
  if (context.sizes.length < 3) return [];
  const amounts = frontMatterOf(lines).yarns.flatMap((yarn) => yarn.amounts);
  return amounts.flatMap(({ values, start, end }) => {
    const line = lines.find((one) => one.start <= start && end <= one.end);
    if (!line || values.length !== 2) return [];
    return [{ line, mention: { start: start - line.start, end: end - line.start, length: 2 } }];
  });
}

/** Rows with a list that is told by its words alone: a range of rows, a list that lacks all but one number. */
function rowsLeft({ pieces, text }: WorkedPattern, found: readonly Found[]): Found[] {
  const rows = pieces.flatMap((piece) => piece.rows);
  return rows.flatMap(({ line, fault }) => {
    if (fault?.sort !== "uneven-list") return [];
    const { start, end } = line.span;
    if (found.some(({ span }) => span.start < end && start < span.end)) return [];
    const { list } = fault;
    const at = text.slice(start, end).indexOf(list);
    const span = at < 0 ? line.span : { start: start + at, end: start + at + list.length };
    return [{ span, message: `${fault.says}.`, fixes: [], related: [] }];
  });
}

function foundOn(used: Used<SizeList>, sizes: readonly string[]): Found {
  const { length } = used.mention;
  return {
    span: placeOf(used),
    message: say`This list has ${length} numbers, and the pattern has ${sizes.length} sizes: ${listed(sizes, "and")}. ${length < sizes.length ? say`${sizes.length - length} missing.` : say`${length - sizes.length} too many.`}`,
    fixes: [],
    related: [],
  };
}
