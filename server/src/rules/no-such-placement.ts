import { partsOf, perPart, perPiece, type WorkedPart } from "../fabric/parts";
import { type Run, runsOf } from "../fabric/strip";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { type Mention, type Sentence, sentencesOf } from "../notation/assembly";
import type { PatternLine } from "../notation/lines";
import type { NumberInText, RowReference } from "../notation/row-references";
import { say } from "../text/say";
import { inProse } from "./outline";
import { partNamesOf } from "./pieces-made";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";
import { listed } from "./wording";
import { isWholePattern } from "./work-not-ended";

/** Something is placed at a row that its piece does not have. */
export const noSuchPlacement: PatternRule = {
  id: "no-such-placement",
  severity: "warning",
  documentation: `## What it finds
A sentence that places, sews or embroiders something at a row which the piece does not have: eyes between Rnds 10 and 11 of a head of 8 rounds, or the eyelets of a row that has none. Also one that works stitches of a row that no piece has, or up to a row that the other piece does not have.

## Why it matters
The maker counts rounds that are not there. Mostly the piece was made shorter, and the sentence was left as it was.

## Example
\`\`\`crochet
Head
Rnd 1: 6 sc in mr (6)
Rnds 2-4: sc in each st around (6)
Place the eyes between Rnds 5 and 6.
\`\`\`

## Mended
\`\`\`crochet
Head
Rnd 1: 6 sc in mr (6)
Rnds 2-4: sc in each st around (6)
Place the eyes between Rnds 3 and 4.
\`\`\`
`,
  check(pattern) {
    const placed = placings(pattern).flatMap(({ said, line, part }) => foundIn(line, said, part, pattern));
    const others = [
      ...parted(pattern).flatMap(({ said, line }) => partOfNone(line, said, pattern)),
      ...workedAgain(pattern).flatMap(({ said, line }) => otherLacks(line, said, pattern)),
    ];
    return [...placed, ...others.filter(({ span }) => !placed.some((one) => one.span.start === span.start))];
  },
};

const placement =
  /\b(?:between|b\/w|from|over|around|across|onto|on|at|to|along|in|behind|below|above|beneath|under(?:neath)?|beside|near|fold|stitch)\s*(?:the\s+)?$/i;
/** Other words for laying one thing on another. */
const laying = /\b(?:embroider|bring|fold|line\s+up|match|pin|cent(?:er|re)|goes\b|go\b|sits?\b|belongs?\b)/i;
/** `thread the cord through the eyelets of Rnd 28`. */
const lacing = /\b(?:through|of|in|on)\s*(?:the\s+)?$/i;

/** `opposite the buttonholes of Row 15`. */
const ofHoles =
  /\b(?:eyelets?|(?:button)?holes?|(?:(?:ch|chain)(?:[\s-]?\d+)?[\s-]+)?(?:sps?|spaces?)|(?:ch|chain)(?:[\s-]?\d+)?[\s-]+(?:loops?|lps?))\s+(?:of|in|on|along)\s+(?:the\s+)?$/i;

/** A sentence that puts something at rows. */
interface Placing {
  readonly sentence: Sentence;
  readonly rows: readonly RowReference[];
}

const placings = inProse((line) => sentencesOf(line).flatMap(placingOf));

function placingOf(sentence: Sentence): Placing[] {
  const { deeds, text, start } = sentence;
  const isPlacing = deeds.some(({ does }) => does === "sew" || does === "place") || laying.test(text);
  const isLacing = deeds.some(({ does }) => does === "lace");
  const rows = sentence.rows.filter((row) => {
    const before = text.slice(0, row.start - start);
    if (partOfRow.test(before)) return false;
    return (
      (isPlacing && (placement.test(before) || ofHoles.test(before))) || (isLacing && lacing.test(before))
    );
  });
  return rows.length > 0 ? [{ sentence, rows }] : [];
}

/** `Skip the next 22 sts of Rnd 15`, `the top edge of Row 40`: a part of a row, whichever piece has it. */
const partOfRow =
  /\b(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr|loops?|lps?|edges?|ends?|top|side|beginning|chains?)\s+(?:of|in|on)\s+(?:the\s+)?$/i;

/** Stitches of a row that no piece has. */
const parted = inProse((line) =>
  sentencesOf(line).flatMap((sentence) => {
    const { text, start, rows } = sentence;
    const named = rows.filter((row) => partOfRow.test(text.slice(0, row.start - start)));
    return named.length > 0 ? [{ sentence, rows: named }] : [];
  }),
);

function partOfNone(line: PatternLine, { sentence, rows }: Placing, pattern: WorkedPattern): Found[] {
  const where = partsOf(pattern).filter(({ piece }) => piece !== null);
  return rows.flatMap((row) => {
    const missing = row.numbers.filter(({ n }) => !where.some((one) => hasRow(one, n, pattern)));
    // Of one piece alone the others may be in another text.
    const isTold = isOfText(row, sentence) || missing.length === 0 || where.length < 2;
    return isTold ? [] : [found(row, missing, where, line.start, pattern)];
  });
}

/** `Row 3 of the chart`, `of Lesson 2`: told by something that is no piece. */
function isOfText(row: RowReference, { text, start }: Sentence): boolean {
  return /^\s*(?:of|in|on)\s+(?:the\s+)?(?:chart|diagram|lesson|part\b|video|graph|pattern|page)/i.test(
    text.slice(row.end - start),
  );
}

/** `Work as first half to the end of Row 80`, `work Rows 1 to 6 of the first flap`: rows that the other piece has. */
const workedAgain = inProse((line) =>
  sentencesOf(line).filter(({ text, rows }) => rows.length > 0 && workingAgain.test(text)),
);

const workingAgain = /\b(?:work|make|rep(?:eat)?|crochet|follow|complete)\b/i;
const upTo =
  /^\s*,?\s*(?:from\s+(?:the\s+)?start\s+|up\s+)?(?:to|until|through|for|from)\s+(?:the\s+)?(?:end\s+of\s+)?(?:the\s+)?$/i;
const ofOther =
  /^\s*(?:of|from|as\s+(?:for|in|on)|for)\s+(?:the\s+)?(?:(?:first|second|left|right|other)\s+)?$/i;

/** Parts called by just the words of their headings, `First half`. */
function calledByHeading(
  { text, start }: Sentence,
  pattern: WorkedPattern,
): Pick<Mention<WorkedPart>, "start" | "end" | "pieces">[] {
  const said = text.toLowerCase();
  return partsOf(pattern).flatMap((part) => {
    const at = part.piece && part.name !== "" ? said.indexOf(part.name.toLowerCase()) : -1;
    return at < 0 ? [] : [{ start: start + at, end: start + at + part.name.length, pieces: [part] }];
  });
}

function otherLacks(line: PatternLine, sentence: Sentence, pattern: WorkedPattern): Found[] {
  const { text, start, rows } = sentence;
  const mentions = [...calledByHeading(sentence, pattern), ...partNamesOf(pattern).mentionsIn(sentence)];
  return rows.flatMap((row) => {
    const other = mentions.find(({ start: from, end: to }) => {
      const isLike = /\b(?:as|like)\s+(?:for\s+|the\s+)*$/i.test(text.slice(0, from - start));
      return to <= row.start
        ? isLike && upTo.test(text.slice(to - start, row.start - start))
        : from >= row.end && ofOther.test(text.slice(row.end - start, from - start));
    });
    const where = other?.pieces ?? [];
    const missing = row.numbers.filter(({ n }) => !where.some((one) => hasRow(one, n, pattern)));
    return where.length > 0 && missing.length > 0 ? [found(row, missing, where, line.start, pattern)] : [];
  });
}

function foundIn(
  line: PatternLine,
  { sentence, rows }: Placing,
  part: WorkedPart,
  pattern: WorkedPattern,
): Found[] {
  const mentions = partNamesOf(pattern).mentionsIn(sentence);
  return rows.flatMap((row) => {
    const where =
      othersThanSewnOn(row, sentence, mentions, pattern) ??
      partsMeant(row, sentence, mentions, part, pattern) ??
      anyPart(row, sentence, pattern);
    const missing = row.numbers.filter(({ n }) => !where.some((one) => hasRow(one, n, pattern)));
    return missing.length > 0 && where.length > 0
      ? [{ ...found(row, missing, where, line.start, pattern), fixes: toHoles(row, sentence, line, pattern) }]
      : withoutHoles(row, sentence, line, pattern);
  });
}

/** The holes of a row that has none in any piece: the row bears another number now. */
function withoutHoles(
  row: RowReference,
  { text, start }: Sentence,
  line: PatternLine,
  pattern: WorkedPattern,
): Found[] {
  const [only, ...others] = row.numbers;
  if (!only || others.length > 0 || !ofHoles.test(text.slice(0, row.start - start))) return [];
  const named = partsOf(pattern).flatMap(
    ({ piece }) => piece?.rows.filter((one) => bears(one, only.n)) ?? [],
  );
  if (named.length === 0 || !named.every((one) => one.result === "ok" && !hasHoles(one))) return [];
  return [
    {
      span: { start: line.start + row.start, end: line.start + row.end },
      message: say`Row ${only.n} has no holes: it makes no chain spaces in any piece. Say which row is meant.`,
      fixes: toHoles(row, { text, start }, line, pattern),
      related: named.map((one) => ({ span: one.line.span, message: say`This is row ${only.n}.` })),
    },
  ];
}

/** The only row of the pattern that has holes, where holes are spoken of. */
function toHoles(
  { numbers, start: at }: RowReference,
  { text, start }: Pick<Sentence, "text" | "start">,
  line: PatternLine,
  pattern: WorkedPattern,
): Fix[] {
  const [number, ...more] = numbers;
  if (!number || more.length > 0 || !ofHoles.test(text.slice(0, at - start))) return [];
  const rows = pattern.pieces.flatMap(({ rows }) =>
    rows.filter((row) => row.result === "ok" && hasHoles(row)),
  );
  const [only, ...others] = rows.flatMap(({ line: { head } }) =>
    head?.to == null ? (head?.from ?? []) : [],
  );
  if (only === undefined || others.length > 0 || rows.length > 1) return [];
  const span = { start: line.start + number.start, end: line.start + number.end };
  return [{ title: say`Write ${only}, the row with the holes`, edits: () => [{ span, newText: `${only}` }] }];
}

function bears({ line: { head } }: WorkedRow, n: number): boolean {
  const from = head?.from ?? Number.POSITIVE_INFINITY;
  return from <= n && n <= Math.max(from, ...(head?.to ?? []).map((to) => to ?? 0));
}

function hasHoles({ line, outcome }: WorkedRow): boolean {
  const isSpace = ({ sort }: Run): boolean => sort === "space" || sort === "chain";
  const spaces = (outcome?.leaves.state ?? []).some((state) => state && runsOf(state.strip).some(isSpace));
  return spaces || /\b(?:eyelets?|holes?)\b/i.test(`${line.headText} ${line.head?.label ?? ""} ${line.text}`);
}

/** The parts whose rows a sentence counts: what it names behind the row or as its aim, else what it stands in. Null: any. */
function partsMeant(
  row: RowReference,
  sentence: Sentence,
  mentions: readonly Mention<WorkedPart>[],
  own: WorkedPart,
  pattern: WorkedPattern,
): readonly WorkedPart[] | null {
  const textBetween = (from: number, to: number): string =>
    sentence.text.slice(from - sentence.start, to - sentence.start);
  const behind = mentions.find(({ start }) => start > row.end && ofPiece.test(textBetween(row.end, start)));
  const aim = mentions.findLast(
    ({ start, end }) =>
      end <= row.start &&
      /\b(?:to|onto|on|of|under|underneath|beneath|along)\s+(?:the\s+)?(?:\p{L}+\s+)?$/iu.test(
        textBetween(sentence.start, start),
      ),
  );
  const named = behind ?? aim;
  if (named) return named.pieces;
  if (folding.test(sentence.text) && own.piece) return [own];
  // Whatever it is put on, a row that no piece has is nowhere.
  if (toSomething.test(sentence.text)) return ofNoPiece(row, pattern);
  return own.piece && mentions.length === 0 && !isSewn(sentence) ? [own] : null;
}

/** All parts where none of several has the row; none where one has it, or the pattern may be a part of another. */
function ofNoPiece(row: RowReference, pattern: WorkedPattern): readonly WorkedPart[] {
  const all = partsOf(pattern).filter(({ piece }) => piece !== null);
  const isThere = row.numbers.some(({ n }) => all.some((one) => hasRow(one, n, pattern)));
  return isThere || all.length < 2 || !isWholePattern(pattern) ? [] : all;
}

/** Of a sentence that sews a piece on along a row of another one. */
function othersThanSewnOn(
  row: RowReference,
  { text, start }: Sentence,
  mentions: readonly Mention<WorkedPart>[],
  pattern: WorkedPattern,
): readonly WorkedPart[] | null {
  const [sewn, ...others] = mentions.filter((mention) => mention.end <= row.start);
  if (!sewn || !sewnAlong.test(text.slice(0, row.start - start))) return null;
  const named = others.flatMap(({ pieces }) => pieces).filter((part) => !sewn.pieces.includes(part));
  if (named.length > 0) return named;
  return partsOf(pattern).filter((part) => part.piece !== null && !sewn.pieces.includes(part));
}

/** `Sew the band on along Rnd 29`: what is sewn on is not what it is sewn to. */
const sewnAlong =
  /\b(?:sew|stitch)\s+(?:it|them|(?:the\s+)?(?:\p{L}+\s+){1,2})\s*on\s+(?:along|at|over|around|to)\s+(?:the\s+)?$/iu;

/** What is sewn is sewn to something else, which may go without a name. */
function isSewn({ deeds }: Sentence): boolean {
  return deeds.some(({ does }) => does === "sew");
}

/** `to the front`: none of the pieces, if it has not been found among them. */
const toSomething = /\b(?:to|onto|on)\s+the\s+(?!(?:\p{L}+\s+)?(?:rows?|rnds?|rounds?)\b)\p{L}/iu;

/** `Rnd 11 of each bootee`, `Rnds 5-8 on the outside of the head`. */
const ofPiece =
  /^\s*(?:(?:of|on|in)\s+(?:(?:the|each|every|both|either|one)\s+)?(?:\p{L}+\s+of\s+(?:the\s+|each\s+)?)?(?:\p{L}+\s+)?)$/iu;
/** What is folded is stitched to itself. */
const folding = /^\W*(?:\p{L}+\s+){0,3}?(?:fold|turn)\b/iu;

/** A row that no piece has is nowhere, whichever is meant. Of one piece alone the others may be in another text. */
function anyPart(row: RowReference, sentence: Sentence, pattern: WorkedPattern): readonly WorkedPart[] {
  const parts = partsOf(pattern).filter(({ piece }) => piece !== null);
  const isOfAnother = /^\s*(?:of|on|in)\b/i.test(sentence.text.slice(row.end - sentence.start));
  return parts.length > 1 || !(isOfAnother || isSewn(sentence)) ? parts : [];
}

/** The number of the last row of a piece, 0 of a mere chain; null where rows without a number may follow it. */
const lastRow = perPiece(({ rows }: WorkedPiece): number | null => {
  const heads = rows.filter(({ line }) => line.kind !== "foundation").map(({ line }) => line.head);
  if (heads.length === 0) return 0;
  const ends = heads.map((head) => Math.max(head?.from ?? 0, ...(head?.to ?? []).map((n) => n ?? 0)));
  const most = Math.max(0, ...ends);
  // What is open before the last number is closed by it.
  const fromLast = rows.slice(-1 - [...ends].reverse().indexOf(most));
  return most === 0 || fromLast.some(isOpen) ? null : most;
});

function isOpen({ line: { head, text, kind } }: WorkedRow): boolean {
  if (kind === "foundation") return false;
  return head?.from == null || head.open || goesOn.test(head.label) || goesOn.test(text);
}

const goesOn =
  /\b(?:until|every(?=[^.;,]*\b(?:rows?|rnds?|rounds?)\b)|all\s+following|subsequent|continu(?:e|ing)|even\s+for|for\s+\d+\s+(?:more\s+)?(?:rows|rnds|rounds))\b/i;

/** Whether a part, or one that its numbers run on from or into, may have a row. */
function hasRow(part: WorkedPart, n: number, pattern: WorkedPattern): boolean {
  return n <= lastOf(part, pattern) || goesOnBehind(part);
}

/** What stands behind the last row of a part may tell of more. */
const goesOnBehind = perPart((part) => {
  const last = part.piece?.rows.at(-1)?.line.span.start ?? 0;
  return part.lines.some(
    ({ kind, start, text }) =>
      (kind === "prose" || kind === "copy") &&
      start > last &&
      (goesOn.test(text) || /\brep(?:eat)?\b/i.test(text)),
  );
});

function lastOf(part: WorkedPart, pattern: WorkedPattern): number {
  return Math.max(...runOf(part, pattern).map((piece) => lastRow(piece) ?? Number.POSITIVE_INFINITY));
}

const runs = new WeakMap<WorkedPart, readonly WorkedPiece[]>();

function runOf(part: WorkedPart, pattern: WorkedPattern): readonly WorkedPiece[] {
  const known = runs.get(part) ?? readRun(part, pattern);
  runs.set(part, known);
  return known;
}

function readRun(part: WorkedPart, pattern: WorkedPattern): readonly WorkedPiece[] {
  const all = partsOf(pattern).flatMap(({ piece }) => (piece ? [piece] : []));
  const at = part.piece ? all.indexOf(part.piece) : -1;
  const begins = ({ rows }: WorkedPiece): boolean =>
    (rows.find(({ line }) => line.head?.from != null)?.line.head?.from ?? 1) === 1;
  const from = all.slice(0, at + 1).findLastIndex(begins);
  const next = all.findIndex((piece, i) => i > at && begins(piece));
  return all.slice(Math.max(from, 0), next < 0 ? undefined : next);
}

function found(
  row: RowReference,
  missing: readonly NumberInText[],
  where: readonly WorkedPart[],
  lineStart: number,
  pattern: WorkedPattern,
): Found {
  const names = [...new Set(where.map(({ name }) => name))];
  const last = Math.max(...where.map((part) => lastOf(part, pattern)));
  const numbersText = listed(
    missing.map(({ n }) => `${n}`),
    "or",
  );
  return {
    span: { start: lineStart + row.start, end: lineStart + row.end },
    message: say`${lacking(names)} row ${numbersText}: the last is ${last}. Say where it goes on the rows that are there.`,
    fixes: [],
    related: [],
  };
}

function lacking(names: readonly string[]): string {
  if (names.length > 2) return say`No piece has a`;
  return names[0] === ""
    ? say`This piece has no`
    : say`${listed(
        names.map((name) => say`"${name}"`),
        "or",
      )} has no`;
}
