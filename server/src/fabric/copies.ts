import { pieceKey } from "../notation/piece-names";
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
      /** The last of the rows, one number a size: `Rows 1-36 (38, 40)`; null where it is one for all. */
      readonly ends: readonly number[] | null;
      /** Of another piece, by its key: `as for Body`. */
      readonly of: string | null;
      readonly until: Until;
    }
  /** The last `rows` rows. */
  | {
      readonly how: "last";
      readonly rows: number;
      readonly times: readonly (number | null)[] | null;
      readonly until: Until;
    }
  /** The last row that is called so: `Rep dec row 3 more times`. */
  | {
      readonly how: "labelled";
      readonly label: string;
      readonly rows: 1;
      readonly times: readonly (number | null)[] | null;
      readonly until: Until;
    }
  /** `Continue increasing in this manner until there are 78 sts`: as the rows before went on. */
  | { readonly how: "goes-on-until"; readonly left: readonly number[] }
  /** `by` stitches more or fewer, `times` times in `rows` rows; one number a size, or one for all. */
  | {
      readonly how: "each-end";
      readonly by: number;
      readonly times: readonly number[];
      readonly rows: readonly number[];
    }
  /** The same every `apart` rows until so many stitches are left. */
  | {
      readonly how: "each-end-until";
      readonly by: number;
      readonly left: readonly number[];
      readonly apart: number;
    }
  | { readonly how: "even"; readonly times: readonly number[] | null };

/** How a copy ends where not by a number of times. */
interface Until {
  /** So many rows in all, one number a size. */
  readonly rowsInAll: readonly number[] | null;
  /** Until so many stitches are left, one number a size. */
  readonly left: readonly number[] | null;
  /** `then work Row 1 once more`. */
  readonly extra: number | null;
}

/** `Row 22 – 41 sts` names one row and its count: a range has its dash close, or `Rows` before it. */
const rowNumbers =
  /\b(?:rows?|rnds?|rounds?|rws?|rds?|r)\.?\s*\(?(\d+)(?:(?!(?<=\b(?:row|rnd|round|rw|rd)\.?\s*\d+)\s+[-–—]\s)\s*(-|–|—|&|and|,|to)\s*(?:(?:row|rnd|round|r)\.?\s*)?(\d+)(?!\d|\s*(?:sc|hdc|dc|htr|tr|dtr|sts?|stitches)\b))?/i;
const ordinalRow =
  /\b(\d+)(?:st|nd|rd|d|th)\s+(?:(to|and|&)\s+(?:the\s+)?(\d+)(?:st|nd|rd|d|th)\s+)?(?:rows?|rnds?|rounds?)\b/i;
/** `As 19th and 20th`, in a pattern whose heads are ordinals. */
const ordinalsAlone =
  /^as\s+(\d+)(?:st|nd|rd|d|th)(?:\s*(and|&|to)\s*(\d+)(?:st|nd|rd|d|th))?\s*(?:$|[.,;(])/i;
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

/** `inc 1 st at each end`, `decreasing 2 sts at both sides`: which of the two, and by how many. */
export const changeAtEnds = String.raw`(inc|dec)(?:reas\w*)?\s+(\d+)\s+sts?\s+(?:at\s+)?(?:the\s+)?(?:each|both)\s+(?:ends?|sides?)`;

/** What a line asks for that stands for other rows; null for an ordinary row. */
export const copyOf = keptBy(readCopy);

/** `With B, rep Row 2`, `Continue in sc, inc 1 st each end of …`: how, before what is worked again. */
const leadIn = new RegExp(
  String.raw`^(?:with|using|in|work(?:ing)?|chang(?:e|ing) to|join|cont(?:inue)?|keep(?:ing)?)\b[^.;:*()]{1,40}?[,:.]\s*(?=(?:rep(?:eat)?|as|same as|work as|work even|${changeAtEnds})\b)`,
  "i",
);

/** Reads "Rep Row 2", "as rnd 3", "Dec 1 st each end of next and foll 4 alt rows"; null for an ordinary row. */
function readCopy(line: RowContent): Copy | null {
  const text = line.text.trim().replace(leadIn, "");
  const each =
    /^(dec|inc)(?:reas(?:e|ing))?\s+(\d+)\s+sts?\s+(?:at\s+)?(?:the\s+)?(each|both|neck|armhole|raglan|beg|end|inner|outer|front|side)\b/i.exec(
      text,
    );
  if (each)
    return eachEnd(
      line.head,
      text,
      (each[1] as string).toLowerCase() === "inc" ? 1 : -1,
      Number(each[2]) * (/each|both/i.test(each[3] as string) ? 2 : 1),
    );
  const onward = goesOnUntil.exec(text)?.[1];
  if (onward) return { how: "goes-on-until", left: numbersIn(onward) };
  if (
    /^(?:work(?:ing|ed)?|cont(?:inue)?)\b[^.]*\b(?:even|straight|as (?:set|established)|in (?:the )?(?:established |est )?patt)/i.test(
      text,
    ) &&
    !/\d\s*(?:sc|dc|hdc|tr|htr)\b|\b(?:sc|dc|hdc|tr|htr)\s+(?:\d|in\b)/i.test(
      text.split(/[.;]\s/)[0] as string,
    )
  ) {
    const ends = shapingAtEnds.exec(text);
    if (ends) return eachEnd(line.head, text, /^inc/i.test(ends[1] as string) ? 1 : -1, 2 * Number(ends[2]));
    const shaping = shapingByRow.exec(text);
    const rows = rowsFor(text) ?? manyOf(line.head);
    // `continue as set, working 1 more cluster each side on every row` is not even.
    if (!shaping && (changesByRow.test(text) || shapes.test(text))) return untoldTimes;
    if (!shaping) return { how: "even", times: rows };
    if (!rows && !line.head) return untoldTimes;
    const by = Number(shaping[2]) * (/^inc/i.test(shaping[1] as string) ? 1 : -1);
    return { how: "each-end", by, times: rows ?? [1], rows: rows ?? [1] };
  }
  if (
    !/^\s*[[(]?\s*(?:rep(?:eat)?s?\b|alternate\b|work the same as|work\s+(?:rows|rnds|rounds)\s+\d|work\s+\d+(?:st|nd|rd|th)\b[^.;:]*\bas\b|as (?:for )?|same as|work as|continue as|cont as)/i.test(
      text,
    )
  )
    return null;
  if (/\*|^\W*rep(?:eat)?\s+from\b/i.test(text.split(/[.;(]/)[0] as string)) return null;
  const times = timesOf(text);
  const until = untilOf(text);
  // The count behind may speak of the last row too.
  const [asked = ""] = text.split(/[.;(=]\s|[([]\d/);
  const last =
    /\b(?:last|previous|prev|these|this|above)\s+(?:(\d+|two|three|four|five|six)\s+)?(?:rows?|rnds?|rounds?)\b/i.exec(
      asked,
    );
  if (last) return { how: "last", rows: last[1] ? numberOf(last[1]) : 1, times, until };
  const label =
    /^\W*rep(?:eat)?\s+(?:the\s+|last\s+)?(\p{L}+(?:\s\p{L}+)?)\s+(?:row|rnd|round)\b(?!\s*\d+\b(?!\s*(?:[([][\d\s,;:–-]+[)\]]\s*)?(?:more|times)\b))/iu.exec(
      text,
    )?.[1];
  if (label && !ownWords.test(label)) return { how: "labelled", label, rows: 1, times, until };
  const of = otherPiece(text);
  const named = rowsNamed(text, of !== null) ?? (of === null ? null : rowsOf(line.head));
  const ends = line.head === null ? endsNamed(text) : null;
  const rows = named && ends ? sequence(named[0] ?? 1, Math.max(...ends)) : named;
  return rows && { how: "rows", rows, ofOther: namesOther(text), times, ends, of, until };
}

/** `until you have 21 (25) rows`, `then work Row 1 once more`. */
function untilOf(text: string): Until {
  const inAll = untilRows.exec(text)?.[1];
  const extra =
    /\b(?:then|ending)\b[^.;]*?\b(?:row|rnd|round)\s+(\d+)(?:\s+(?:again|once(?:\s+more)?|one\s+more\s+time|only))/i.exec(
      text,
    );
  const left = untilLeft.exec(text);
  return {
    rowsInAll: inAll ? numbersIn(inAll) : null,
    left: left ? numbersIn((left[1] ?? left[2]) as string) : null,
    extra: extra ? Number(extra[1]) : null,
  };
}

const asPiece =
  /\b(?:as|same as|work as|work the same as)\s+(?:(?:given|described|instructed|written|worked)\s+)?(?:for|on|in)?\s*(?:the\s+)?([\p{L}][\p{L}\d' -]*?)\s*(?:$|[.,;:([{<=]|\s[-–—=]\s|\b(?:to|through|until|but|rows?|rnds?|rounds?)\b)/iu;
const ofPiece = /\d\s+(?:of|from)\s+(?:the\s+)?([\p{L}][\p{L}\d' -]*?)\s*(?:$|[.,;:([{<=])/iu;
const noPiece =
  /^(?:for|on|in|rows?|rnds?|rounds?|set|established|before|usual|last|prev\w*|patt\w*|this|chart)\b/i;

/** `as for Body`, `Rnds 1-5 of Arm`: the key of the piece that is named; null for none. */
function otherPiece(whole: string): string | null {
  // `until work measures same as back` says how long it is.
  const text = whole.replace(/\buntil\b.*?\bsame as\b.*$/i, "");
  const name = [asPiece, ofPiece]
    .map((form) => form.exec(text)?.[1])
    .find((one) => one && !noPiece.test(one));
  return name === undefined ? null : pieceKey(name);
}

/** `Work Rows 1-36 (38, 40) as for Back`: the last row of each size. */
function endsNamed(text: string): number[] | null {
  const list = /\b(?:rows|rnds|rounds)\s+\d+\s*(?:[-–—]|to)\s*(\d+\s*[([][\d\s,;:]+[)\]])/i.exec(text)?.[1];
  return list === undefined ? null : numbersIn(list);
}

function rowsNamed(text: string, ofPiece: boolean): number[] | null {
  const match = ordinalRow.exec(text) ?? rowNumbers.exec(text) ?? ordinalsAlone.exec(text);
  if (!match) return null;
  const from = Number(match[1]);
  const to = Number(match[3] ?? from);
  if (
    ofPiece &&
    to === from &&
    /\b(?:to|through|until)\s+(?:the\s+)?(?:end of\s+)?$/i.test(text.slice(0, match.index))
  )
    return sequence(1, to);
  // `as Row 22 – 41 sts`: the number behind the dash is the count.
  if (/^(?:row|rnd|round)\b[^-–—]*\s[-–—]\s/i.test(match[0])) return [from];
  const pair = /&|and|,/.test(match[2] ?? "");
  return pair ? [from, to] : sequence(from, to);
}

const ownWords =
  /^(?:rep(?:eat)?s?|as|same|work|cont(?:inue)?|alternate|again|for|in|the|then|now|from|with|instructions|pattern|patt|last|next|given|described|instructed|written|worked)$/i;

function namesOther(text: string): boolean {
  const match = ordinalRow.exec(text) ?? rowNumbers.exec(text);
  if (!match) return false;
  const { 0: rows, index } = match;
  const before = text.slice(0, index).match(/\p{L}+/gu) ?? [];
  const behind = text.slice(index + rows.length);
  return before.some((word) => !ownWords.test(word)) || /^\W*\s(?:of|from)\b(?!\s+\*)/i.test(behind);
}

/** The numbers of a head: `Rnds 1-6: As for Body`. */
function rowsOf(head: RowContent["head"]): number[] | null {
  if (head?.from == null) return null;
  return sequence(head.from, Math.max(head.from, ...(head.to ?? []).map((n) => n ?? 0)));
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

/** `increasing 16 sts each rnd`. */
const shapingByRow =
  /\b(increas\w*|inc|decreas\w*|dec)\s+(?:by\s+)?(\d+)\s+(?:\w+\s+)?(?:in\s+|on\s+)?(?:each|every|per)\s+(?:row|rnd|round)/i;

/** `increasing 1 st at each end of every sc row`. */
const shapingAtEnds = new RegExp(String.raw`\b${changeAtEnds}\b`, "i");

/** `continue as set, decreasing at the armhole as before`. */
const shapes =
  /(?:,|\band|\bwhile)\s+(?:inc|dec)(?:rease)?\b|(?<!\b(?:without|no|any|further)\s)\b(?:in|de)creasing\b/i;

/** Nothing tells how often. */
const untoldTimes: Copy = { how: "goes-on-until", left: [] };

const changesByRow = /\b(?:more|extra|fewer|less)\s+\p{L}+\s+(?:each|every|per|at|on|in)\b/iu;

/** How many rows a head stands for, one number a size; null for one row. */
function manyOf(head: RowContent["head"]): number[] | null {
  const list = head?.many ?? head?.to?.map((n) => (n === null ? null : n - (head.from ?? 1) + 1));
  return list ? list.map((n) => n ?? 1) : null;
}

function rowsFor(text: string): number[] | null {
  const told = evenRows.exec(text)?.[1];
  if (told === undefined) return null;
  return /\d/.test(told) ? numbersIn(told) : [numberOf(told)];
}

const sized = String.raw`(\d+(?:\s*[([]\s*[\d\s,;:–-]+[)\]])?)`;
const alternateRows = new RegExp(String.raw`(?:foll(?:owing)?|next)\s+${sized}\s+alt(?:ernate)?`, "i");
const nextRows = new RegExp(
  String.raw`(?:of|on)\s+(?:the\s+)?(?:next|foll(?:owing)?)\s+${sized}\s+rows`,
  "i",
);
const untilRows = new RegExp(
  String.raw`\buntil\s+(?:(?:there\s+are|you\s+(?:have|get|reach)|reaching)\s+)?(?:a\s+total\s+of\s+)?${sized}\s+(?:rows|rnds|rounds)\b`,
  "i",
);
const goesOnUntil = new RegExp(
  String.raw`^(?:cont(?:inue)?|keep)\b(?!.*\b(?:each|both)\s+(?:end|side))(?=.*\b(?:inc|dec|add))(?=.*\b(?:manner|way|as before|like this|more\s+sts?))[^.;]*\buntil\s+(?:there\s+are|you\s+have)\s+${sized}\s*(?:sts?|stitches|sc|dc|hdc|tr|htr)\b`,
  "i",
);
const evenRows = new RegExp(
  String.raw`(?:for\s+)?(${sized}|one|two|three|four|five|six|seven|eight|nine|ten)\s+(?:more\s+)?(?:rows?|rnds?|rounds?)`,
  "i",
);
const everyRow = /every\s+(?:(other|alt(?:ernate)?)\s+|(\d+)(?:nd|rd|th)\s+)?rows?/i;
const everyTimes = new RegExp(String.raw`${everyRow.source}\s+${sized}\s+times`, "i");
const untilLeft = new RegExp(
  String.raw`\buntil\s+(?:${sized}\s+(?:\w+\s+)?(?:rem|left)|(?:there\s+are|you\s+have)\s+${sized}\s+(?:sts?|stitches|sc|dc|hdc|tr|htr)\b)`,
  "i",
);

/** `every row`, `each foll 4th row`, `alternate rows`, `Rows 5 and 7`. */
const severalRows =
  /\bevery\b|\beach\s+(?:(?:other|alt\w*|foll\w*|next|\d+\w*)\s+)*(?:row|rnd|round)\b|\balt(?:ernate)?\b|\b(?:row|rnd|round)s\b/i;
const oneRow =
  /\b(?:of|on|in)\s+(?:the\s+)?(?:(?:next|foll\w*|this|first|last|final)\s+(?:row|rnd|round)|(?:row|rnd|round)\s+\d+)\b/i;

/** `next and foll 4 alt rows` is five shaping rows among nine. */
function eachEnd(head: RowContent["head"], text: string, sign: number, by: number): Copy | null {
  const every = everyRow.exec(text);
  const apart = every?.[1] ? 2 : Number(every?.[2] ?? 1);
  const left = untilLeft.exec(text);
  if (left)
    return { how: "each-end-until", by: by * sign, left: numbersIn((left[1] ?? left[2]) as string), apart };
  const told = timesAndRows(text, every ? apart : 1);
  if (told) return { how: "each-end", by: by * sign, ...told };
  // "until it is right" says how it ends, not how often.
  if (/\buntil\b/i.test(text)) return null;
  const rows = manyOf(head) ?? [1];
  const isOne = oneRow.test(text) && !/\bevery\b/i.test(text);
  if (isOne || (!severalRows.test(text) && rows.every((n) => n === 1)))
    return { how: "each-end", by: by * sign, times: [1], rows: [1] };
  const times = rows.map((n) => n / apart);
  const isTold = every !== null && rows.some((n) => n > 1) && !oneRow.test(text);
  return isTold && times.every(Number.isInteger)
    ? { how: "each-end", by: by * sign, times, rows }
    : untoldTimes;
}

/** How often the row is shaped, and among how many rows, as its words say it. */
function timesAndRows(text: string, apart: number): { times: number[]; rows: number[] } | null {
  const alternate = alternateRows.exec(text);
  if (alternate) {
    const more = numbersIn(alternate[1] as string);
    const times = more.map((n) => n + (/next and/i.test(text) ? 1 : 0));
    return { times, rows: more.map((n) => 2 * n + 1) };
  }
  const often = everyTimes.exec(text);
  if (often) {
    const times = numbersIn(often[3] as string);
    return { times, rows: times.map((n) => n * apart) };
  }
  const next = nextRows.exec(text);
  const times = next && numbersIn(next[1] as string);
  return times && { times, rows: times };
}

function numbersIn(text: string): number[] {
  return (text.match(/\d+/g) ?? []).map(Number);
}
