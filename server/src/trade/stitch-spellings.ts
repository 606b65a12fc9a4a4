import { prefixes } from "./stitch-table";

/*
 * Sources of the spellings: a survey of 108 published patterns (1848 to today) for those of plain
 * stitches, slip stitches, chains, shapings and popcorns; the abbreviation list of
 * stitch4ever.com/2012/01/30/abbreviations-in-crochet-patterns and the word lists named beside the
 * stitches; the rarer ones (trc, mb, bob, shl, quad tr) and translations (air loop) from memory.
 */

/** Letters and words met for each plain stitch, without plurals. The words say nothing of the terms. */
const plain: readonly (readonly [word: string, ...spellings: string[]])[] = [
  ["sc", "s c", "single crochet", "single-crochet"],
  [
    "hdc",
    "h d c",
    "h dc",
    "half dc",
    "half double",
    "half-double",
    "half double crochet",
    "half-double crochet",
  ],
  ["dc", "d c", "double crochet", "double-crochet"],
  [
    "htr",
    "h tr",
    "half tr",
    "half treble",
    "half-treble",
    "half treble crochet",
    "half-treble crochet",
    "half triple crochet",
  ],
  ["tr", "trc", "tr c", "treble", "treble crochet", "triple crochet"],
  [
    "dtr",
    "d tr",
    "dtrc",
    "double tr",
    "dbl tr",
    "double treble",
    "double treble crochet",
    "double triple crochet",
  ],
  ["trtr", "trip tr", "triple tr", "triple treble", "treble treble", "triple treble crochet"],
  ["ttr"],
  ["qtr"],
  ["quadtr", "quad tr", "quadruple tr", "quadruple treble", "quadruple treble crochet"],
  ["quintr", "quintuple treble", "quintuple treble crochet"],
];

/** Spellings of stitches that stand alone. */
const named: readonly (readonly [word: string, ...spellings: string[]])[] = [
  ["ch", "chain", "air loop"],
  ["sl st", "slst", "sl-st", "sl stitch", "slip st", "slip stitch", "slip-stitch", "slipstitch", "ss"],
  ["inc", "increase"],
  ["dec", "decrease"],
  ["invdec", "inv dec", "inv-dec", "inv decrease", "invisible dec", "invisible decrease"],
  ["cluster", "cl"],
  ["popcorn", "pc", "pop"],
  ["puff", "ps"],
  ["bobble", "bo", "bob", "mb"],
  ["shell", "sh", "shl"],
  ["v-st", "v st", "vst", "v-stitch", "v stitch"],
  ["picot"],
  ["spike st", "spike stitch"],
  ["revsc", "rsc"],
  ["crab st", "crab stitch"],
];

/** Raised stitches are post stitches in some UK books: `RtrF`. */
const raised = [
  ["dc", "dc", "double crochet"],
  ["htr", "htr", "half treble", "half treble crochet"],
  ["tr", "tr", "treble", "treble crochet"],
  ["dtr", "dtr", "double treble", "double treble crochet"],
].flatMap(([word, ...names]) =>
  ["front", "back"].map((side): [string, ...string[]] => [
    `r${word}${side[0]}`,
    ...names.map((name) => `raised ${name} ${side}`),
    ...names.map((name) => `raised ${side} ${name}`),
  ]),
);

/** Plurals that mean something else: pieces, a colour, a hiss. */
const notSpelled = new Set(["pcs", "mbs", "bos", "sss"]);

const prefixed = prefixes.flatMap((prefix) =>
  plain.map(([word, ...names]): [string, ...string[]] => [
    prefix.id + word,
    ...prefix.spellings.flatMap((before) => spelledWith(before, [word, ...names])),
    ...(prefix.family === "post" ? [word + prefix.id, `${word} ${prefix.id}`] : []),
  ]),
);

/** Only letters are written without a space between: `fpdc`, but `fp double crochet`. */
function spelledWith(before: string, names: readonly string[]): string[] {
  const joined = before.endsWith(" ") ? names : names.slice(0, 1);
  return joined.map((name) => before + name);
}

/**
 * Every spelling met in print, in lower case, and its dialect-neutral word: `dc` stays `dc`, which
 * stitch it is the terms in force decide. Spellings of several words have single spaces, no stops
 * and plain hyphens and apostrophes.
 */
export const stitchSpellings: ReadonlyMap<string, string> = new Map([
  ...entriesOf([...prefixed, ...raised], singularAndPlural),
  ...entriesOf([...plain, ...named], allForms),
]);

function entriesOf(
  spelled: readonly (readonly [word: string, ...spellings: string[]])[],
  formsOf: (spelling: string) => readonly string[],
): (readonly [spelling: string, word: string])[] {
  return spelled.flatMap(([word, ...spellings]) =>
    [word, ...spellings].flatMap(formsOf).map((form) => [form, word] as const),
  );
}

/** `sc`, `scs`, `sc st`, `sc stitches`, `sc's`. */
function allForms(spelling: string): string[] {
  return [...namesOf(spelling).flatMap(singularAndPlural), `${spelling}'s`];
}

/** `inc st` is no name of a stitch: there the `st` belongs to what follows. */
function namesOf(spelling: string): string[] {
  const complete = /(st|stitch|inc|dec|crease)$/.test(spelling);
  return complete ? [spelling] : [spelling, `${spelling} st`, `${spelling} stitch`];
}

function singularAndPlural(spelling: string): string[] {
  const plural = spelling.endsWith("stitch") ? `${spelling}es` : `${spelling}s`;
  return notSpelled.has(plural) ? [spelling] : [spelling, plural];
}
