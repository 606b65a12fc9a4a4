import type { Span } from "../text/span";
import { type Atom, join, mostAt, readAtoms, wordAt } from "./atoms";
import { compound, stopAfter } from "./compounds";
import type { Glossary } from "./other-languages";
import { mergeSizes } from "./sized-words";
import { isFiller, longest, longestByFirst, type Meaning, trade } from "./vocabulary";

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
  /** What words of its language are in English, where it is in another. */
  readonly glossary?: Glossary;
}

/** The words of a stretch of text, in order. Never fails: what it does not know has class `w`. */
export function readWords(text: string, lexicon: Lexicon): Word[] {
  const words: Word[] = [];
  const atoms = readAtoms(text);
  for (let i = 0; i < atoms.length; ) {
    const [word, used] = readWord(text, atoms, i, words, lexicon);
    i += used;
    if (word?.cls === glossed) words.push(...inEnglish(word));
    else if (word && atoms[i]?.isNumber && endsSentence(text, word, words.at(-1))) words.push(...apart(word));
    else if (word) words.push(word);
  }
  return withoutAdjectives(mergeSizes(words, lexicon.sizes));
}

/** A word of another language; its value is English. */
const glossed = "translated";

const englishWords = new Map<string, readonly Word[]>();

/** The words that one of another language stands for: the first has its place, the others none of their own. */
function inEnglish({ value, start, end, glued }: Word): Word[] {
  let words = englishWords.get(value);
  if (!words) {
    words = readWords(value, { words: new Map(), sizes: 1 });
    englishWords.set(value, words);
  }
  return words.map((word, i) => ({ ...word, start: i === 0 ? start : end, end, glued: i === 0 && glued }));
}

/** `S.c. in each d.c. 12 s.c.`: the stop of the abbreviation is that of the sentence too. */
function endsSentence(text: string, { cls, end }: Word, before: Word | undefined): boolean {
  return text[end - 1] === "." && cls === "S" && before?.cls === "e";
}

function apart(word: Word): Word[] {
  const stop = { cls: ".", value: ".", start: word.end - 1, end: word.end, glued: true };
  return [{ ...word, end: word.end - 1 }, stop];
}

/** `in next 6 underarm ch`, `skip all sleeve sts`: what the places are like besides changes nothing. */
function withoutAdjectives(words: Word[]): Word[] {
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

export type Read = readonly [word: Word | null, atoms: number];

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
    const { start, glued } = atom;
    return [number ? { cls, value, start, end, glued, number } : { cls, value, start, end, glued }, used];
  };
  return (
    (lexicon.glossary && translated(atoms, i, make, lexicon, lexicon.glossary)) ??
    compound(atoms, i, make, lexicon) ??
    phrase(atoms, i, before, make, lexicon) ??
    makeThere(atom, before, make) ??
    leftFree(atom, before, make) ??
    colour(text, atoms, i, before, make) ??
    single(atom, make)
  );
}

export type Make = (cls: string, value: string, used: number, number?: Sized) => Read;

const longestOwn = new WeakMap<ReadonlyMap<string, unknown>, ReadonlyMap<string, number>>();

function longestOf(words: ReadonlyMap<string, unknown>): ReadonlyMap<string, number> {
  const known = longestOwn.get(words);
  if (known) return known;
  const found = longestByFirst(words.keys());
  longestOwn.set(words, found);
  return found;
}

/** The longest phrase of the pattern's own words or the trade's that starts here. */
function phrase(
  atoms: readonly Atom[],
  i: number,
  before: readonly Word[],
  make: Make,
  lexicon: Lexicon,
): Read | null {
  const most = Math.max(mostAt(atoms, i, longest), mostAt(atoms, i, longestOf(lexicon.words)));
  // `other side of the chain` is as long as its article more.
  const longer = most > 2 ? most + 1 : most;
  for (let n = Math.min(longer, atoms.length - i); n > 0; n--) {
    const name = join(atoms, i, n);
    const meaning =
      (isPlace(name, before) ? undefined : lexicon.words.get(name)) ??
      trade.get(name) ??
      (n > 2 ? trade.get(name.replace(" the ", " ")) : undefined);
    if (!meaning || (n === 1 && isFiller(name) && !lexicon.words.has(name))) continue;
    if (name === "around" && namesPiece(atoms, i + n, lexicon)) return make("i", "around", n);
    return meant(atoms, i, n, name, meaning, make);
  }
  return null;
}

/** `corner in next corner`: also where a pattern calls what it works there a corner. */
function isPlace(name: string, before: readonly Word[]): boolean {
  return (name === "corner" || name === "corners") && "iXeEfmzY".includes(before.at(-1)?.cls ?? "-");
}

/** The longest phrase of the pattern's language that starts here; a name of the pattern's own goes before. */
function translated(
  atoms: readonly Atom[],
  i: number,
  make: Make,
  { words }: Lexicon,
  glossary: Glossary,
): Read | null {
  const most = longestOf(glossary).get(wordAt(atoms, i)) ?? 0;
  for (let n = Math.min(most, atoms.length - i); n > 0; n--) {
    const name = join(atoms, i, n);
    if (words.has(name)) return null;
    const english = isLetter(name) && !atoms[i - 1]?.isNumber ? undefined : glossary.get(name);
    if (english !== undefined) return make(glossed, english, n + stopAfter(atoms, i + n));
  }
  return ordinalIn(atoms, i, make, glossary);
}

/** `B` is a stitch behind a number, else rather a yarn. */
function isLetter(name: string): boolean {
  return /^[a-h]$/.test(name) && !articles.has(name);
}

const articles = new Set(["a", "e"]);

/** `2ª corr`, `2. Lm`, `2-ю петлю`: a number that tells which, before what is counted. */
function ordinalIn(atoms: readonly Atom[], i: number, make: Make, glossary: Glossary): Read | null {
  const tail = atoms[i]?.isNumber && atoms[i + 1]?.glued ? wordAt(atoms, i + 1) : "";
  const used = tail === "-" && atoms[i + 2]?.glued ? 3 : 2;
  const isTail =
    tail === "."
      ? isPlaceWord(glossary, wordAt(atoms, i + 2))
      : ordinalTail.test(join(atoms, i + 1, used - 1));
  if (!isTail) return null;
  const n = Number(wordAt(atoms, i));
  return n === 1 ? make("f", "first", used) : make("o", String(n), used, [n]);
}

const ordinalTail = /^(?:[ªº]|a|e|è|ème|eme|ère|re|de|ste|-?(?:й|ю|я|е|ой|ую|ей))$/;

function isPlaceWord(glossary: Glossary, word: string): boolean {
  return /^(?:st|ch|sc|hdc|dc|tr)$/.test(glossary.get(word) ?? "");
}

/** `around first leg`: the pattern's name for a piece stands here. */
function namesPiece(atoms: readonly Atom[], i: number, lexicon: Lexicon): boolean {
  const from = wordAt(atoms, i) === "the" ? i + 1 : i;
  const most = longestOf(lexicon.words).get(wordAt(atoms, from)) ?? 0;
  for (let n = most; n > 0; n--) if (lexicon.words.get(join(atoms, from, n))?.cls === "N") return true;
  return false;
}

export function meant(
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
  return /^(next|same|each|post|posts|following|first|last|st|skipped|missed|unworked|marked|center|centre|corresponding|both|handles?|loops?|lps?|ring)$/.test(
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
  return /^(next|first|last|remaining|rem|gap|\d+)$/.test(next);
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
  if (atom.isSmall && atom.text !== "it") return null;
  const raw = text.slice(atom.start, atom.end);
  const previous = before.at(-1);
  // `6 sc into it`: the ring that was named.
  if (atom.text === "it" && previous?.cls === "i") return make("g", "ring", 1);
  const behindStitch = previous?.cls === "i" && before.at(-2)?.cls === "S";
  if (raw === "MC" && (behindStitch || (i === 0 && /^\d+$/.test(wordAt(atoms, 1)))))
    return make("g", "ring", 1);
  const number = colourNumber(raw, atoms, i);
  const length = number === "" ? 1 : 2;
  if (/^(MC|CC|C[A-F])$/.test(raw)) return make("K", raw + number, length);
  if (!/^[A-H]$/.test(raw)) return null;
  const led =
    /(with|join|to|color|colour|col|yarn|in|using|off|colou?rs|and)\s*$/i.test(
      text.slice(Math.max(0, atom.start - 8), atom.start),
    ) || previous?.cls === "(";
  return led ? make("K", raw + number, length) : null;
}

/** `CC2`, `C2`: the 2; `C2F` is a cable. */
function colourNumber(raw: string, atoms: readonly Atom[], i: number): string {
  const number = raw === "C" || raw === "CC" ? atoms[i + 1] : undefined;
  const isWhole = number?.glued && /^[1-9]$/.test(number.text) && !/^\p{L}/u.test(gluedTo(atoms[i + 2]));
  return isWhole ? number.text : "";
}

function gluedTo(atom: Atom | undefined): string {
  return atom?.glued ? atom.text : "";
}

/** `in next sp make 3 dc`: "make" parts the place, which stands first, from what is worked there. */
function makeThere(atom: Atom, before: readonly Word[], make: Make): Read | null {
  if (atom.text !== "make" && atom.text !== "work") return null;
  const clause = before.slice(before.findLastIndex(({ cls }) => !placeWords.has(cls)) + 1);
  const known = clause[0]?.cls === "i" && clause.length > 1;
  return known ? make("/", "make", 1) : null;
}

/** `leaving 11 dc free`: not worked. */
function leftFree(atom: Atom, before: readonly Word[], make: Make): Read | null {
  if (atom.text !== "free") return null;
  const clause = before.slice(
    before.findLastIndex(({ cls }) => cls === "," || cls === "." || cls === ";") + 1,
  );
  return clause.some(({ cls }) => cls === "L") ? make("u", "unworked", 1) : null;
}

/** What a place phrase is made of. */
const placeWords = new Set([..."ieXfzmynotSCHpqc@YABRga"]);

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
