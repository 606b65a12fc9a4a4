import {
  type HouseStyle,
  houseStyleEdits,
  houseStyles,
  readHouseStyle,
  styleNames,
} from "../../server/src/features/house-style";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";

const all = { start: 0, end: Infinity };

/** The built-in styles, and two of a house's own that have everything otherwise. */
export const allStyles: Readonly<Record<string, HouseStyle>> = {
  ...houseStyles,
  "spelled-out": readHouseStyle({ round: "R", row: "R", repeats: "spelled-out", count: "square" }).style,
  "for print": readHouseStyle({ round: "Round", signs: "print", number: "behind" }).style,
};

export const allNames: readonly string[] = [
  ...styleNames,
  ...Object.keys(allStyles).slice(styleNames.length),
];

/** A text with all its rows in a style. */
export function styled(text: string, name: string): string {
  const checker = new Checker();
  const edits = houseStyleEdits(checker.work(text), allStyles[name] as HouseStyle, all, (copy) =>
    checker.work(copy),
  );
  return withEdits(text, edits);
}

/** Everything the check says of the rows, and all lines that are no rows. */
export function meaning(text: string): unknown {
  const { report, worked } = new Checker().work(text);
  const rows = report.pieces.flatMap((piece) =>
    piece.rows.map(({ head: _, span: __, ...numbers }) => numbers),
  );
  const isRow = (kind: string) => kind === "row" || kind === "copy";
  const prose = worked.lines.filter(({ kind }) => !isRow(kind)).map((line) => line.text);
  return {
    rows,
    prose,
    loud: report.findings.filter(({ severity }) => severity === "error").map(({ rule }) => rule),
  };
}
