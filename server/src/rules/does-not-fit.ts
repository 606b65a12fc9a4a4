import type { Outcome } from "../fabric/outcome";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { sentenceStart } from "../text/sentence";
import type { Span } from "../text/span";
import { faultOf } from "./broken-notes";
import { lastStitches } from "./last-stitches";
import { fixOf, mendsOf, questionFor } from "./mends";
import type { Finding, RowRule } from "./rule";
import {
  belowName,
  counted,
  countedAll,
  listed,
  type Noun,
  placesNoun,
  rowName,
  says,
  sizeName,
} from "./wording";
import { writtenFor } from "./written-for";

/** The row uses more or fewer places than the row below leaves. */
export const doesNotFit: RowRule = {
  id: "does-not-fit",
  severity: "error",
  documentation: `## What it finds
A row that needs more or fewer stitches than the row below it has.

## Why it matters
Whoever works the row comes out with stitches left over, or runs out of them before the end. The count at the end of the row can still be right.

## Example
\`\`\`crochet
R1: fsc 18, join (18)
R2: (4 sc, dec) x6 (15)
\`\`\`

## Mended
\`\`\`crochet
R1: fsc 18, join (18)
R2: (4 sc, dec) x3 (15)
\`\`\`
`,
  check(row, piece) {
    if (row.result === "ok") return lastStitches(row);
    if (row.result !== "does-not-fit" || !row.outcome || faultOf(row, piece)) return [];
    return [
      {
        span: instructionsSpan(row),
        message: messageFor(row, piece),
        asks: () => questionFor(mendsOf(row, piece).instructions),
        get fixes() {
          return mendsOf(row, piece).instructions.map((mend) => fixOf(mend, row));
        },
        related: [...wherePlacesComeFrom(row, piece), ...writtenFor(row, piece)],
      },
    ];
  },
};

/** The instructions without the count behind them. */
function instructionsSpan({ line }: WorkedRow): Span {
  const count = line.plan?.statedSpan?.start ?? line.text.length;
  const own = line.text.slice(0, count).trimEnd();
  const start = line.start + own.length - own.trimStart().length;
  return own.trim() === "" ? line.span : { start, end: line.start + own.length };
}

function wherePlacesComeFrom(row: WorkedRow, piece: WorkedPiece): Finding["related"] {
  if (!row.below || !row.outcome || row.outcome.misfit || row.line.plan?.onRow != null) return [];
  const places = countedAll(row.outcome.has, placesNoun(row));
  const name = sentenceStart(belowName(row, piece));
  const message =
    row.after === row.below
      ? `${says(name, "says")} ${places}.`
      : say`${says(name, "leaves")} ${places} to work into.`;
  return [{ span: row.below.span, message }];
}

type Worked = Pick<Outcome, "needs" | "has">;

/** The numbers of one size that does not fit. */
interface Misfit {
  readonly row: string;
  readonly below: string;
  readonly needs: number;
  readonly has: number;
  readonly noun: Noun;
  readonly size: string;
}

function messageFor(row: WorkedRow, piece: WorkedPiece): string {
  const wrong = misfits(row, piece);
  const [first] = wrong;
  if (!first) return laterRowMessage(row, piece);
  if (piece.context.sizes.length > 1) return sizesMessage(wrong);
  const repeat = unevenRepeat(row, first);
  if (repeat) return unevenMessage({ ...first, ...repeat });
  return row.line.plan?.instructions.some(({ op }) => op === "other-side")
    ? bothSidesMessage(first)
    : plainMessage(first);
}

function misfits(row: WorkedRow, piece: WorkedPiece, worked: Worked | null = row.outcome): Misfit[] {
  const same = { row: rowName(row), below: belowName(row, piece), noun: placesNoun(row) };
  return (worked?.needs ?? []).flatMap((n, size) => {
    const [needs, has] = [n ?? 0, worked?.has[size] ?? 0];
    return needs === has ? [] : [{ ...same, needs, has, size: sizeName(size, piece) }];
  });
}

/** The first row of a range fits, and a later one does not. */
function laterRowMessage(row: WorkedRow, piece: WorkedPiece): string {
  const later = row.outcome?.misfit ?? null;
  const [wrong] = misfits(row, piece, later);
  if (!later || !wrong) return say`${rowName(row)}: a row does not fit the row before it.`;
  const { needs, has, noun, size } = wrong;
  const where = piece.context.sizes.length > 1 ? say` in ${size}` : "";
  const fitting =
    later.after === 1 ? say`the first of these rows fits` : say`${later.after} of these rows fit`;
  return say`${rowName(row)}: ${fitting}; the next one needs ${counted(needs, noun)}${where} and has ${has}: ${apart(needs, has)}.`;
}

function plainMessage({ row, below, needs, has, noun }: Misfit): string {
  return say`${says(row, "needs")} ${counted(needs, noun)}; ${says(below, "has")} ${has}: ${apart(needs, has)}.`;
}

function bothSidesMessage({ row, needs, has, noun }: Misfit): string {
  return say`${says(row, "needs")} ${counted(needs, noun)}; the starting chain has ${has}, both sides taken together: ${apart(needs, has)}.`;
}

function sizesMessage(wrong: readonly Misfit[]): string {
  const [{ row, below }] = wrong as [Misfit];
  const each = wrong.map(
    ({ size, needs, has, noun }) =>
      say`in ${size} it needs ${counted(needs, noun)} and has ${has} (${apart(needs, has)})`,
  );
  return say`${says(row, "does not fit")} ${below}: ${listed(each, "and")}.`;
}

function unevenMessage({ row, below, needs, has, noun, each, times }: Misfit & UnevenRepeat): string {
  const over = has - needs;
  const goes = times === 1 ? say`once` : say`${times} times`;
  const repeated = each * times;
  return say`${says(row, "needs")} ${counted(needs, noun)}; ${says(below, "has")} ${has}: the repeat of ${each} goes ${goes} into ${repeated + over} and leaves ${over}.`;
}

function apart(needs: number, has: number): string {
  return needs > has ? say`${needs - has} short` : say`${has - needs} left over`;
}

type StepLoop = Extract<Outcome["steps"][number][number], { shift: number }>;

interface UnevenRepeat {
  /** Places of one repeat. */
  readonly each: number;
  readonly times: number;
}

/** A repeat to the end, the last thing in its row, that leaves fewer places than another go needs. */
function unevenRepeat(row: WorkedRow, { needs, has }: Misfit): UnevenRepeat | null {
  const last = row.found?.plan.instructions.findLast(({ op }) => op !== "turn" && op !== "slip");
  if (last?.op !== "repeat" || last.times.how !== "to-end" || last.times.until !== null) return null;
  const loop = row.outcome?.steps[0]?.find((step): step is StepLoop => "shift" in step);
  const first = loop?.steps[0];
  if (!loop || !first || "shift" in first) return null;
  const times = (needs - first.at) / loop.shift;
  const isTooFew = has > needs && has - needs < loop.shift;
  return Number.isInteger(times) && isTooFew ? { each: loop.shift, times } : null;
}
