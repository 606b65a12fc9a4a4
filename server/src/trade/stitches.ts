import type { Stitch, Terms } from "./stitch";
import {
  extraPlainWords,
  namedStitches,
  type Part,
  type PlainStitch,
  plainStitches,
  prefixes,
} from "./stitch-table";

export type { Family, Stitch, Terms } from "./stitch";
export { stitchSpellings } from "./stitch-spellings";

/**
 * The stitch that a dialect-neutral word (a value of `stitchSpellings`, or a compound such as
 * `dc5tog` or `scdec`) means in the terms in force; undefined when the trade knows none. A word of
 * the other terms that has no meaning in these (`htr` under US, `sc` under UK) keeps its own.
 */
export function stitchOf(word: string, terms: Terms): Stitch | undefined {
  return namedStitches.get(word) ?? plainOf(word, terms) ?? compoundOf(word, terms);
}

/** The printed abbreviation of a stitch in given terms. */
export function abbreviationOf(stitch: Stitch, terms: Terms): string {
  return terms === "US" ? stitch.us : stitch.uk;
}

const plainById = new Map(plainStitches.map((stitch) => [stitch.id, plain(stitch)]));

const usWords = new Map(plainStitches.map((stitch) => [stitch.id, stitch.id]));

const ukWords = new Map([
  ...plainStitches.map((stitch) => [stitch.uk, stitch.id] as const),
  ...extraPlainWords.UK,
]);

function plain(stitch: PlainStitch): Stitch {
  const { id, uk, usName, ukName, turningChain } = stitch;
  return { id, us: id, uk, usName, ukName, family: "plain", base: id, turningChain, uses: 1, makes: 1 };
}

function plainOf(word: string, terms: Terms): Stitch | undefined {
  const id =
    terms === "US" ? (usWords.get(word) ?? ukWords.get(word)) : (ukWords.get(word) ?? usWords.get(word));
  return id === undefined ? undefined : plainById.get(id);
}

function compoundOf(word: string, terms: Terms): Stitch | undefined {
  return togetherOf(word, terms) ?? shapingOf(word, terms) ?? prefixedOf(word, terms) ?? raisedOf(word);
}

/** `dc5tog`: any stitch, any number of them from 2. */
function togetherOf(word: string, terms: Terms): Stitch | undefined {
  const [, stem = "", digits = ""] = /^(.+?)([1-9]\d{0,8})tog$/.exec(word) ?? [];
  const uses = Number(digits);
  const stitch = uses >= 2 ? (plainOf(stem, terms) ?? prefixedOf(stem, terms) ?? raisedOf(stem)) : undefined;
  if (stitch === undefined || stitch.uses === 0) return undefined;
  const name = ` ${uses} together`;
  return compound(stitch, { suffix: `${uses}tog`, suffixName: name, family: "together", uses, makes: 1 });
}

/** `scinc`, `hdcdec`: an increase or a decrease that names its stitch. */
function shapingOf(word: string, terms: Terms): Stitch | undefined {
  const [, stem = "", shaping = ""] = /^(.+)(inc|dec)$/.exec(word) ?? [];
  const stitch = plainOf(stem, terms);
  const part = namedStitches.get(shaping);
  if (stitch === undefined || part === undefined) return undefined;
  const { family, uses, makes } = part;
  return compound(stitch, { suffix: ` ${shaping}`, suffixName: ` ${part.usName}`, family, uses, makes });
}

/** `fpdc`, `fsc`, `edc`: one of the prefixes before a plain stitch. */
function prefixedOf(word: string, terms: Terms): Stitch | undefined {
  for (const part of prefixes) {
    const stitch = word.startsWith(part.id) ? plainOf(word.slice(part.id.length), terms) : undefined;
    if (stitch !== undefined) return compound(stitch, part);
  }
  return undefined;
}

/** `rtrf`, raised treble front: a UK name for a post stitch, so its base is read in UK terms always. */
function raisedOf(word: string): Stitch | undefined {
  const [, stem = "", side = ""] = /^r(.+)([fb])$/.exec(word) ?? [];
  return ukWords.has(stem) ? prefixedOf(`${side}p${stem}`, "UK") : undefined;
}

function compound(stitch: Stitch, part: Part): Stitch {
  const { id = "", abbreviation = "", name = "", suffix = "", suffixName = "" } = part;
  return {
    id: id + stitch.id + suffix.trim(),
    us: abbreviation + stitch.us + suffix,
    uk: abbreviation + stitch.uk + suffix,
    usName: name + stitch.usName + suffixName,
    ukName: name + stitch.ukName + suffixName,
    family: part.family,
    base: stitch.base,
    turningChain: stitch.turningChain,
    uses: part.uses,
    makes: part.makes,
  };
}
