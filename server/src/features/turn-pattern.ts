import { readPattern } from "../fabric/pattern";
import { type LeftAlone, type Turned, turnTerms } from "../reshape/terms/turn-terms";
import { LineIndex } from "../text/line-index";
import { say } from "../text/say";
import { type Span, type TextEdit, withEdits } from "../text/span";
import type { Terms } from "../trade/stitches";
import { type Checked, Checker } from "../workspace/checker";
import { newLine } from "./actions/new-line";

/** Where a pattern tells its terms, if it does not yet. */
const notes = [/^\W*(?:pattern )?notes?\b/i];

/**
 * A whole pattern in the wanted terms. One whose words would not tell them gets a line that does; null
 * where it is in these terms already, or in another language.
 */
export function turnPattern(worked: Checked["worked"], to: Terms): Turned | null {
  // Other languages have names of their own.
  if (worked.context.language || worked.context.terms === to) return null;
  const { edits, left } = turnTerms(readableOf(worked), to);
  if (readPattern(withEdits(worked.text, edits)).context.terms === to) return { edits, left };
  return { edits: withFirst(newLine(worked, `Terms: ${to}`, notes), edits), left };
}

function readableOf({ lines, context, pieces }: Checked["worked"]) {
  return { lines, context, pieces: pieces.map(({ piece }) => piece) };
}

/** An insertion among edits: where a word that is turned begins there, both are one edit. */
function withFirst(insertion: TextEdit, edits: readonly TextEdit[]): TextEdit[] {
  const at = insertion.span.start;
  const same = edits.find(({ span }) => span.start === at);
  const joined = same ? { span: same.span, newText: insertion.newText + same.newText } : insertion;
  const others = edits.filter((edit) => edit !== same);
  return [...others, joined].sort((a, b) => a.span.start - b.span.start);
}

/** A stretch of a pattern, as it was copied from one in the other terms. */
export function turnStretch(worked: Checked["worked"], to: Terms, within: Span): Turned {
  return turnTerms(readableOf(worked), to, within);
}

/** A text in the wanted terms, with what was left alone. */
export function turnedText(text: string, to: Terms): { text: string; left: readonly string[] } | null {
  const turned = turnPattern(new Checker().work(text).worked, to);
  return turned && { text: withEdits(text, turned.edits), left: leftLines(turned.left, text) };
}

/** What was left alone, a line for each word: the first place where it stands. */
export function leftLines(left: readonly LeftAlone[], text: string): string[] {
  const lines = new LineIndex(text);
  const firsts = new Map<string, LeftAlone>();
  for (const one of left) {
    const key = `${one.word.toLowerCase()} ${one.why}`;
    if (!firsts.has(key)) firsts.set(key, one);
  }
  return [...firsts.values()].map(
    ({ word, why, start }) => say`"${word}" (line ${lines.position(start).line + 1}): ${why}`,
  );
}
