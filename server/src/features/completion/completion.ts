import type { WorkedPattern } from "../../rules/rule";
import { count } from "./count";
import type { CompletionEntry, CompletionSource } from "./entry";
import { headerLines } from "./header-lines";
import { nextRow } from "./next-row";
import { ownWords } from "./own-words";
import { phrases } from "./phrases";
import { places } from "./places";
import { stitches } from "./stitches";
import { WritingPlace } from "./writing-place";
import { yarns } from "./yarns";

export type { CompletionEntry, EntryKind } from "./entry";

/** Of entries that write the same, the one of the earlier source stays. */
const sources: readonly CompletionSource[] = [
  nextRow,
  count,
  yarns,
  places,
  ownWords,
  stitches,
  phrases,
  headerLines,
];

/** What a client asks behind a character that somebody typed, rather than in a word. */
const behindMark: readonly CompletionSource[] = [nextRow, count];

/** `x5`: a number that tells how often. A word is written behind a blank, and not right here. */
const tellsHowOften = /[\s)\]}][x×]\d+$/iu;

/** Characters behind which the list opens by itself: a row is begun, a count is opened. */
export const openingMarks = ["\n", "(", "["] as const;

/** What could be written at an offset, the likeliest first; `mark`: the character that opened the list. */
export function completionsAt(pattern: WorkedPattern, offset: number, mark?: string): CompletionEntry[] {
  const place = new WritingPlace(pattern, offset);
  const asked = mark === undefined && !tellsHowOften.test(place.before) ? sources : behindMark;
  const byText = new Map<string, CompletionEntry>();
  for (const entry of asked.flatMap((source) => source(place)))
    if (!byText.has(entry.newText.toLowerCase())) byText.set(entry.newText.toLowerCase(), entry);
  return [...byText.values()].sort((a, b) => a.rank - b.rank);
}

/** The next row as a whole, where the rows above an offset go on evenly and what is typed begins it. */
export function rowToCome(pattern: WorkedPattern, offset: number): CompletionEntry | null {
  const entry = nextRow(new WritingPlace(pattern, offset)).find(({ rank }) => rank === 0);
  if (!entry) return null;
  const typed = pattern.text.slice(entry.span.start, offset);
  return entry.newText.startsWith(typed) ? entry : null;
}
