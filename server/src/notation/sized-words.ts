import type { Sized, Word } from "./words";

/**
 * `60 (64, 68)`, `30[34:38]`, `8 (8-10-12)` become one number; a bracket that holds nothing but the
 * numbers of all sizes keeps its brackets and holds one number.
 */
export function mergeSizes(words: readonly Word[], sizes: number): Word[] {
  const out: Word[] = [];
  for (let i = 0; i < words.length; ) {
    const list = sizesAt(words, i, sizes);
    const word = words[i] as Word;
    out.push(
      list
        ? { ...word, cls: list.cls, end: (words[i + list.used - 1] as Word).end, number: list.number }
        : word,
    );
    i += list?.used ?? 1;
  }
  return out;
}

interface SizeList {
  readonly cls: string;
  readonly number: Sized;
  readonly used: number;
}

function sizesAt(words: readonly Word[], i: number, sizes: number): SizeList | null {
  if (sizes < 2) return null;
  const first = sizedValue(words[i]);
  if (first !== undefined && /^[([{]$/.test(words[i + 1]?.cls ?? "")) {
    const rest = listAt(words, i + 2);
    if (
      rest &&
      /^[)\]}]$/.test(words[i + 2 + rest.used]?.cls ?? "") &&
      (rest.number.length > 1 || sizes === 2 || isShortList(words, i, i + 3 + rest.used))
    )
      return { cls: "n", number: [first, ...rest.number], used: rest.used + 3 };
  }
  const inside =
    /^[([{]$/.test(words[i]?.cls ?? "") && "ScX".includes(words[i - 1]?.cls ?? "-")
      ? listAt(words, i + 1)
      : null;
  if (inside && inside.number.length === sizes && /^[)\]}]$/.test(words[i + 1 + inside.used]?.cls ?? ""))
    return { cls: "n", number: inside.number, used: inside.used + 2 };
  const all = listAt(words, i);
  const bracketed = /^[([{]$/.test(words[i - 1]?.cls ?? "");
  const goesOn = all !== null && isNextKind(words, i, i + all.used);
  return all && (bracketed || goesOn) && all.number.length === sizes ? { cls: "n", ...all } : null;
}

const nouns = "StcpC";

/** `(17, 18, 19 hdc, 17, 18, 19 ch-1 sps)`: the numbers of a further kind in one bracket. */
function isNextKind(words: readonly Word[], from: number, behind: number): boolean {
  return (
    words[from - 1]?.cls === "," &&
    nouns.includes(words[from - 2]?.cls ?? "-") &&
    nouns.includes(words[behind]?.cls ?? "-")
  );
}

/** `45 (50) htr`, `10 (12) times` among three sizes: a list that lacks a number, not a number with a count behind it. */
function isShortList(words: readonly Word[], from: number, behind: number): boolean {
  const before = words[from - 1]?.cls ?? "-";
  // `ch 62 (69)`, `ch 6 (8), skip`: no count is so long after a chain within a row, and nothing is skipped behind one.
  const goesOn = words[behind]?.cls === "," && words[behind + 1]?.cls === "k";
  const isChain = before === "c" && (goesOn || (words[from]?.number?.[0] ?? 0) > 20);
  return isChain || ("StcpCTR".includes(words[behind]?.cls ?? "-") && before !== "T");
}

function sizedValue(word: Word | undefined): number | null | undefined {
  if (word?.cls === "n") return word.number?.[0] ?? null;
  return word?.cls === "-" ? null : undefined;
}

function listAt(words: readonly Word[], i: number): { number: (number | null)[]; used: number } | null {
  const number: (number | null)[] = [];
  let at = i;
  for (;;) {
    const value = sizedValue(words[at]);
    if (value === undefined) return null;
    number.push(value);
    at++;
    if (!/^[,;:-]$/.test(words[at]?.cls ?? "")) return { number, used: at - i };
    at++;
  }
}
