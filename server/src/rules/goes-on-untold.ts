import type { Instruction } from "../fabric/instructions";
import { perPiece } from "../fabric/parts";
import type { WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { type Span, shift } from "../text/span";
import type { Fix, Found, RowRule } from "./rule";
import { rowName, says } from "./wording";

/** One stitch makes a whole row, and only the count tells that it goes on to the end. */
export const goesOnUntold: RowRule = {
  id: "goes-on-untold",
  severity: "information",
  documentation: `## What it finds
A row of one instruction that is right only if it is worked on to the end, and does not say so: "inc (12)" over 6 stitches, "2 sc in next sc (12)". Where a piece has more than one row of this kind, that is its way of writing, and nothing is said.

## Why it matters
Read as it stands it is one stitch. A number, "each" or "around" is easily lost when a row is typed.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc (12)
Rnd 3: (sc, inc) x6 (18)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc in each st around (12)
Rnd 3: (sc, inc) x6 (18)
\`\`\`
`,
  check(row, piece) {
    const at = row.result === "ok" ? onceWritten(row) : null;
    return at && repeatedLines(piece) === 1 ? [found(at, row)] : [];
  },
};

/** How many rows of a piece are lines that go on to the end without a word of it. */
const repeatedLines = perPiece(({ rows }) => rows.filter((row) => repeatedLine(row) !== null).length);

/** Words that say how far a row goes, wherever they stand in it. */
const saysHowFar = /\b(?:each|every|all|around|across|along|end|even)\b/i;

/** The one instruction of a row that is repeated so; null for other rows. */
function onceWritten(row: WorkedRow): Span | null {
  const body = repeatedLine(row) ?? [];
  const work = body.filter(({ op }) => op !== "mark");
  const [only] = work;
  if (work.length > 1 || only?.op !== "work") return null;
  const { text } = row.line;
  const saysOne = /\b1 st/.test(text.slice(only.span.start, only.span.end));
  return saysOne || !saysHowFar.test(text) ? shift(only.span, row.line.start) : null;
}

/** What is repeated, in a row that was understood as a line that is. */
function repeatedLine({ line: { plan }, outcome }: WorkedRow): readonly Instruction[] | null {
  if (!plan || !outcome || outcome.cost === 0) return null;
  for (const one of plan.instructions) {
    if (one.op !== "either" || outcome.reading[one.choice] !== 1) continue;
    const [whole] = one.options[1] ?? [];
    if (
      whole?.op === "repeat" &&
      whole.times.how === "to-end" &&
      whole.body.length === one.options[0]?.length
    )
      return whole.body;
  }
  return null;
}

function found(span: Span, row: WorkedRow): Found {
  return {
    span,
    message: say`${says(rowName(row), "comes")} out right only if this is worked again and again to the end, and that is not said. Write "in each st around", or how often.`,
    fixes: [throughout(span, row)],
    related: [],
  };
}

/** `inc` → `inc in each st around`, `2 sc in next sc` → `2 sc in each sc around`. */
function throughout({ start, end }: Span, { line }: WorkedRow): Fix {
  const typed = line.text.slice(start - line.start, end - line.start);
  const far = line.head?.word === "row" ? "across" : "around";
  const each = typed.replace(/\bin\s+(?:each\s+of\s+)?(?:the\s+)?next(?:\s+1)?\b/i, "in each");
  const newText = /\bin\b/i.test(each) ? `${each} ${far}` : `${each} in each st ${far}`;
  return { title: say`Write "${newText}"`, edits: () => [{ span: { start, end }, newText }] };
}
