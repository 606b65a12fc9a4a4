import type { Word } from "../notation/words";
import type { Span } from "../text/span";

/** A bracket or an asterisk without its fellow. */
export interface OpenMark extends Span {
  readonly mark: string;
  /** `opening`: the one before it; `closing`: the one behind it; `star`: the one that "rep from *" goes back to. */
  readonly missing: "opening" | "closing" | "star";
  /** A closing bracket of another kind that stands where its own is due. */
  readonly instead?: Span;
}

const closers: Readonly<Record<string, string>> = { "(": ")", "[": "]", "{": "}" };
const closing: ReadonlySet<string> = new Set(Object.values(closers));

/** The first mark of a row that has no fellow; null where all have theirs. */
export function openMarkIn(words: readonly Word[]): OpenMark | null {
  return words.some(isMark) ? (openBracket(words) ?? openStar(words)) : null;
}

/** A bracket, an asterisk, or words that go back to one. */
function isMark(word: Word): boolean {
  return closers[word.cls] !== undefined || closing.has(word.cls) || word.cls === "r" || isStar(word);
}

/** What closes a count at the end of a row that is opened only: `x6 (18`; "" where nothing does. */
export function countCloser(text: string, open: OpenMark): string {
  const isCount =
    open.missing === "closing" && !open.instead && /^\W\s*\d+[^()[\]{}*]*$/.test(text.slice(open.start));
  return isCount ? (closers[open.mark] ?? "") : "";
}

function openBracket(words: readonly Word[]): OpenMark | null {
  const open: Word[] = [];
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as Word;
    if (closers[word.cls] !== undefined) open.push(word);
    if (!closing.has(word.cls) || isListLetter(words, i)) continue;
    const opener = open.pop();
    if (!opener) return markOf(word, "opening");
    if (closers[opener.cls] !== word.cls)
      return { ...markOf(opener, "closing"), instead: { start: word.start, end: word.end } };
  }
  const [first] = open;
  return first ? markOf(first, "closing") : null;
}

/** `a) 3 sc, b) 3 dc`. */
function isListLetter(words: readonly Word[], i: number): boolean {
  const before = words[i - 1];
  const first = i === 1 || /[,.;:]/.test(words[i - 2]?.value ?? "");
  return first && before !== undefined && /^\p{L}$/u.test(before.value);
}

function openStar(words: readonly Word[]): OpenMark | null {
  let [repeat, named, first, stars] = [-1, -1, -1, 0];
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as Word;
    if (word.cls === "r") {
      if (repeat < 0) repeat = i;
      if (named < 0 && goesBackToStar(words, i)) named = i;
    }
    if (!isStar(word) || isTimesSign(words, i)) continue;
    if (stars++ === 0) first = i;
  }
  if (named >= 0 && (first < 0 || first > named)) return markOf(words[named] as Word, "star");
  if (stars !== 1 || repeat > first) return null;
  return words[first]?.glued && first > 0 ? null : markOf(words[first] as Word, "closing");
}

function isStar({ cls, value }: Word): boolean {
  return cls === "*" || (value.startsWith("*") && /^\*+$/.test(value));
}

/** `(sc, inc)*6`, `inc * 6`. */
function isTimesSign(words: readonly Word[], i: number): boolean {
  const isCounted = words[i + 1]?.cls === "n" && !/[STct]/.test(words[i + 2]?.cls ?? "");
  return isCounted && /[S)\]}]/.test(words[i - 1]?.cls ?? "");
}

/** `rep from *`. */
function goesBackToStar(words: readonly Word[], i: number): boolean {
  return words[i + 1]?.cls === "F" && isStar(words[i + 2] ?? (words[i] as Word));
}

function markOf({ start, end, value }: Word, missing: OpenMark["missing"]): OpenMark {
  return { start, end, mark: value, missing };
}
