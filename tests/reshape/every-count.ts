import { readPattern } from "../../server/src/fabric/pattern";
import { Fabric, type WorkedPiece, type WorkedRow } from "../../server/src/fabric/worked";
import { isEven } from "../../server/src/reshape/even";
import { rewriteToMake } from "../../server/src/reshape/rewrite-row";
import { shapedRow } from "../../server/src/reshape/shaped-row";

/*
 * Rows on so many stitches, made to come to another count: each reads clean, fits, makes that count and spreads its
 * increases; a second time nothing is left to do. The rows to begin with are common practice, no source.
 */

export interface Base {
  readonly name: string;
  readonly text: (places: number) => string;
}

const flat = (n: number): string =>
  `Ch ${n + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (${n})\n`;

export const bases: readonly Base[] = [
  {
    name: "round, plain",
    text: (n) => `Rnd 1: ${n} sc in magic ring (${n})\nRnd 2: sc in each st around (${n})`,
  },
  {
    name: "round, half groups",
    text: (n) => `Rnd 1: ${n} sc in magic ring (${n})\nRnd 2: sc 1, inc, sc ${n - 2} (${n + 1})`,
  },
  { name: "flat, plain", text: (n) => `${flat(n)}Row 2: Ch 1, sc in each st across, turn. (${n})` },
  {
    name: "flat, shaped",
    text: (n) => `${flat(n)}Row 2: Ch 1, 2 sc in first st, ${n - 1} sc, turn. (${n + 1})`,
  },
];

function last(text: string): { piece: WorkedPiece; row: WorkedRow } {
  const [piece] = new Fabric().work(readPattern(text));
  const row = piece?.rows.at(-1);
  if (!piece || !row) throw new Error(`no row in ${text}`);
  return { piece, row };
}

/** Even groups, or units that are even among smaller ones. */
function isSpread({ line, outcome }: WorkedRow): boolean {
  const shaped = outcome && line.plan && shapedRow(line.plan, outcome, 0);
  return !shaped || isEven(shaped.groups);
}

/** What a row made for a count does not keep; null where it keeps all. */
export function brokenAt(base: Base, places: number, makes: number): string | null {
  const text = base.text(places);
  const { piece, row } = last(text);
  const found = rewriteToMake(row, piece, makes);
  const told = `${base.name}: ${places} to ${makes}`;
  if ("why" in found) return `${told}: ${found.why}`;
  const again = last(text.replace(row.line.text, found.text));
  const { result, outcome, assumptions } = again.row;
  if (result !== "ok" || outcome?.makes[0] !== makes)
    return `${told}: ${found.text}: ${result}, ${outcome?.makes}`;
  if (assumptions.length > 0) return `${told}: ${found.text}: ${assumptions}`;
  if (!isSpread(again.row)) return `${told}: ${found.text}: its groups are not even`;
  const second = rewriteToMake(again.row, again.piece, makes);
  return "why" in second || second.edits.length > 0
    ? `${told}: ${found.text}: is changed a second time`
    : null;
}

/** Every target from half to double of so many places. */
export function targetsOf(places: number): number[] {
  const fewest = Math.ceil(places / 2);
  return Array.from({ length: 2 * places - fewest + 1 }, (_, i) => fewest + i);
}

/** All counts from 3 on. */
export function everyCount(most: number): string {
  const broken: string[] = [];
  let all = 0;
  for (const base of bases)
    for (let places = 3; places <= most; places++)
      for (const makes of targetsOf(places)) {
        all++;
        const why = brokenAt(base, places, makes);
        if (why) broken.push(`- ${why}`);
      }
  if (broken.length > 0) process.exitCode = 1;
  return [
    `## Every count from 3 to ${most}, every target from half to double: ${all} rows, ${broken.length} broken`,
    ...broken.slice(0, 40),
  ].join("\n");
}
