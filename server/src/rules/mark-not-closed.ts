import type { PatternContext } from "../fabric/context";
import type { RowPlan } from "../fabric/instructions";
import { type OpenMark, openMarkIn } from "../fabric/open-mark";
import { stateKey } from "../fabric/outcome";
import type { RowLine } from "../fabric/pattern";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { readWords, type Word } from "../notation/words";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { shift, type TextEdit, withEdits } from "../text/span";
import { tryOut } from "./mends/trial";
import type { Fix, RowRule } from "./rule";
import { rowName, says } from "./wording";

/** A bracket or an asterisk has no fellow. */
export const markNotClosed: RowRule = {
  id: "mark-not-closed",
  severity: "warning",
  documentation: `## What it finds
A bracket that is opened and not closed, or closed and not opened; an asterisk that nothing goes back to; "rep from *" in a row without an asterisk.

## Why it matters
What is to be repeated is anybody's guess, and the row cannot be checked.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: (sc, inc x6 (18)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: (sc, inc) x6 (18)
\`\`\`
`,
  check(row, piece) {
    const open = row.line.plan?.openMark;
    if (!open) return [];
    const span = { start: row.line.start + open.start, end: row.line.start + open.end };
    return [
      {
        span,
        message: messageFor(row, open),
        related: [],
        asks: () => (fixesFor(row, piece, open).length > 0 ? null : say`Show what is to be repeated.`),
        get fixes() {
          return fixesFor(row, piece, open);
        },
      },
    ];
  },
};

const fellows: Readonly<Record<string, string>> = {
  "(": ")",
  "[": "]",
  "{": "}",
  ")": "(",
  "]": "[",
  "}": "{",
};

function messageFor(row: WorkedRow, { mark, missing, instead }: OpenMark): string {
  const name = rowName(row);
  if (missing === "star") return say`${says(name, "says")} to repeat from *, and there is no * in it.`;
  if (missing === "opening") return say`${says(name, "closes")} "${mark}", and nothing opens it.`;
  if (isStar(mark)) return say`${says(name, "has")} one "${mark}", and nothing in it goes back there.`;
  return instead
    ? say`${says(name, "opens")} "${mark}" and closes it with "${row.line.text.slice(instead.start, instead.end)}".`
    : say`${says(name, "opens")} "${mark}", and nothing closes it.`;
}

function isStar(mark: string): boolean {
  return mark.startsWith("*");
}

/** Words put somewhere in the text of a row. */
interface Change {
  readonly title: string;
  readonly edit: TextEdit;
}

/** By plan, then by the places found: an edit elsewhere tries nothing again. */
const kept = keptBy((_: RowPlan) => new Map<string, Change | null>());

function fixesFor(row: WorkedRow, piece: WorkedPiece, open: OpenMark): Fix[] {
  const { plan, start } = row.line;
  if (!row.found || !plan) return [];
  const key = stateKey(row.found.state);
  const known = kept(plan).get(key);
  const change = known === undefined ? onlyChange(row, piece, open) : known;
  kept(plan).set(key, change);
  if (!change) return [];
  const { title, edit } = change;
  return [{ title, edits: () => [{ span: shift(edit.span, start), newText: edit.newText }] }];
}

/** The one change that makes the row right; null where none or several do. */
function onlyChange(row: WorkedRow, { context }: WorkedPiece, open: OpenMark): Change | null {
  const { text } = row.line;
  const works = tryOut(row, context);
  const isRight = (changed: string): boolean =>
    openMarkIn(readWords(changed, context.lexicon)) === null && works(changed);
  for (const alike of changesFor(row, context, open)) {
    const [only, ...others] = alike.filter(({ edit }) => isRight(withEdits(text, [edit])));
    if (only && others.length === 0) return only;
  }
  return null;
}

/** Groups of changes, the more usual before the others; of one group each would say something else. */
function changesFor({ line }: WorkedRow, { lexicon }: PatternContext, open: OpenMark): Change[][] {
  const fellow = fellows[open.mark] ?? "*";
  if (open.instead)
    return [[{ title: say`Write "${fellow}"`, edit: { span: open.instead, newText: fellow } }]];
  const inserted = placesFor(open, readWords(line.text, lexicon)).map((at) => insertion(at, fellow));
  return isStar(open.mark) ? [[goingBack(line, open.mark)], inserted] : [inserted];
}

function insertion(at: number, mark: string): Change {
  return { title: say`Add "${mark}"`, edit: { span: { start: at, end: at }, newText: mark } };
}

/** `…; rep from * around`, before the count; for a bare `around`. */
function goingBack({ text, plan, head }: RowLine, mark: string): Change {
  const own = text.slice(0, plan?.statedSpan?.start ?? text.length).replace(/[\s.,;]+$/, "");
  const bare = /[\s,;]*\b(?:around|across|to end)$/i.exec(own);
  const where = bare?.[0].trim() ?? (head?.word === "row" ? "to end" : "around");
  const words = `rep from ${mark} ${where.replace(/^[,;\s]+/, "")}`;
  const span = { start: bare?.index ?? own.length, end: own.length };
  return { title: say`Add "${words}"`, edit: { span, newText: `; ${words}` } };
}

/** An opening mark stands before an instruction, a closing one behind one. */
function placesFor({ missing, start }: OpenMark, words: readonly Word[]): number[] {
  if (missing === "closing") return words.filter((word) => word.start > start).map(({ end }) => end);
  return words.filter((word) => word.end <= start && !/^\W$/.test(word.cls)).map((word) => word.start);
}
