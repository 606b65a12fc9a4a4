import type { WorkedPattern } from "../../rules/rule";
import { rowName } from "../../rules/wording";
import { say } from "../../text/say";
import { rowReport } from "../../workspace/row-report";
import type { PlacedRow } from "../placed-row";
import { type Block, line, title } from "../shown/blocks";
import { kindsOf, sts } from "../shown/counts";
import { mergedSizes } from "../shown/sized";
import type { HoverPart } from "./place";
import { referencesIn, rowsMeant } from "./references";

/** `Rep Rnd 3`, `between Rnds 10 and 11`: the rows that are meant. */
export const rowReference: HoverPart = {
  at(place) {
    if (place.isInHead) return null;
    const { offset, pattern } = place;
    const found = referencesIn(place).find(({ span }) => span.start <= offset && offset < span.end);
    if (!found) return null;
    const { span } = found;
    const rows = rowsMeant(found, place);
    return {
      span,
      blocks: [
        title(place.textOf(span)),
        rows.length > 0 ? rowsTable(rows, pattern) : line(say`No row of this pattern has that number.`),
      ],
    };
  },
};

/** Of more rows than this only the first ones are shown, and the last. */
const rowsAtMost = 8;

function rowsTable(all: readonly PlacedRow[], pattern: WorkedPattern): Block {
  const pieces = new Set(all.map(({ piece }) => piece));
  const shown = all.length > rowsAtMost ? [...all.slice(0, rowsAtMost - 1), ...all.slice(-1)] : all;
  const rows = shown.map(({ row, piece }) => [
    pieces.size > 1 ? say`${rowName(row)} of ${piece.piece.name}` : rowName(row),
    withoutCount(row),
    makes({ row, piece }, pattern),
  ]);
  if (all.length > rowsAtMost) rows.splice(-1, 0, ["…", "", ""]);
  return { kind: "table", head: ["", say`says`, say`makes`], rows };
}

/** What a row says, its count apart. */
function withoutCount({ line: { text, plan } }: PlacedRow["row"]): string {
  return text.slice(0, plan?.statedSpan?.start ?? text.length).trim();
}

function makes({ row }: PlacedRow, pattern: WorkedPattern): string {
  const report = rowReport(row, pattern.context.sizes.length);
  const bySize = (report.makes ?? []).map((n, size) => (n === null ? null : kindsOf(report, size) || sts(n)));
  return mergedSizes(bySize) ?? (row.result === "unchecked" ? say`not checked` : bySize.join("; "));
}
