import { inTradeForm, multipleOf } from "../../fabric/multiple";
import { countsAround } from "../../reshape/which-counts";
import { say } from "../../text/say";
import type { PlacedRow } from "../placed-row";
import { proofBlocks } from "../proof/proof-blocks";
import { workedInWords } from "../reading/row-in-words";
import { factsOf } from "../row-facts";
import { rowTitle } from "../row-names";
import { notesOf } from "../row-notes";
import { type Block, line, list } from "../shown/blocks";
import { type SizeRow, sizeTable } from "../shown/size-table";
import type { Place } from "./place";
import { measureNotes, measureRows } from "./row-measures";

/** A row with its numbers, what is to be said of them, and its proof. */
export function rowBlocks(placed: PlacedRow, place: Place): Block[] {
  const { pattern, options } = place;
  return [
    ...sizeTable(rowTitle(placed.row), pattern.context.sizes, [
      ...factsOf(placed, pattern),
      ...multipleRow(placed),
      ...togetherRow(placed),
      ...measureRows(placed, pattern, options),
    ]),
    ...list([...notesOf(placed, pattern), ...measureNotes(placed, pattern)]),
    ...proofBlocks(placed),
    ...inWords(placed, place),
  ];
}

/** For whoever cannot see a table, or does not know the abbreviations. */
function inWords(placed: PlacedRow, { pattern }: Place): Block[] {
  const said = workedInWords(placed, pattern);
  return said === null ? [] : [line(say`In words: ${said}`)];
}

/** `multiple of 4 + 2`: the numbers of stitches the row could be worked on, where not all will do. */
function multipleRow({ row: { outcome, result } }: PlacedRow): SizeRow[] {
  if (!outcome || result !== "ok") return [];
  const cells = outcome.steps.map((_, size) => {
    const multiple = multipleOf(outcome, size);
    return multiple && multiple.of > 1 ? inTradeForm(multiple) : null;
  });
  return [{ label: say`can be worked on`, cells }];
}

/** The counts that suit the row together with its neighbours, where they ask for more than it does. */
function togetherRow({ row, piece }: PlacedRow): SizeRow[] {
  const suiting = row.result === "ok" ? countsAround(row, piece) : null;
  const own = row.outcome && multipleOf(row.outcome, 0);
  if (!suiting || (own && own.of === suiting.of && own.plus === suiting.plus)) return [];
  const { first, last, below, above } = suiting;
  const near = [below, above].flatMap((n) => n ?? []).join(say` and `);
  const label = say`with ${rowTitle(first)} to ${rowTitle(last)}`;
  return [{ label, cells: [say`${inTradeForm({ ...suiting, startingChain: null })}; next are ${near}`] }];
}
