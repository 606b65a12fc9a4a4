import type { WorkedPiece } from "../../fabric/worked";
import { estimateOf, inWords } from "../../measure/figures";
import { pieceMeasures } from "../../measure/materials";
import { durationInWords } from "../../measure/time";
import { type YarnUse, yarnUseOf } from "../../measure/yarn-used";
import type { WorkedPattern } from "../../rules/rule";
import { say } from "../../text/say";
import { line, list } from "../shown/blocks";
import { type SizeRow, sizeTable } from "../shown/size-table";
import { pieceCounts } from "./piece-counts";
import type { HoverPart } from "./place";

/** The heading of a piece: how it lies when it is done, its yarn and its time. */
export const pieceHeading: HoverPart = {
  at({ line: own, pattern, options }) {
    if (own?.kind !== "heading") return null;
    const piece = pattern.pieces.find(({ piece }) => piece.name !== "" && piece.span.start === own.start);
    if (!piece) return null;
    const use = yarnUseOf(pattern);
    const { sizes, minutes, make, name } = pieceMeasures(piece, pattern, options);
    const counts = pieceCounts(piece);
    const rows = [
      { label: say`measures`, cells: use.ground.basis?.gauge ? sizes : sizes.map(() => null) },
      ...yarnRows(piece, pattern, use),
      { label: say`time`, cells: minutes.map((n) => (n > 0 ? durationInWords(n) : null)) },
      ...counts.rows,
    ];
    const table = sizeTable(name, pattern.context.sizes, rows);
    const made = make > 1 ? [line(say`Each of the ${make} that are made.`)] : [];
    const blocks = [...table, ...list(counts.notes)];
    return blocks.length > 0 ? { span: own, blocks: [...blocks, ...made] } : null;
  },
};

/** Of the piece made once, its tails with it: in all, and of several yarns each. */
function yarnRows(piece: WorkedPiece, { context }: WorkedPattern, use: YarnUse): SizeRow[] {
  const { basis, list } = use.ground;
  if (basis === null) return [];
  const sums = use.ofPiece(piece);
  const keys = [...new Set(sums.flatMap((one) => [...one.keys()]))];
  return keys.map((key) => ({
    label:
      keys.length > 1 ? ((typeof key === "number" ? list.yarns[key]?.name : key) ?? say`yarn`) : say`yarn`,
    cells: context.sizes.map((_, size) => {
      const length = sums[size]?.get(key);
      return length === undefined ? null : `${inWords(estimateOf(length / 1000, basis))} m`;
    }),
  }));
}
