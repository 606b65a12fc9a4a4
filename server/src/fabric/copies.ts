import { keptBy } from "../text/kept-by";
import type { RowContent } from "./pattern";

/** What a line that stands for other rows asks for. */
export type Copy =
  | {
      readonly how: "rows";
      readonly rows: readonly number[];
      /** Rows of something else: `as Rnds 1-6 of the body`, `as sleeve rnds 1-6`. */
      readonly ofOther: boolean;
      readonly times: readonly (number | null)[] | null;
    }
  | { readonly how: "last"; readonly times: readonly (number | null)[] | null }
  | { readonly how: "each-end"; readonly by: number; readonly times: number; readonly rows: number }
  | { readonly how: "even"; readonly times: number | null };

const rowNumbers =
  /\b(?:rows?|rnds?|rounds?|rw|rd|r)\.?\s*\(?(\d+)(?:\s*(-|–|—|&|and|,|to)\s*(?:(?:row|rnd|round|r)\.?\s*)?(\d+)(?!\d|\s*(?:sc|hdc|dc|htr|tr|dtr|sts?|stitches)\b))?/i;
const ordinalRow = /\b(\d+)(?:st|nd|rd|d|th)\s+(?:to\s+(\d+)(?:st|nd|rd|th)\s+)?(?:rows?|rnds?|rounds?)\b/i;
const wordNumbers: Readonly<Record<string, number>> = {
  once: 1,
  twice: 2,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
};

/** What a line asks for that stands for other rows; null for an ordinary row. */
export const copyOf = keptBy(readCopy);

/** Reads "Rep Row 2", "as rnd 3", "Dec 1 st each end of next and foll 4 alt rows"; null for an ordinary row. */
function readCopy(line: RowContent): Copy | null {
  const text = line.text.trim();
  const each =
    /^(dec|inc)(?:rease)?\s+(\d+)\s+sts?\s+(?:at\s+)?(?:the\s+)?(each|both|neck|armhole|raglan|beg|end|inner|outer|front|side)\b/i.exec(
      text,
    );
  if (each)
    return eachEnd(
      text,
      (each[1] as string).toLowerCase() === "inc" ? 1 : -1,
      Number(each[2]) * (/each|both/i.test(each[3] as string) ? 2 : 1),
    );
  if (
    /^(?:work(?:ing|ed)?|cont(?:inue)?)\b[^.]*\b(?:even|straight|as (?:set|established)|in patt)/i.test(
      text,
    ) &&
    !/\b(?:sc|dc|hdc|tr|htr)\b/i.test(text)
  ) {
    const n =
      /(?:for\s+)?(\d+|one|two|three|four|five|six|seven|eight|nine|ten)\s+(?:more\s+)?(?:rows?|rnds?|rounds?)/i.exec(
        text,
      )?.[1];
    return { how: "even", times: n === undefined ? null : numberOf(n) };
  }
  if (!/^\s*[[(]?\s*(?:rep(?:eat)?s?\b|as (?:for )?|same as|work as|continue as|cont as)/i.test(text))
    return null;
  if (/\*|^\W*rep(?:eat)?\s+from\b/i.test(text.split(/[.;(]/)[0] as string)) return null;
  const times = timesOf(text);
  if (/\b(?:last|previous|prev)\s+(?:row|rnd|round)/i.test(text)) return { how: "last", times };
  const match = ordinalRow.exec(text) ?? rowNumbers.exec(text);
  if (!match) return null;
  const from = Number(match[1]);
  const ordinal = match.length === 3;
  const to = Number((ordinal ? match[2] : match[3]) ?? from);
  const pair = !ordinal && /&|and|,/.test(match[2] ?? "");
  const rows = pair ? [from, to] : sequence(from, to);
  return { how: "rows", rows, ofOther: namesOther(text, match), times };
}

const ownWords =
  /^(?:rep(?:eat)?s?|as|same|work|cont(?:inue)?|again|for|in|the|then|now|from|with|instructions|pattern|patt|last|next)$/i;

function namesOther(text: string, { 0: rows, index }: RegExpExecArray): boolean {
  const before = text.slice(0, index).match(/\p{L}+/gu) ?? [];
  const behind = text.slice(index + rows.length);
  return before.some((word) => !ownWords.test(word)) || /^\W*\s(?:of|from)\b(?!\s+\*)/i.test(behind);
}

function sequence(from: number, to: number): number[] {
  return to < from || to - from > 1000 ? [from] : [...Array(to - from + 1).keys()].map((i) => from + i);
}

function numberOf(text: string): number {
  return wordNumbers[text.toLowerCase()] ?? Number(text);
}

function timesOf(text: string): number[] | null {
  const match =
    /\b(\d+|one|two|three|four|five|six|seven|eight|nine|ten)(?:\s*[([]([\d\s,;:–-]+)[)\]])?\s*(?:more\s+)?times\b|\b(once|twice)\b|[x×]\s*(\d+)/i.exec(
      text,
    );
  if (!match) return null;
  const first = numberOf((match[1] ?? match[3] ?? match[4]) as string);
  return [first, ...(match[2]?.match(/\d+/g) ?? []).map(Number)];
}

/** `next and foll 4 alt rows` is five shaping rows among nine. */
function eachEnd(text: string, sign: number, by: number): Copy | null {
  const alternate = /(?:foll(?:owing)?|next)\s+(\d+)\s+alt(?:ernate)?/i.exec(text);
  const next = /(?:of|on)\s+(?:the\s+)?(?:next|foll(?:owing)?)\s+(\d+)\s+rows/i.exec(text);
  const every = /every\s+(?:(other|alt(?:ernate)?)\s+|(\d+)(?:nd|rd|th)\s+)?rows?\s+(\d+)\s+times/i.exec(
    text,
  );
  if (alternate)
    return {
      how: "each-end",
      by: by * sign,
      times: Number(alternate[1]) + (/next and/i.test(text) ? 1 : 0),
      rows: 2 * Number(alternate[1]) + 1,
    };
  if (every) {
    const times = Number(every[3]);
    const apart = every[1] ? 2 : Number(every[2] ?? 1);
    return { how: "each-end", by: by * sign, times, rows: times * apart };
  }
  // "until 3 sts rem" says how it ends, not how often.
  if (!next && /\buntil\b/i.test(text)) return null;
  const n = next ? Number(next[1]) : 1;
  return { how: "each-end", by: by * sign, times: n, rows: n };
}
