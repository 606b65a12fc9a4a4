import type { Terms } from "./stitch";
import { plainStitches } from "./stitch-table";

/**
 * One way to spell the plain stitches, in both terms, by the id of the stitch. Turning a spelling keeps
 * its way where that has a word for the stitch in the other terms.
 */
export interface SpellingWay {
  readonly US: Readonly<Record<string, string>>;
  readonly UK: Readonly<Record<string, string>>;
  /** Words rather than letters: what stands in where the way has no word. */
  readonly inWords: boolean;
}

const letters: SpellingWay = {
  US: Object.fromEntries(plainStitches.map(({ id }) => [id, id])),
  UK: Object.fromEntries(plainStitches.map(({ id, uk }) => [id, uk])),
  inWords: false,
};

const names: SpellingWay = {
  US: Object.fromEntries(plainStitches.map(({ id, usName }) => [id, usName])),
  UK: Object.fromEntries(plainStitches.map(({ id, ukName }) => [id, ukName])),
  inWords: true,
};

function inLetters(US: SpellingWay["US"], UK: SpellingWay["UK"]): SpellingWay {
  return { US, UK, inWords: false };
}

function inWords(US: SpellingWay["US"], UK: SpellingWay["UK"]): SpellingWay {
  return { US, UK, inWords: true };
}

/** The spellings of plain stitches that `stitch-spellings` knows, sorted by way. Sources: there. */
const ways: readonly SpellingWay[] = [
  letters,
  names,
  inWords(
    {
      hdc: "half double",
      tr: "treble",
      dtr: "double treble",
      trtr: "triple treble",
      quadtr: "quadruple treble",
    },
    {
      hdc: "half treble",
      dc: "treble",
      tr: "double treble",
      dtr: "triple treble",
      trtr: "quadruple treble",
      quadtr: "quintuple treble",
    },
  ),
  inWords(
    { tr: "triple crochet", dtr: "double triple crochet" },
    { hdc: "half triple crochet", dc: "triple crochet", tr: "double triple crochet" },
  ),
  inWords(
    { sc: "single-crochet", hdc: "half-double crochet", dc: "double-crochet" },
    { sc: "double-crochet", hdc: "half-treble crochet" },
  ),
  inWords({ hdc: "half-double", trtr: "treble treble" }, { hdc: "half-treble", dtr: "treble treble" }),
  inLetters({ hdc: "half dc" }, { hdc: "half tr" }),
  inLetters({ hdc: "h dc" }, { hdc: "h tr" }),
  inLetters({ sc: "s c", hdc: "h d c", dc: "d c" }, { sc: "d c" }),
  inLetters(
    { sc: "s.c.", hdc: "h.d.c.", dc: "d.c.", dtr: "d.tr." },
    { sc: "d.c.", hdc: "h.tr.", tr: "d.tr." },
  ),
  inLetters({ tr: "trc", dtr: "dtrc" }, { dc: "trc", tr: "dtrc" }),
  inLetters({ tr: "tr c" }, { dc: "tr c" }),
  inLetters({ dtr: "d tr" }, { tr: "d tr" }),
  inLetters(
    { dtr: "double tr", trtr: "triple tr", quadtr: "quadruple tr" },
    { tr: "double tr", dtr: "triple tr", trtr: "quadruple tr" },
  ),
  inLetters(
    { dtr: "dbl tr", trtr: "trip tr", quadtr: "quad tr" },
    { tr: "dbl tr", dtr: "trip tr", trtr: "quad tr" },
  ),
  // Charts print trtr and quadtr for these UK stitches as well; see `stitch-table`.
  inLetters({}, { dtr: "trtr", trtr: "quadtr" }),
];

const turnedBy: Readonly<Record<Terms, ReadonlyMap<string, string>>> = {
  US: turnedFrom("US", "UK"),
  UK: turnedFrom("UK", "US"),
};

function turnedFrom(from: Terms, to: Terms): ReadonlyMap<string, string> {
  const turned = new Map<string, string>();
  for (const way of ways)
    for (const [id, word] of Object.entries(way[from])) {
      const usual = way.inWords ? names : letters;
      if (!turned.has(word)) turned.set(word, way[to][id] ?? (usual[to][id] as string));
    }
  return turned;
}

/** Every spelling of a plain stitch that has a meaning in either terms, the longest first; lower case. */
export const plainSpellings: readonly string[] = [
  ...new Set([...turnedBy.US.keys(), ...turnedBy.UK.keys()]),
].sort((a, b) => b.length - a.length);

/** The same stitch in the other terms, for a spelling read in the given ones; undefined where those have none such. */
export function turnedSpelling(spelling: string, from: Terms): string | undefined {
  return turnedBy[from].get(spelling);
}

export function otherTerms(terms: Terms): Terms {
  return terms === "US" ? "UK" : "US";
}
