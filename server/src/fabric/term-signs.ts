import type { LineContent } from "../notation/document";
import { termsDeclaredIn } from "../notation/front-matter/terms";
import { glossaryOf, languageDeclaredIn } from "../notation/other-languages";
import { trade } from "../notation/vocabulary";
import type { Language } from "../trade/languages/languages";
import type { Terms } from "../trade/stitches";

/** What one line shows of the terms it is written in. */
export interface Signs {
  /** Names that only one of the two has. */
  readonly uk: boolean;
  readonly us: boolean;
  /** Words of pattern writing that only UK patterns have. */
  readonly ukWords: boolean;
  /** Opening chains as high as the stitch after them would be in UK terms, less those as in US terms. */
  readonly heights: number;
}

export const noSigns: Signs = { uk: false, us: false, ukWords: false, heights: 0 };

const kept = new Map<string, Signs>();

/** The signs of a line; equal ones are one object. */
export function signsOf(line: string): Signs {
  const bare = line.includes("(") ? line.replace(/\((?:uk|us)[^)]*\)/gi, "") : line;
  const signs: Signs = {
    uk: /\b\d*(?:htr|ttr)(?:\d?tog)?\b|\bhalf[\s-]treble/i.test(bare),
    us: /\b\d*(?:hdc|sc)(?:\d?tog)?\b|\b(?:half[\s-]double|single)\s+crochet|\bs\.? ?c\b/i.test(bare),
    ukWords: /\b(?:yrh|tension\s*:)/i.test(bare),
    heights: opens(low, bare) + opens(highTreble, bare) - opens(highDouble, bare) - sureFourth(bare),
  };
  const key = Object.values(signs).join();
  const known = kept.get(key);
  if (!known) kept.set(key, signs);
  return known ?? signs;
}

function opening(chains: number, stitch: string): RegExp {
  return new RegExp(
    `(?:^|[:.—–-]\\s*)(?:\\([rw]s\\)\\s*)?(?:ch ?${chains}|${chains} ?ch)\\b[^.\\n(]{0,24}?\\b\\d*${stitch}\\b`,
    "gim",
  );
}

const low = opening(1, "dc");
const highTreble = opening(3, "tr");
const highDouble = opening(3, "dc");

function opens(form: RegExp, line: string): number {
  return line.match(form)?.length ?? 0;
}

function sureFourth(line: string): number {
  return Number(/\bdc in(?:to)? 4th ch/i.test(line)) - Number(/\bdc in(?:to)? 2nd ch/i.test(line));
}

/** The signs of all lines taken together. */
export class TermSigns {
  private uk = false;
  private us = false;
  private ukWords = false;
  private heights = 0;

  add(signs: Signs): void {
    this.uk ||= signs.uk;
    this.us ||= signs.us;
    this.ukWords ||= signs.ukWords;
    this.heights += signs.heights;
  }

  /** Sure names, else sure words, else the heights of opening chains, else US. */
  terms(): Terms {
    if (this.uk) return "UK";
    if (this.us) return "US";
    return this.ukWords || this.heights > 0 ? "UK" : "US";
  }
}

/** The language that a line declares, else that of the first row that is in another than English, its head and its words. */
export function languageOf(lines: readonly LineContent[]): Language | null {
  for (const { kind, text } of lines) {
    const declared = kind === "row" ? null : languageDeclaredIn(text);
    if (declared) return declared;
  }
  return lines.find(isInOtherLanguage)?.head?.language ?? null;
}

/** `Fila 2: sc around` is English, whatever Fila is. */
function isInOtherLanguage({ head, text }: LineContent): boolean {
  if (!head?.language) return false;
  const glossary = glossaryOf(head.language);
  const words =
    text
      .slice(head.length)
      .toLowerCase()
      .match(/\p{L}{2,}/gu) ?? [];
  return words.some((word) => glossary.has(word) && !trade.has(word));
}

/** The terms that a line of the header declares. */
export function declaredTerms(header: readonly LineContent[]): Terms | null {
  for (const { text } of header) {
    const terms = termsDeclaredIn(text);
    if (terms) return terms;
  }
  return null;
}
