import { forSize } from "../fabric/instructions";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { faultOf } from "./broken-notes";
import { fixOf, mendsOf, questionFor } from "./mends";
import type { Fix, RowRule } from "./rule";
import { belowName, countedAll, listed, numbers, placesNoun, rowName, says, sizeName } from "./wording";
import { laterRows, writtenFor } from "./written-for";

/** The row fits, but makes another number than it states. */
export const wrongCount: RowRule = {
  id: "wrong-count",
  severity: "error",
  documentation: `## What it finds
A row that fits the row below it but makes another number of stitches than the count at its end says.

## Why it matters
Counts are what makers check themselves by. A wrong one sends them looking for a slip of their own.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (13)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
\`\`\`
`,
  check(row, piece) {
    const span = row.line.plan?.statedSpan;
    if (row.result !== "wrong-count" || !row.outcome || faultOf(row, piece)) return [];
    const slips = slipsOf(row, piece);
    const [missing] = slips.filter(({ said }) => said === null);
    return [
      {
        span: span ? { start: row.line.start + span.start, end: row.line.start + span.end } : row.line.span,
        message: missing ? missingMessage(row, piece, missing) : messageFor(row, piece, slips),
        asks: () => (missing ? null : asking(row, piece)),
        get fixes() {
          return fixesOf(row, piece, slips);
        },
        related: writtenFor(row, piece),
      },
    ];
  },
};

/** One kind in one size whose number is another than stated. */
interface Slip {
  readonly size: number;
  readonly noun: string;
  readonly made: number;
  readonly said: number | null;
}

function slipsOf({ line, outcome }: WorkedRow, piece: WorkedPiece): Slip[] {
  const stated = line.plan?.stated ?? [];
  return (outcome?.counted ?? []).flatMap((sum, size): Slip[] => {
    if (!sum || (line.sizes && !line.sizes.includes(size)) || size >= piece.context.sizes.length) return [];
    const values = [...sum.kinds.values()];
    const over = sum.over
      ? [
          {
            size,
            noun: sum.over === 1 ? say`stitch or chain in no block` : say`stitches or chains in no block`,
            made: sum.over,
            said: 0,
          },
        ]
      : [];
    const apart = stated.flatMap((term, i): Slip[] => {
      const made = stated.length === 1 ? sum.makes : (values[i] ?? sum.makes);
      const said = forSize(term.n, size);
      return said === made ? [] : [{ size, noun: nounOf(term.noun, made), made, said }];
    });
    return [...apart, ...over];
  });
}

/** As the count names it; without a name, stitches. */
function nounOf(noun: string, n: number): string {
  if (noun === "" || noun === "sts") return n === 1 ? say`stitch` : say`stitches`;
  return n !== 1 && / sp$/.test(noun) ? `${noun}s` : noun;
}

function messageFor(row: WorkedRow, piece: WorkedPiece, slips: readonly Slip[]): string {
  const name = rowName(row);
  if (piece.context.sizes.length > 1) return sizesMessage(name, piece, slips);
  const made = listed(
    slips.map((slip) => `${slip.made} ${slip.noun}`),
    "and",
  );
  const said = listed(
    slips.map((slip) => (slips.length > 1 ? `${slip.said} ${slip.noun}` : `${slip.said}`)),
    "and",
  );
  const from = row.outcome?.needs.every((n) => n !== null) ? fromBelow(row, piece) : null;
  return from === null
    ? say`${says(name, "makes")} ${made}; the line says ${said}.`
    : say`${says(name, "makes")} ${made} from ${from}; the line says ${said}.`;
}

function fromBelow(row: WorkedRow, piece: WorkedPiece): string {
  const noun = placesNoun(row);
  const needs = row.outcome?.needs ?? [];
  const places = noun === "stitch" ? say`the ${numbers(needs)}` : say`the ${countedAll(needs, noun)}`;
  return say`${places} of ${belowName(row, piece)}`;
}

function sizesMessage(name: string, piece: WorkedPiece, slips: readonly Slip[]): string {
  const each = slips.map(
    ({ size, made, noun, said }) =>
      say`${made} ${noun} in ${sizeName(size, piece)}, where the line says ${said}`,
  );
  return `${says(name, "makes")} ${listed(each, "and")}.`;
}

function missingMessage(row: WorkedRow, piece: WorkedPiece, missing: Slip): string {
  const given = Math.max(...(row.line.plan?.stated ?? []).map(({ n }) => n.length));
  const { sizes } = piece.context;
  return say`${says(rowName(row), "gives")} ${given} counts, and the pattern has ${sizes.length} sizes. Add the count for ${sizeName(missing.size, piece)}: ${missing.made}.`;
}

/** Rows written for the stated number speak for the count, and against the instructions. */
function asking(row: WorkedRow, piece: WorkedPiece): string | null {
  const { instructions, count } = mendsOf(row, piece);
  const [later] = laterRows(row, piece);
  if (!later) return count?.question ?? null;
  const has = numbers(later.outcome?.has ?? []);
  const ask = questionFor(instructions);
  return ask
    ? say`${says(rowName(later), "is")} written for ${has}. ${ask}`
    : say`${says(rowName(later), "is")} written for ${has}, so look at the instructions first.`;
}

function fixesOf(row: WorkedRow, piece: WorkedPiece, slips: readonly Slip[]): Fix[] {
  const { instructions, count } = mendsOf(row, piece);
  const inRow = instructions.map((mend) => fixOf(mend, row));
  const ofCount = count ? [fixOf(count, row)] : plainCount(row, piece, slips);
  return laterRows(row, piece).length > 0 ? [...inRow, ...ofCount] : [...ofCount, ...inRow];
}

/** One number of a count of one kind, where no proved change of it was found. */
function plainCount(row: WorkedRow, piece: WorkedPiece, [only, ...others]: readonly Slip[]): Fix[] {
  const { text, start, plan } = row.line;
  const stated = plan?.statedSpan;
  const digits = /\d+/.exec(stated ? text.slice(stated.start, stated.end) : "");
  if (!only || others.length > 0 || piece.context.sizes.length > 1 || !stated || !digits) return [];
  if (Number(digits[0]) !== only.said || only.made < 1) return [];
  const at = start + stated.start + digits.index;
  const edits = () => [{ span: { start: at, end: at + digits[0].length }, newText: `${only.made}` }];
  return [{ title: say`Change the count to ${only.made}`, kind: "count", edits }];
}
