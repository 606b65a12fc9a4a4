import type { Counted } from "../fabric/count";
import { type Outcome, takenForGranted } from "../fabric/outcome";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { leaveWords } from "./mends/leave-rest";
import type { Fix, RowRule } from "./rule";
import { counted, listed, moreTimes, placesNoun, rowName, says, sizeName } from "./wording";

/** The trade has no settled reading for the row, and nothing in the pattern decides. */
export const ambiguous: RowRule = {
  id: "ambiguous",
  severity: "warning",
  documentation: `## What it finds
A row that can be understood in two ways which lead to different numbers, and nothing in the pattern tells which is meant.

## Why it matters
Half of the makers will work it the other way.

## Example
\`\`\`crochet
Ch 4, join to form ring.
Rnd 1: Ch 1, *2 dc in ring, ch 1; rep from * 5 times, join.
\`\`\`

## Mended
\`\`\`crochet
Ch 4, join to form ring.
Rnd 1: Ch 1, *2 dc in ring, ch 1; rep from * 5 more times, join. (12 dc, 6 ch-1 sps)
\`\`\`
`,
  check(row, piece) {
    if (row.result !== "ambiguous" || !row.outcome) return [];
    const { message, fixes } =
      stopsEarly(row, piece) ?? chainsOrSpaces(row, row.outcome) ?? severalMeanings(row, piece);
    return [{ span: row.line.span, message, fixes, related: [] }];
  },
};

interface Asked {
  readonly message: string;
  readonly fixes: readonly Fix[];
}

/** One replacement in the instructions of the row. */
function replacing({ line }: WorkedRow, title: string, { start, end }: Span, newText: string): Fix {
  const span = { start: line.start + start, end: line.start + end };
  return { title, edits: () => [{ span, newText }] };
}

/** Some words put before the count, or at the end of a row that has none. */
function beforeCount(row: WorkedRow, title: string, newText: string): Fix {
  const { text, plan } = row.line;
  const at = text.slice(0, plan?.statedSpan?.start ?? text.length).replace(/[\s.;,–-]+$/, "").length;
  return replacing(row, title, { start: at, end: at }, newText);
}

function stopsEarly(row: WorkedRow, piece: WorkedPiece): Asked | null {
  const left = (row.outcome?.has ?? []).map((n, size) => (n ?? 0) - (row.outcome?.needs[size] ?? 0));
  const distinct = [...new Set(left.filter((n) => n > 0))];
  const [only] = distinct;
  if (only === undefined) return null;
  if (distinct.length > 1) return { message: sizesLeftMessage(row, piece, left), fixes: [] };
  const words = leaveWords(only);
  return {
    message: leftMessage(row, counted(only, placesNoun(row)), words),
    fixes: [{ ...beforeCount(row, say`Add "${words}"`, `, ${words}`), kind: "leave-rest" }],
  };
}

function leftMessage(row: WorkedRow, places: string, words: string): string {
  return say`${says(rowName(row), "stops")} with ${places} of the row below not worked. If that is meant, write "${words}" before the count.`;
}

function sizesLeftMessage(row: WorkedRow, piece: WorkedPiece, left: readonly number[]): string {
  const each = left.map((n, size) => say`${counted(n, placesNoun(row))} in ${sizeName(size, piece)}`);
  return say`${says(rowName(row), "stops")} with ${listed(each, "and")} not worked. If that is meant, write "leave remaining sts unworked" before the count.`;
}

function chainsOrSpaces(row: WorkedRow, outcome: Outcome): Asked | null {
  const sum = outcome.counted.find((one) => one?.doubt);
  if (!sum?.doubt) return null;
  const [spaces, chains] = [inWords(sum), inWords(sum.doubt)];
  const span = row.line.plan?.statedSpan;
  return {
    message: say`The count of ${rowName(row)} says "ch": ${spaces} if the spaces are meant, ${chains} if each chain is. Did you mean ${spaces}?`,
    fixes: span ? [replacing(row, say`Change the count to ${spaces}`, span, `(${spaces})`)] : [],
  };
}

function severalMeanings(row: WorkedRow, piece: WorkedPiece): Asked {
  const ways = row.others.map((one) => {
    const numbers = one.counted.map((sum) => inWords(sum)).join("/");
    return one.assumptions.length > 0 ? say`${numbers} if ${one.assumptions.join(say` and `)}` : numbers;
  });
  const settling = timesTexts(row) ?? countTexts(row, piece);
  const could = say`${rowName(row)} could mean ${ways.join(say`, or `)}.`;
  if (settling.length === 0)
    return { message: say`${could} Add the count at the end of the row to settle it.`, fixes: [] };
  const quoted = settling.map(({ text }) => say`"${text}"`);
  return {
    message: say`${could} Write ${listed(quoted, "or")} to settle it${inNotes(row)}.`,
    fixes: settling.map(({ text, fix }) => fix(say`Write "${text}"`)),
  };
}

/** What a line in the notes would settle for all rows. */
function inNotes({ others }: WorkedRow): string {
  const doubts = others.flatMap(takenForGranted).flatMap(({ doubt }) => doubt.about ?? []);
  const start = doubts.find((about) => "chains" in about);
  if (start) return say`, or say once in the notes whether ch ${start.chains} counts as a stitch`;
  return doubts.some((about) => "said" in about && about.said.endsWith("times"))
    ? say`, or say once in the notes what is meant`
    : "";
}

/** Words that leave one meaning only, and how to put them into the row. */
interface Settling {
  readonly text: string;
  fix(title: string): Fix;
}

/** `5 times`: in all is four more; "more" leaves no doubt. */
function timesTexts(row: WorkedRow): Settling[] | null {
  const texts = row.others.map((outcome): Settling | null => {
    const [only, ...others] = takenForGranted(outcome);
    const about = only?.doubt.about;
    if (!about || !("said" in about) || others.length > 0 || outcome.assumptions.length > 1) return null;
    const { said, n } = about;
    const start = row.line.text.indexOf(said);
    if (start < 0 || !/^\d+$/.test(n)) return null;
    const isMore = only.option === 1;
    const text = moreTimes(Number(n) - (isMore ? 0 : 1));
    const span = { start, end: start + said.length };
    const kind = isMore ? "more" : "in-all";
    return { text, fix: (title) => ({ ...replacing(row, title, span, text), kind }) };
  });
  return texts.length > 1 && texts.every((text) => text !== null) ? texts : null;
}

/** The count of each meaning, as it stands at the end of a row. */
function countTexts(row: WorkedRow, piece: WorkedPiece): Settling[] {
  if (piece.context.sizes.length > 1 || row.line.plan?.stated) return [];
  const { length } = row.line.text;
  return row.others.map((one) => {
    const text = `(${inWords(one.counted[0] ?? null)})`;
    return { text, fix: (title) => replacing(row, title, { start: length, end: length }, ` ${text}`) };
  });
}

/** `12 dc, 6 ch-1 sps`. */
function inWords(sum: Pick<Counted, "kinds" | "makes"> | null): string {
  if (!sum) return "";
  const kinds = [...sum.kinds].filter(([, n]) => n > 0);
  return (
    kinds.map(([kind, n]) => `${n} ${n > 1 && / sp$/.test(kind) ? `${kind}s` : kind}`).join(", ") ||
    `${sum.makes}`
  );
}
