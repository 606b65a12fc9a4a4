import { ownCopy } from "../text/own-copy";
import type { Span } from "../text/span";
import { isFiller, type Meaning, trade } from "./vocabulary";

/** A number for each size; one number holds for all. `null`: not worked for that size. */
export type Sized = readonly (number | null)[];

export interface Word extends Span {
  /** One character: what the grammar of rows reads. */
  readonly cls: string;
  /** The dialect-neutral word; for a number its digits. */
  readonly value: string;
  /** For numbers, ordinals, `ch-2 sp` and `ch-3`. */
  readonly number?: Sized;
  /** No gap between this word and the one before it: `2sc`. */
  readonly glued: boolean;
}

/** What a pattern adds to the words of the trade. */
export interface Lexicon {
  /** Names the pattern gives to stitches, colours and pieces, in lower case; case matters where `exact` holds one. */
  readonly words: ReadonlyMap<string, Meaning>;
  /** How many sizes the pattern is written for. */
  readonly sizes: number;
}

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

interface Atom extends AtomText, Span {
  readonly glued: boolean;
}

const decreaseInWords =
  /draw(?:ing)? up a (?:loop|lp) in (?:each of )?(?:the )?(?:next |first |last )?(\d+|two|three) (?:sts?|stitches|sc)[^.;()]*?(?:draw|pull) through all (?:\w+ )?(?:loops|lps)(?: on hook)?/giy;
const pointed = /(?:\p{L}\.){2,}|\p{L}{1,2}\.\p{L}{1,3}\./uy;
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

/** The words of a stretch of text, in order. Never fails: what it does not know has class `w`. */
export function readWords(text: string, lexicon: Lexicon): Word[] {
  const words: Word[] = [];
  const atoms = readAtoms(text);
  for (let i = 0; i < atoms.length; ) {
    const [word, used] = readWord(text, atoms, i, words, lexicon);
    if (word) words.push(word);
    i += used;
  }
  return mergeSizes(withoutAdjectives(words), lexicon.sizes);
}

/** `in next 6 underarm ch`, `skip all sleeve sts`: what the places are like besides changes nothing. */
function withoutAdjectives(words: readonly Word[]): readonly Word[] {
  return words.some(({ cls }) => cls === "w") ? words.filter((_, i) => !isAdjective(words, i)) : words;
}

const placeNouns = "tcpC";
const determiners = "nXfzeyEm";
const placeLeads = "ikO";

function isAdjective(words: readonly Word[], i: number): boolean {
  const word = words[i] as Word;
  if (word.cls !== "w" || !/^\p{L}/u.test(word.value) || !placeNouns.includes(words[i + 1]?.cls ?? "-"))
    return false;
  let before = i - 1;
  while (determiners.includes(words[before]?.cls ?? "-")) before--;
  // A space is one whatever it is called: `in handle loop`.
  const isSpace = "pC".includes(words[i + 1]?.cls ?? "-");
  const isLed = before < i - 1 || isSpace || words[before]?.cls === "k";
  return isLed && placeLeads.includes(words[before]?.cls ?? "-");
}

function readAtoms(text: string): Atom[] {
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
  const told = first === "d" || first === "D" ? matchAt(decreaseInWords, text, at) : null;
  if (told !== null) return told;
  return mayBePointed(text, at) && !/\p{L}/u.test(text[at - 1] ?? " ") ? matchAt(pointed, text, at) : null;
}

function matchAt(sticky: RegExp, text: string, at: number): string | null {
  sticky.lastIndex = at;
  return sticky.exec(text)?.[0] ?? null;
}

const atomTexts = new Map<string, AtomText>();
const atomTextsAtMost = 5_000;

/** Patterns are written with few words, again and again. */
function atomText(found: string): AtomText {
  let atom = atomTexts.get(found);
  if (!atom) {
    if (atomTexts.size >= atomTextsAtMost) atomTexts.clear();
    const own = ownCopy(found);
    const text = plain(withoutStops(own));
    const isShaping = /tog|^(?:inc|dec)(?:rease)?$/.test(text);
    atom = { text, isNumber: /^\d+$/.test(text), isSmall: /^\p{Ll}/u.test(own), isShaping };
    atomTexts.set(own, atom);
  }
  return atom;
}

/** `d.c.` is dc. */
function withoutStops(text: string): string {
  return /\p{L}\..*\.$/u.test(text) ? text.replaceAll(".", "") : text;
}

/** A stop within three characters: `d.c.`, `sl.st.` */
function mayBePointed(text: string, at: number): boolean {
  return text[at + 1] === "." || text[at + 2] === "." || text[at + 3] === ".";
}

type Read = readonly [word: Word | null, atoms: number];

function readWord(
  text: string,
  atoms: readonly Atom[],
  i: number,
  before: readonly Word[],
  lexicon: Lexicon,
): Read {
  const atom = atoms[i] as Atom;
  const make = (cls: string, value: string, used: number, number?: Sized): Read => {
    const end = (atoms[i + used - 1] as Atom).end;
    return [{ cls, value, start: atom.start, end, glued: atom.glued, ...(number ? { number } : {}) }, used];
  };
  return (
    compound(atoms, i, make, lexicon) ??
    phrase(atoms, i, make, lexicon) ??
    makeThere(atom, before, make) ??
    colour(text, atoms, i, before, make) ??
    single(atom, make)
  );
}

type Make = (cls: string, value: string, used: number, number?: Sized) => Read;

function wordAt(atoms: readonly Atom[], i: number): string {
  return atoms[i]?.text ?? "";
}

const spaceNouns = new Set(["sp", "sps", "space", "spaces", "lp", "lps", "loop", "loops", "arch", "arches"]);
const chainWords = new Set(["ch", "chs", "chain", "chains"]);
const beginWords = new Set(["beg", "beginning", "turning", "starting", "start"]);

/** Shapes made of words and numbers: `sc2tog`, `3-dc cluster`, `ch-2 sp`, `2-ch sp`, `ch-3`, `2nd`. */
function compound(atoms: readonly Atom[], i: number, make: Make, lexicon: Lexicon): Read | null {
  return (
    together(atoms, i, make) ??
    chainSpace(atoms, i, make) ??
    group(atoms, i, make, lexicon) ??
    ordinal(atoms, i, make)
  );
}

const loopSuffix = /^(.{2,4}?)(?:tbl|blo|flo|bl|fl)$/;

function together(atoms: readonly Atom[], i: number, make: Make): Read | null {
  const first = atoms[i] as Atom;
  const looped = first.isNumber ? undefined : trade.get(loopSuffix.exec(first.text)?.[1] ?? "");
  if (looped?.cls === "S") return make("S", looped.value, 1);
  if (first.text.startsWith("draw") && first.text.length > 20) {
    const n = /(?:next|first|last|of|in) (\d+|two|three) /.exec(first.text)?.[1] ?? "2";
    return make("S", `sc${({ two: "2", three: "3" } as Record<string, string>)[n] ?? n}tog`, 1);
  }
  if (!isShapingNear(atoms, i)) return null;
  if (first.isShaping && shapesOne(atoms, i)) return make("S", first.text.slice(0, 3), 3);
  const tog = /^(tog|together|tog's|togs)$/;
  const shaping = /^(inc|dec)$/.exec(wordAt(atoms, i + 1))?.[1];
  const shaped = trade.get(first.text);
  if (
    shaping &&
    shaped?.cls === "S" &&
    /^(?:sc|hdc|dc|htr|tr)$/.test(shaped.value) &&
    !/^\d/.test(wordAt(atoms, i - 1))
  )
    return make("S", `${shaped.value}${shaping}`, 2);
  for (const [stitchAtoms, stitch] of stitchesAt(atoms, i)) {
    const n = wordAt(atoms, i + stitchAtoms);
    const dash = wordAt(atoms, i + stitchAtoms + 1) === "-" ? 1 : 0;
    if (/^\d+$/.test(n) && tog.test(wordAt(atoms, i + stitchAtoms + 1 + dash)))
      return make("S", `${stitch}${n}tog`, stitchAtoms + 2 + dash);
  }
  if (!first.isNumber) return null;
  const joined = trade.get(/^(.+)tog$/.exec(wordAt(atoms, i + 1))?.[1] ?? "");
  if (joined?.cls === "S") return make("S", `${joined.value}${first.text}tog`, 2);
  for (const [stitchAtoms, stitch] of stitchesAt(atoms, i + 1))
    if (
      tog.test(wordAt(atoms, i + 1 + stitchAtoms)) &&
      wordAt(atoms, i + 2 + stitchAtoms) !== "with" &&
      Number(first.text) > 1
    )
      return make("S", `${stitch}${first.text}tog`, stitchAtoms + 2);
  return null;
}

/** `dec 1 sc`, `inc 1 st`: by one stitch. */
function shapesOne(atoms: readonly Atom[], i: number): boolean {
  const [shaping, n, noun, behind] = [0, 1, 2, 3].map((k) => wordAt(atoms, i + k));
  return (
    /^(?:inc|dec)(?:rease)?$/.test(shaping ?? "") &&
    /^(?:1|one)$/.test(n ?? "") &&
    /^(?:[St])$/.test(trade.get(noun ?? "")?.cls ?? "") &&
    !/^\d/.test(behind ?? "")
  );
}

/** Only near one of these can a compound with a number or a shaping be. */
function isShapingNear(atoms: readonly Atom[], i: number): boolean {
  for (let k = i; k < i + 8 && k < atoms.length; k++) if (atoms[k]?.isShaping) return true;
  return false;
}

function stitchesAt(atoms: readonly Atom[], i: number): [number, string][] {
  const found: [number, string][] = [];
  for (let n = Math.min(longest.get(wordAt(atoms, i)) ?? 0, atoms.length - i); n > 0; n--) {
    const meaning = trade.get(join(atoms, i, n));
    if (meaning?.cls === "S") found.push([n, meaning.value]);
  }
  return found;
}

/** Chains of the longest space that is called by its number without a hyphen. */
const mostChainsOfSpace = 12;

function chainSpace(atoms: readonly Atom[], i: number, make: Make): Read | null {
  const first = wordAt(atoms, i);
  const made =
    beginWords.has(first) && chainWords.has(wordAt(atoms, i + 1)) && wordAt(atoms, i + 2) === "-"
      ? wordAt(atoms, i + 3)
      : "";
  if (/^\d+$/.test(made)) return make("H", `ch-${made}`, 4, [Number(made)]);
  let n: string | undefined;
  let used = 0;
  let hyphen = false;
  if (chainWords.has(first)) {
    hyphen = wordAt(atoms, i + 1) === "-";
    const digits = wordAt(atoms, i + 1 + (hyphen ? 1 : 0));
    if (/^\d+$/.test(digits)) [n, used] = [digits, 2 + (hyphen ? 1 : 0)];
    hyphen &&= atoms[i + 1]?.glued === true;
  } else if (atoms[i]?.isNumber) {
    const dash = wordAt(atoms, i + 1) === "-" ? 1 : 0;
    const apart = dash === 0 && atoms[i + 1]?.glued !== true && wordAt(atoms, i + 2) === "-";
    if (!apart && chainWords.has(wordAt(atoms, i + 1 + dash)))
      [n, used, hyphen] = [first, 2 + dash, dash === 1];
  }
  if (n === undefined) return null;
  const dash = wordAt(atoms, i + used) === "-" && spaceNouns.has(wordAt(atoms, i + used + 1)) ? 1 : 0;
  // `49 ch sps` are so many; `2-ch sps`, `50ch sps` and those of `2 50 ch sps` are so long.
  const named = hyphen || atoms[i + 1]?.glued === true || atoms[i - 1]?.isNumber === true;
  const many = atoms[i]?.isNumber === true && !named && Number(n) > mostChainsOfSpace;
  if (many && /s$/.test(wordAt(atoms, i + used + dash))) return null;
  if (spaceNouns.has(wordAt(atoms, i + used + dash)))
    return make("C", `ch-${n} sp`, used + 1 + dash, [Number(n)]);
  const worked =
    hyphen ||
    (wordAt(atoms, i - 1) === "of" && chainWords.has(first)) ||
    (/^(of|top|to|beg|turning)$/.test(wordAt(atoms, i - 1)) && atoms[i + 1]?.glued === true);
  return worked ? make("H", `ch-${n}`, used, [Number(n)]) : null;
}

/** `3-dc cluster`, `5 dc shell`: the number belongs to the name. */
function group(atoms: readonly Atom[], i: number, make: Make, lexicon: Lexicon): Read | null {
  if (!atoms[i]?.isNumber || wordAt(atoms, i + 1) !== "-") return null;
  for (const [n, stitch] of stitchesAt(atoms, i + 2)) {
    for (let m = 3; m > 0; m--) {
      const name = join(atoms, i + 2 + n, m);
      const meaning = lexicon.words.get(name) ?? trade.get(name);
      const named = meaning && /[S@]/.test(meaning.cls);
      if (named) return make("S", `${wordAt(atoms, i)}-${stitch} ${meaning.value}`, 2 + n + m);
      if (meaning?.value === "corner") return make("q", "corner", 2 + n + m);
    }
  }
  return null;
}

function ordinal(atoms: readonly Atom[], i: number, make: Make): Read | null {
  const next = atoms[i + 1];
  if (!atoms[i]?.isNumber || !next?.glued || !/^(st|nd|rd|th|d)$/.test(next.text)) return null;
  const n = Number(wordAt(atoms, i));
  if (n === 1) return make("f", "first", 2);
  return make("o", String(n), 2, [n]);
}

/** For each first word, how many words the longest phrase that begins with it has. */
function longestByFirst(phrases: Iterable<string>): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  for (const name of phrases) {
    const parts = name.match(/\d+|\p{L}+(?:'\p{L}+)?|\S/gu) ?? [];
    found.set(parts[0] ?? "", Math.max(found.get(parts[0] ?? "") ?? 0, parts.length));
  }
  return found;
}

const longest = longestByFirst(trade.keys());
const longestOwn = new WeakMap<ReadonlyMap<string, Meaning>, ReadonlyMap<string, number>>();

function longestOf(words: ReadonlyMap<string, Meaning>): ReadonlyMap<string, number> {
  const known = longestOwn.get(words);
  if (known) return known;
  const found = longestByFirst(words.keys());
  longestOwn.set(words, found);
  return found;
}

/** The longest phrase of the pattern's own words or the trade's that starts here. */
function phrase(atoms: readonly Atom[], i: number, make: Make, lexicon: Lexicon): Read | null {
  const first = wordAt(atoms, i);
  const most = Math.max(longest.get(first) ?? 0, longestOf(lexicon.words).get(first) ?? 0);
  // `other side of the chain` is as long as its article more.
  const longer = most > 2 ? most + 1 : most;
  for (let n = Math.min(longer, atoms.length - i); n > 0; n--) {
    const name = join(atoms, i, n);
    const meaning =
      lexicon.words.get(name) ??
      trade.get(name) ??
      (n > 2 ? trade.get(name.replace(" the ", " ")) : undefined);
    if (!meaning || (n === 1 && isFiller(name) && !lexicon.words.has(name))) continue;
    if (name === "around" && namesPiece(atoms, i + n, lexicon)) return make("i", "around", n);
    return meant(atoms, i, n, name, meaning, make);
  }
  return null;
}

/** `around first leg`: the pattern's name for a piece stands here. */
function namesPiece(atoms: readonly Atom[], i: number, lexicon: Lexicon): boolean {
  const from = wordAt(atoms, i) === "the" ? i + 1 : i;
  const most = longestOf(lexicon.words).get(wordAt(atoms, from)) ?? 0;
  for (let n = most; n > 0; n--) if (lexicon.words.get(join(atoms, from, n))?.cls === "N") return true;
  return false;
}

function meant(
  atoms: readonly Atom[],
  i: number,
  n: number,
  name: string,
  meaning: Meaning,
  make: Make,
): Read {
  const used = n + stopAfter(atoms, i + n);
  if (meaning.cls === "") return [null, used];
  if (meaning.cls === "C0") return make("C", "ch sp", used);
  if (meaning.cls === "H0") return make("H", meaning.value, used);
  if (meaning.cls === "V2") return make("%", "evenly", used);
  if (meaning.cls === "o") return make("o", meaning.value, used, [Number(meaning.value)]);
  if (meaning.cls === "n") return make("n", meaning.value, used, [Number(meaning.value)]);
  if (name === "around" && (startsPost(atoms, i + n) || isBetweenStitches(atoms, i, n)))
    return make("i", "around", used);
  if (name === "across" && startsPlace(atoms, i + n)) return make("i", "in", used);
  return make(meaning.cls, meaning.value, used);
}

/** `around next st`, `around the post`: worked round it; `around` alone: to the end of the round. */
function startsPost(atoms: readonly Atom[], i: number): boolean {
  const next = wordAt(atoms, i) === "the" ? wordAt(atoms, i + 1) : wordAt(atoms, i);
  return /^(next|same|each|post|posts|following|first|last|st|corresponding|both|handles?|loops?|lps?|ring)$/.test(
    next,
  );
}

/** `fpdc around fpdc`. */
function isBetweenStitches(atoms: readonly Atom[], i: number, n: number): boolean {
  const isStitch = (k: number): boolean => trade.get(wordAt(atoms, k))?.cls === "S";
  return (
    isStitch(i - 1) &&
    (isStitch(i + n) || (/^(?:the|a|an)$/.test(wordAt(atoms, i + n)) && isStitch(i + n + 1)))
  );
}

/** `across next 5 sts`: in them; `across` alone: to the end of the row. */
function startsPlace(atoms: readonly Atom[], i: number): boolean {
  const next = wordAt(atoms, i) === "the" ? wordAt(atoms, i + 1) : wordAt(atoms, i);
  return /^(next|first|last|remaining|rem|\d+)$/.test(next);
}

/** The point of an abbreviation: small letters go on behind it. */
function stopAfter(atoms: readonly Atom[], i: number): number {
  const stop = atoms[i];
  if (stop?.text !== "." || !stop.glued) return 0;
  const next = atoms[i + 1];
  if (next === undefined || next.glued) return 0;
  const opensRow = i === 1 && chainWords.has(wordAt(atoms, 0)) && /^\d/.test(next.text);
  return next.isSmall || opensRow ? 1 : 0;
}

function join(atoms: readonly Atom[], i: number, n: number): string {
  let name = "";
  for (let k = i; k < i + n; k++) {
    const atom = atoms[k];
    if (atom === undefined) return "";
    const tight = k === i || (atom.glued && /^[-'/&]$|^sp|^\d/.test(atom.text)) || /[-/'&]$/.test(name);
    name += tight ? atom.text : ` ${atom.text}`;
  }
  return name;
}

/** Capital letters that name a colour: `with A`, `join B`, `MC`. */
function colour(
  text: string,
  atoms: readonly Atom[],
  i: number,
  before: readonly Word[],
  make: Make,
): Read | null {
  const atom = atoms[i] as Atom;
  const raw = text.slice(atom.start, atom.end);
  const previous = before.at(-1);
  // `6 sc into it`: the ring that was named.
  if (atom.text === "it" && previous?.cls === "i") return make("g", "ring", 1);
  const behindStitch = previous?.cls === "i" && before.at(-2)?.cls === "S";
  if (raw === "MC" && (behindStitch || (i === 0 && /^\d+$/.test(wordAt(atoms, 1)))))
    return make("g", "ring", 1);
  if (/^(MC|CC\d?|C[A-F])$/.test(raw)) return make("K", raw, 1);
  if (!/^[A-H]$/.test(raw)) return null;
  const led =
    /(with|join|to|color|colour|col|yarn|in|using|off|colou?rs|and)\s*$/i.test(
      text.slice(Math.max(0, atom.start - 8), atom.start),
    ) || previous?.cls === "(";
  return led ? make("K", raw, 1) : null;
}

/** `in next sp make 3 dc`: "make" parts the place, which stands first, from what is worked there. */
function makeThere(atom: Atom, before: readonly Word[], make: Make): Read | null {
  if (atom.text !== "make" && atom.text !== "work") return null;
  const clause = before.slice(before.findLastIndex(({ cls }) => !placeWords.has(cls)) + 1);
  const known = clause[0]?.cls === "i" && clause.length > 1;
  return known ? make("/", "make", 1) : null;
}

/** What a place phrase is made of. */
const placeWords = new Set([..."ieXfzmynotSCHpqc@YABRg"]);

function single(atom: Atom, make: Make): Read {
  // Nothing is worked three and a half times: a fraction measures something.
  if (/^\d/.test(atom.text))
    return atom.isNumber ? make("n", atom.text, 1, [Number(atom.text)]) : make("w", atom.text, 1);
  if (isFiller(atom.text)) return [null, 1];
  if (atom.text === "-" || atom.text === "=" || /^[()[\]{}<>,;.:&*]$/.test(atom.text))
    return make(atom.text, atom.text, 1);
  if (/^\*{2,}$/.test(atom.text)) return make("$", "**", 1);
  if (/^[†‡#+^~§]$/.test(atom.text)) return make("+", atom.text, 1);
  if (atom.text === "x") return make("T", "times", 1);
  return make("w", atom.text, 1);
}

/**
 * `60 (64, 68)`, `30[34:38]`, `8 (8-10-12)` become one number; a bracket that holds nothing but the
 * numbers of all sizes keeps its brackets and holds one number.
 */
function mergeSizes(words: readonly Word[], sizes: number): Word[] {
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
      (rest.number.length > 1 || sizes === 2)
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
  if (all && bracketed && all.number.length === sizes) return { cls: "n", ...all };
  return null;
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
