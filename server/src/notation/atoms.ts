import { Lately } from "../text/lately";
import { ownCopy } from "../text/own-copy";
import type { Span } from "../text/span";

/** What an atom is, wherever it stands. */
interface AtomText {
  /** In small letters, without stops, look-alikes made plain. */
  readonly text: string;
  readonly isNumber: boolean;
  /** It begins with a small letter. */
  readonly isSmall: boolean;
  /** A number may make a decrease or an increase of it. */
  readonly isShaping: boolean;
}

export interface Atom extends AtomText, Span {
  readonly glued: boolean;
}

const decreaseInWords =
  /draw(?:ing)? up a (?:loop|lp) in (?:each of )?(?:the )?(?:next |first |last )?(\d+|two|three) (?:sts?|stitches|sc)[^.;()]*?(?:draw|pull) through all (?:\w+ )?(?:loops|lps)(?: on hook)?/giy;

/** `work off next 2 sc as 1 sc` */
const workedAsOne =
  /work(?:ing)? off (?:the )?next (\d|two|three) (?:sc|s\.? c\.?|dc|d\.? c\.?|sts?) as (?:1|one)(?: (?:sc|s\.? c\.?|dc|d\.? c\.?|st))?/iy;

/** `holding back on hook the last loop of each tr make tr in each of next 6 tr, thread over and draw through all loops`. */
const clusterInWords =
  /(?:holding|leaving)\b[^.;()]{0,40}?\blast (?:loop|lp) of each\b[^.;()]{0,40}?\b(?:sc|hdc|dc|tr|dtr) in(?:to)? (?:each of )?(?:the )?next (?:\d+|two|three|four|five|six)\b[^.;()]{0,60}?(?:draw|pull)[^.;()]{0,20}? all (?:\w+ )?(?:loops|lps)(?: on hook)?/iy;

/** `d.c.`, `ch.sp.`, and with blanks, as in old books: `d. c.`, `h. d. c.`, `sl. st.` */
const pointed =
  /(?:\p{L}\.){2,}|(?:[sd]|h\.? ?d|[dh](?=\. tr)|sl)\. (?:c|tr|sts?)\.|\p{L}{1,2}\.\p{L}{1,3}\./iuy;

/** The next atom; letters of the alphabet alone are found far faster. */
const nextAtom = /\d+(?:\.\d+)?|[½¼¾]|\p{L}+(?:['’]\p{L}+)?|\*{2,}|\S/gu;

const nextPlainAtom = /\d+(?:\.\d+)?|[a-z]+(?:'[a-z]+)?|\*{2,}|[^\s]/gi;

/** Looks alike in print: Cyrillic and Turkish letters, curly quotes, dashes, multiplication signs. */
const lookalikes: Readonly<Record<string, string>> = {
  а: "a",
  с: "c",
  е: "e",
  о: "o",
  р: "p",
  х: "x",
  і: "i",
  ı: "i",
  İ: "i",
  "’": "'",
  "‘": "'",
  "–": "-",
  "—": "-",
  "−": "-",
  "‐": "-",
  "‑": "-",
  "×": "x",
};

function plain(text: string): string {
  if (/^[!-~]+$/.test(text)) return text.toLowerCase();
  const lower = text.toLowerCase().replace(/\u0307/g, "");
  return /[^\x20-\x7e]/.test(lower)
    ? lower.replace(/[асеорхіı’‘–—−‐‑×]/g, (c) =>
        /[a-z]/.test(lower) || c.charCodeAt(0) > 0x2000 || c === "ı" || c === "×" ? (lookalikes[c] ?? c) : c,
      )
    : lower;
}

export function readAtoms(text: string): Atom[] {
  const atoms: Atom[] = [];
  // biome-ignore lint/suspicious/noControlCharactersInRegex: all of ASCII is meant
  const next = /^[\x00-\x7f]*$/.test(text) ? nextPlainAtom : nextAtom;
  next.lastIndex = 0;
  for (let end = -1, match = next.exec(text); match; match = next.exec(text)) {
    const start = match.index;
    const found = longAtom(text, start) ?? match[0];
    const { text: plainText, isNumber, isSmall, isShaping } = atomText(found);
    const glued = start === end;
    end = next.lastIndex = start + found.length;
    atoms.push({ text: plainText, start, end, glued, isNumber, isSmall, isShaping });
  }
  return atoms;
}

/** Abbreviations with stops, and a decrease told in words: one atom each. */
function longAtom(text: string, at: number): string | null {
  const first = text[at];
  const told =
    first === "d" || first === "D"
      ? matchAt(decreaseInWords, text, at)
      : first === "w"
        ? matchAt(workedAsOne, text, at)
        : null;
  const cluster = isHolding(text, at) ? matchAt(clusterInWords, text, at) : null;
  if (told !== null || cluster !== null) return told ?? cluster;
  return mayBePointed(text, at) && !/\p{L}/u.test(text[at - 1] ?? " ") ? matchAt(pointed, text, at) : null;
}

function isHolding(text: string, at: number): boolean {
  const first = text[at];
  if (first !== "h" && first !== "H" && first !== "l" && first !== "L") return false;
  return /^(?:holding|leaving)$/i.test(text.slice(at, at + 7));
}

function matchAt(sticky: RegExp, text: string, at: number): string | null {
  sticky.lastIndex = at;
  return sticky.exec(text)?.[0] ?? null;
}

const atomTexts = new Lately<AtomText>(2_000);

/** Patterns are written with few words, again and again. */
function atomText(found: string): AtomText {
  let atom = atomTexts.get(found);
  if (!atom) {
    const own = ownCopy(found);
    const text = plain(withoutStops(own));
    const isShaping = /tog|^(?:inc|dec)(?:reas(?:e|ing))?$/.test(text);
    atom = { text, isNumber: /^\d+$/.test(text), isSmall: /^\p{Ll}/u.test(own), isShaping };
    atomTexts.set(own, atom);
  }
  return atom;
}

/** `d.c.` is dc. */
function withoutStops(text: string): string {
  return /\p{L}\..*\.$/u.test(text) ? text.replace(/[. ]/g, "") : text;
}

/** A stop within three characters: `d.c.`, `sl.st.` */
function mayBePointed(text: string, at: number): boolean {
  return text[at + 1] === "." || text[at + 2] === "." || text[at + 3] === ".";
}

export function wordAt(atoms: readonly Atom[], i: number): string {
  return atoms[i]?.text ?? "";
}

/** How many atoms a phrase that starts here may have, by the longest that begin as it does; an article may stand in it. */
export function mostAt(atoms: readonly Atom[], i: number, longest: ReadonlyMap<string, number>): number {
  const most = longest.get(wordAt(atoms, i)) ?? 0;
  if (most < 2 || wordAt(atoms, i + 1) === "the") return most;
  return longest.get(join(atoms, i, 2)) ?? 1;
}

export function join(atoms: readonly Atom[], i: number, n: number): string {
  let name = "";
  for (let k = i; k < i + n; k++) {
    const atom = atoms[k];
    if (atom === undefined) return "";
    const tight = k === i || (atom.glued && /^[-'/&]$|^sp|^\d/.test(atom.text)) || /[-/'&]$/.test(name);
    name += tight ? atom.text : ` ${atom.text}`;
  }
  return name;
}
