import type { StartOption } from "../fabric/instructions";
import { perPiece } from "../fabric/parts";
import type { WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { type Span, shift } from "../text/span";
import { startOf } from "./broken-notes";
import type { Found, PatternRule } from "./rule";
import { listed, rowName, says } from "./wording";

/** The chain that opens a row is not what it is in all other rows of the pattern. */
export const chainUnlike: PatternRule = {
  id: "chain-unlike",
  severity: "warning",
  documentation: `## What it finds
A row that is right only if its ch 3 does not count as a stitch, in a pattern where it does in all other rows; or the other way round. Also a chain that is said to count as two stitches, as none or as an increase, and is one stitch by the count.

## Why it matters
Makers get used to a chain after three rows, and come out with a stitch too many or too few; often a number in the row is a slip of the hand.

## Example
\`\`\`crochet
Rnd 1: Ch 3 (counts as dc), 11 dc in magic ring, join. (12 dc)
Rnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (24 dc)
Rnd 3: Ch 3, dc in each of next 24 dc, join. (24 dc)
Rnd 4: Ch 3, dc in each of next 23 dc, join. (24 dc)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: Ch 3 (counts as dc), 11 dc in magic ring, join. (12 dc)
Rnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (24 dc)
Rnd 3: Ch 3, dc in each of next 23 dc, join. (24 dc)
Rnd 4: Ch 3, dc in each of next 23 dc, join. (24 dc)
\`\`\`
`,
  check(pattern) {
    const openings = pattern.pieces.flatMap((piece) =>
      openingsIn(piece).map((one) => ({ ...one, row: piece.rows[one.at] as WorkedRow })),
    );
    return openings.flatMap((one) => {
      const others = openings.filter((other) => other !== one);
      return foundRemark(one) ?? foundCounted(one, others) ?? [];
    });
  },
};

/** The chain that opens a row, as it was understood. */
interface Opening {
  /** The index of its row. */
  readonly at: number;
  readonly chains: number;
  readonly option: StartOption;
  /** Only the count makes it what it is. */
  readonly isUnusual: boolean;
  /** Of the chain, in the text of the row. */
  readonly span: Span;
}

type OfRow = Opening & { readonly row: WorkedRow };

const openingsIn = perPiece(({ rows }) => rows.flatMap((row, at) => openingOf(row, at) ?? []));

function openingOf({ line, result, outcome, times }: WorkedRow, at: number): Opening | null {
  const start = result === "ok" && outcome && line.plan ? startOf(line.plan) : undefined;
  const [chains] = start?.n ?? [];
  if (!start || !outcome || chains == null || times === null) return null;
  if (!typed.test(line.text.slice(start.span.start, start.span.end))) return null;
  const taken = outcome.reading[start.choice] ?? 0;
  const option = start.options[taken];
  const cost = line.plan?.choices[start.choice]?.costs[taken] ?? 0;
  // A leg of a cluster, or one that stands on a slip stitch, is neither counted nor not.
  if (!option || option.counted !== option.takesPlace) return null;
  return { at, chains, option, isUnusual: cost > 0, span: start.span };
}

/** Not the chains that are left out at the start of a foundation. */
const typed = /^(?:ch(?:ain)?s?\W*\d+|\d+\W*ch\w*)$/i;

const remark =
  /^\s*[([]\s*count(?:s|ing)? as (?:the |an? |your )?(?:(?:first|1st) )?((?:0|[2-9]) ?[a-z]+|inc(?:rease)?|dec(?:rease)?)\b/i;

/** `Ch 3 (counts as 2 tr)`, in a row that is right only if it is one. */
function foundRemark({ row, span: { start, end }, chains, option }: OfRow): Found[] | null {
  const { line } = row;
  const [all, said] = remark.exec(line.text.slice(end)) ?? [];
  const isChains = said !== undefined && /\dch|ch$/i.test(said.replace(/ /g, ""));
  if (all === undefined || isChains || !option.counted || !line.plan?.stated) return null;
  const message = say`${says(rowName(row), "says")} that its ch ${chains} counts as ${said}, and the row is right only if it counts as one stitch.`;
  return [{ span: shift({ start, end: end + all.length }, line.start), message, fixes: [], related: [] }];
}

/** Right only if its chain is what no other chain of that length is. */
function foundCounted(one: OfRow, others: readonly OfRow[]): Found[] | null {
  const alike = others.filter(({ chains }) => chains === one.chains);
  const isAlone = alike.every(({ option, isUnusual }) => !isUnusual && option.counted !== one.option.counted);
  if (!one.isUnusual || alike.length < 2 || !isAlone) return null;
  const row = rowName(one.row);
  const names = listed(
    alike.slice(0, 3).map((other) => rowName(other.row)),
    "and",
  );
  const message = one.option.counted
    ? say`${says(row, "is")} right only if its ch ${one.chains} counts as a stitch; in ${names} it does not.`
    : say`${says(row, "is")} right only if its ch ${one.chains} does not count as a stitch; in ${names} it does.`;
  return [foundOn(one, message, alike)];
}

function foundOn({ span, row }: OfRow, message: string, alike: readonly OfRow[]): Found {
  return {
    span: shift(span, row.line.start),
    message,
    fixes: [],
    related: alike.slice(0, 3).map((other) => ({
      span: shift(other.span, other.row.line.start),
      message: say`Here it begins with ch ${other.chains}.`,
    })),
  };
}
