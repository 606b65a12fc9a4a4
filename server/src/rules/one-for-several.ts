import type { Instruction, OtherOver, RowPlan, Take } from "../fabric/instructions";
import { inPieces } from "../fabric/parts";
import type { WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { type Span, shift } from "../text/span";
import { type OnceWritten, onceWritten } from "./repeated-line";
import type { Fix, Found, PatternRule } from "./rule";
import { rowName, says } from "./wording";

/** The words name one stitch, and what they tell goes on over several. */
export const oneForSeveral: PatternRule = {
  id: "one-for-several",
  severity: "warning",
  documentation: `## What it finds
Words that name one stitch where several are meant: "sc in next st to last 2 sts", "dc in next of next 3 dc", "dc2tog over next 1 st", "cable over next 3 sts" of a cable that is explained over 4, and a row that says no more than "2 sc in next st" or "1 sc" and is right only if that is worked on to the end; also a lone increase or decrease, "inc (12)" over 6 stitches, and "sc" alone where a row like it says how often: "18 sc". Where a pattern has more than one row of this last kind, that is its way of writing, and nothing is said.

## Why it matters
Read as it stands it is one stitch. "Each" is easily typed as "next", and a number easily loses a digit.

## Example
\`\`\`crochet
Ch 13.
Row 1: Sc in 2nd ch from hook and in each ch across. (12)
Row 2: Ch 1, turn, 2 sc in first st, sc in next st to last st, 2 sc in last st. (14)
\`\`\`

## Mended
\`\`\`crochet
Ch 13.
Row 1: Sc in 2nd ch from hook and in each ch across. (12)
Row 2: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. (14)
\`\`\`
`,
  check(pattern) {
    const once = onceWritten(pattern).filter(({ row, saysOne }) => saysOne && !inWords(row));
    const wrong = wrongInWords(pattern).flatMap(
      ({ piece, found }) => inWords(piece.rows[found] as WorkedRow) ?? [],
    );
    return [...wrong, ...once.map(foundOnce)];
  },
};

/** What the words of a row have wrong, whatever it comes to; null where nothing. */
function inWords(row: WorkedRow): Found | null {
  const { plan } = row.line;
  if (plan === null) return null;
  const next = nextForEach(plan);
  if (next) return foundNext(next, row);
  if (plan.otherOver) return foundOther(plan.otherOver, row);
  const few = overOne(plan);
  return few && foundFew(few, row);
}

/** Rows that name one stitch in words that speak of several, by their index. */
const wrongInWords = inPieces(({ rows }) => rows.flatMap((row, at) => (inWords(row) ? [at] : [])));

/** `next` in front of one place that stands for all of them, in a run over several; in the text of the row. */
const nextForEach = keptBy(({ instructions, text }: RowPlan): Span | null => {
  const several = runsOf(instructions, ({ takes }) => takes.some(isOverSeveral));
  const run = several.find(({ span }) => ofSeveral.test(text.slice(span.start, span.end)));
  if (!run) return null;
  const { 0: said, index } = ofSeveral.exec(text.slice(run.span.start, run.span.end)) as RegExpExecArray;
  const start = run.span.start + index + said.search(/next/i);
  return { start, end: start + "next".length };
});

/** `dc2tog over next 1 st`, in the text of the row. */
const overOne = keptBy(({ instructions, text }: RowPlan): Span | null => {
  const drawn = runsOf(instructions, (run) => run.op === "work" && run.stitch.uses > 1);
  return drawn.find(({ span }) => fewer.test(text.slice(span.start, span.end)))?.span ?? null;
});

const fewer = /\bover (?:the )?next (?:0?1|one)\b/i;

const places = "(?:st|stitch|sc|hdc|htr|dc|tr|dtr|ch|(?:ch-?\\d+ |\\d+-?ch )?sp|loop)";
const ofSeveral = new RegExp(
  `\\bnext (?:of (?:the )?next \\d|remaining ${places}\\b|${places} (?:to (?:the )?(?:last|end|within|next|\\d+ \\w+ (?:before|from))|across|around(?! the))\\b)`,
  "i",
);

type Run = Extract<Instruction, { op: "work" | "group" }>;

/** What is worked into places, in the order of the text. */
function runsOf(list: readonly Instruction[], isMeant: (run: Run) => boolean): Run[] {
  return list.flatMap((one): Run[] => {
    if (one.op === "either") return runsOf(one.options[0] ?? [], isMeant);
    if (one.op === "repeat") return runsOf(one.body, isMeant);
    return (one.op === "work" || one.op === "group") && isMeant(one) ? [one] : [];
  });
}

function isOverSeveral(take: Take): boolean {
  return take.how === "each" || (take.how === "next" && (take.n[0] ?? 1) > 1);
}

function foundNext(at: Span, row: WorkedRow): Found {
  const span = shift(at, row.line.start);
  const fix: Fix = { title: say`Write "each"`, edits: () => [{ span, newText: "each" }] };
  return {
    span,
    message: say`${says(rowName(row), "says")} "next", which is one stitch, of several. Did you mean "each"?`,
    fixes: [fix],
    related: [],
  };
}

function foundFew(at: Span, row: WorkedRow): Found {
  const span = shift(at, row.line.start);
  const said = row.line.text.slice(at.start, at.end);
  return {
    span,
    message: say`${says(rowName(row), "says")} "${said}", which draws several stitches together, and gives it one.`,
    fixes: [],
    related: [],
  };
}

function foundOther({ span: at, explained }: OtherOver, row: WorkedRow): Found {
  const said = row.line.text.slice(at.start, at.end);
  return {
    span: shift(at, row.line.start),
    message: `${rowName(row)}: ${say`"${said}" is explained over ${explained} sts`}.`,
    fixes: [],
    related: [],
  };
}

function foundOnce({ span: at, row }: OnceWritten): Found {
  const span = shift(at, row.line.start);
  return {
    span,
    message: say`${says(rowName(row), "comes")} out right only if this is worked on to the end, and it says one. Did you mean "in each st", or another number?`,
    fixes: [throughout(span, row)],
    related: [],
  };
}

/** `2 sc in next sc` → `2 sc in each sc around`, `1 sc` → `1 sc in each st around`. */
function throughout({ start, end }: Span, { line }: WorkedRow): Fix {
  const typed = line.text.slice(start - line.start, end - line.start);
  const far = line.head?.word === "row" ? "across" : "around";
  const one = /\bin\s+(?:each\s+of\s+|all\s+)?(?:the\s+)?(?:next(?:\s+1)?|0?1)\b/i;
  const newText = one.test(typed) ? `${typed.replace(one, "in each")} ${far}` : `${typed} in each st ${far}`;
  return { title: say`Write "${newText}"`, edits: () => [{ span: { start, end }, newText }] };
}
