import { inParts, inPieces } from "../fabric/parts";
import { isRight, reworking } from "../fabric/rework";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { readConventions } from "../notation/declared";
import type { LineContent } from "../notation/document";
import type { PatternLine } from "../notation/lines";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { oddStarts } from "./odd-starts";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";
import { rowName } from "./wording";

/** What the notes say of a chain, and what a row says of one as long, go against each other. */
export const chainTwoWays: PatternRule = {
  id: "chain-two-ways",
  severity: "warning",
  documentation: `## What it finds
A row that says that its opening chain counts as a stitch, in a pattern whose notes say that such chains do not, when the row is right by the notes as well; or the other way round. A row that is right only by its own words, and notes that leave room, "unless told otherwise", are no contradiction. Also the one row that begins with another chain than all others that begin with its stitch, when theirs would do as well.

## Why it matters
Who goes by the notes and who goes by the row end with different numbers of stitches.

## Example
\`\`\`crochet
Notes
Ch 2 at the beginning of a row does not count as a stitch.

Ch 12.
Row 1: Hdc in 3rd ch from hook and in each ch across. (10 hdc)
Row 2: Ch 2 (counts as hdc), turn, hdc in each st across. (10 hdc)
\`\`\`

## Mended
\`\`\`crochet
Notes
Ch 2 at the beginning of a row does not count as a stitch.

Ch 12.
Row 1: Hdc in 3rd ch from hook and in each ch across. (10 hdc)
Row 2: Ch 2, turn, hdc in each st across. (10 hdc)
\`\`\`
`,
  check(pattern) {
    return [...againstNotes(pattern), ...oddStarts(pattern)];
  },
};

function againstNotes(pattern: WorkedPattern): Found[] {
  const notes = notesOn(pattern);
  if (notes.size === 0) return [];
  return openingsIn(pattern).flatMap(({ piece, found: { at, said } }) => {
    const row = piece.rows[at] as WorkedRow;
    const note = notes.get(said.chains);
    if (!note || note.counts === said.counts || !isRightByNotes(row, said, piece)) return [];
    const start = row.line.start + said.start;
    return [foundOn(rowName(row), said, { start, end: start + said.text.length }, note)];
  });
}

/** Rows that say of their opening chain whether it counts, by their index. */
const openingsIn = inPieces(({ rows }) =>
  rows.flatMap(({ line }, at) => {
    const said = openingSays(line.text);
    return said ? [{ at, said }] : [];
  }),
);

function isRightByNotes(row: WorkedRow, { text, start }: Said, { context }: WorkedPiece): boolean {
  const typed = row.line.text;
  const plain = typed.slice(0, start).trimEnd() + typed.slice(start + text.length);
  return row.fault === null && reworking(row, context)(plain).find(isRight) !== undefined;
}

const countsToldIn = keptBy(({ text }: LineContent) => readConventions([text]).startCounts);

interface Note {
  readonly line: PatternLine;
  readonly counts: boolean;
}

const leavesRoom = /\b(?:unless|except\w*|otherwise|if|sometimes|usually|first\s+row|row\s+1|rnd\s+1)\b/i;

/** What the notes settle, by the length of the chain; none where they themselves say both. */
function notesOn(pattern: WorkedPattern): ReadonlyMap<number, Note> {
  const told = linesOnCounts(pattern);
  const found = new Map<number, Note>();
  for (const [chains, counts] of pattern.context.conventions.startCounts) {
    const content = told.find((one) => countsToldIn(one.found).get(chains) === counts)?.found;
    const line = content && pattern.lines.find((one) => one.content === content);
    if (line && !leavesRoom.test(line.text)) found.set(chains, { line, counts });
  }
  return found;
}

/** Lines that tell of a chain whether it counts. */
const linesOnCounts = inParts(({ heading, lines }) =>
  [...(heading ? [heading] : []), ...lines]
    .filter(({ kind, content }) => kind !== "row" && kind !== "blank" && countsToldIn(content).size > 0)
    .map(({ content }) => content),
);

interface Said {
  readonly chains: number;
  readonly counts: boolean;
  readonly text: string;
  readonly start: number;
  /** Blanks before it. */
  readonly gap: number;
}

const opening =
  /^\s*(?:turn\s*[,.;]\s*)?(?:ch(?:ain)?\s*(\d{1,2})|(\d{1,2})\s*ch)\s*([([]\s*((?:does\s+not|do\s+not|doesn['’]t|not)\s+count|counts?|counting)\b[^()[\]]*[)\]])/i;

/** `Ch 2 (counts as hdc)`: not `ch 4 (counts as dc and ch 1)`, which is longer than the stitch. */
function openingSays(text: string): Said | null {
  const match = opening.exec(text);
  const [all, a, b, remark = "", verb = ""] = match ?? [];
  if (all === undefined || /\b(?:and|\+|plus)\b|\bch\b/i.test(remark)) return null;
  const counts = !/not|n['’]t/i.test(verb);
  const start = all.length - remark.length;
  return {
    chains: Number(a ?? b),
    counts,
    text: remark,
    start,
    gap: start - all.slice(0, start).trimEnd().length,
  };
}

function foundOn(
  row: string,
  { chains, counts, text, gap }: Said,
  span: { readonly start: number; readonly end: number },
  { line }: Note,
): Found {
  const [here, there] = counts ? [say`counts`, say`does not`] : [say`does not count`, say`does`];
  const fix: Fix = {
    title: say`Take out "${text}"`,
    edits: () => [{ span: { start: span.start - gap, end: span.end }, newText: "" }],
  };
  return {
    span,
    message: say`${row} says that its ch ${chains} ${here}, and the notes say that it ${there}. Which is meant?`,
    fixes: [fix],
    related: [{ span: line, message: say`Here the notes say so.` }],
  };
}
