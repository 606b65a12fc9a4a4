import type { Span } from "../../text/span";
import { isAbbreviation } from "../../trade/abbreviations";
import { partOf, type Stretch, splitAt, splitOutsideBrackets } from "./stretch";

/** A name with what it stands for, as a list of a pattern has it. */
export interface Definition extends Span {
  readonly name: Stretch;
  /** What rows may call it, in lower case: `st(s)` is `st` and `sts`; `V-stitch (V-st)` is both. */
  readonly names: readonly string[];
  /** Null in a list of mere names. */
  readonly meaning: Stretch | null;
}

/** The entries of one line: parted by strokes, `ch chain / dc double crochet / st stitch`, where nothing else parts them. */
export function entriesOf(line: Stretch): Stretch[] {
  const parts = splitAt(line, betweenEntries);
  const strokes = parts.length === 1 ? splitAt(line, /\s\/\s/g) : [];
  return strokes.length > 2 ? strokes : parts;
}

/** What parts the entries of one line: `; • |`, or a stroke between two that have a sign, `ch: chain / sc: single crochet`. */
export const betweenEntries = /[;•·|\t]+|(?<=[=:–—]\s?[^=:–—/]{2,})\s\/\s(?=[\p{L}\d][^=:–—/]{0,24}[=:–—])/gu;

/** Signs that part a name from its meaning wherever they stand. */
const strong = /\s*[=:–—]\s*|\s+-+\s+/u;
/** `MR-magic ring`: a sign only where a whole word follows. */
const weak = /(?<=[\p{L}\d)])-(?=\p{L}{3})/u;
const longestName = 40;

/** The definitions that have a sign, `Shell: 5 dc in one st`; several of one line are parted by `;` or `•`. */
export function readSigned(line: Stretch): Definition[] {
  return entriesOf(line).flatMap((part) => {
    const pieces = runOn(splitOutsideBrackets(part, ","), line);
    return pieces.flatMap((piece) => signed(piece, strong) ?? []);
  });
}

/** Also those that have none, as lists of abbreviations do: `ch chain`, `ch, chain`, and mere names. */
export function readListed(line: Stretch): Definition[] {
  const parts = entriesOf(line);
  const [first] = parts;
  return parts.flatMap((part) => {
    // `Ldc: a dc two rows below; leave the st behind it`: the meaning goes on.
    if (first && part !== first && hasSign(first) && !hasSign(part)) return [];
    const commas = splitOutsideBrackets(part, ",");
    if (commas.length > 1 && commas.every(({ text }) => isAbbreviation(text))) return commas.map(bare);
    // `sc single crochet, ch chain`: each has its name before it.
    if (commas.length > 1 && !hasSign(part) && commas.every(leadsWithName))
      return commas.flatMap((piece) => spaced(piece) ?? []);
    const [name, meaning, ...more] = commas;
    // `dc2tog, (draw up a loop in next st) twice, yrh and draw through`: the meaning has commas too.
    const isOne = name && meaning && !hasSign(part) && isAbbreviation(name.text) && !more.some(isName);
    if (isOne) return [defined(part, name, partOf(line, meaning.start - line.start, part.end - line.start))];
    return runOn(commas, line).flatMap((piece) => listed(piece) ?? []);
  });
}

function leadsWithName({ text }: Stretch): boolean {
  const words = text.split(/\s+/);
  return [1, 2].some((n) => n < words.length && isAbbreviation(words.slice(0, n).join(" ")));
}

function isName({ text }: Stretch): boolean {
  return isAbbreviation(text);
}

function listed(piece: Stretch): Definition | null {
  return signed(piece, strong) ?? signed(piece, weak) ?? glossed(piece) ?? spaced(piece);
}

const inWords = /^(\p{L}(?:[\p{L} -]|\(e?s\))*?)\s*\(((?:[^()]|\(e?s\))+)\)\.?$/u;

/** `half double crochet (hdc)`: the meaning stands before its name. */
function glossed(piece: Stretch): Definition | null {
  const [, meaning = "", name = ""] = inWords.exec(piece.text) ?? [];
  if (!namesOf(name).some(isAbbreviation) || isAbbreviation(meaning)) return null;
  const at = piece.text.indexOf(`(${name})`, meaning.length) + 1;
  return defined(piece, partOf(piece, at, at + name.length), partOf(piece, 0, meaning.length));
}

function hasSign({ text }: Stretch): boolean {
  return strong.test(text) || weak.test(text);
}

/** A part without a sign of its own goes on with the meaning before it: `inc = increase, work 2 sc`. */
function runOn(parts: readonly Stretch[], line: Stretch): Stretch[] {
  const joined: Stretch[] = [];
  for (const part of parts) {
    const before = joined.at(-1);
    const at = part.text.search(strong);
    const isSigned = (at >= 0 ? at : part.text.search(weak)) >= 0 && nameLength(part) <= 20;
    const begins = isSigned || (before !== undefined && glossed(part) !== null && glossed(before) !== null);
    if (before && !begins)
      joined[joined.length - 1] = partOf(line, before.start - line.start, part.end - line.start);
    else joined.push(part);
  }
  return joined;
}

function nameLength({ text }: Stretch): number {
  const at = text.search(strong);
  return at >= 0 ? at : text.search(weak);
}

function signed(piece: Stretch, sign: RegExp): Definition | null {
  const match = sign.exec(piece.text);
  if (!match || match.index === 0 || match.index > longestName) return null;
  const meaning = partOf(piece, match.index + match[0].length);
  const name = partOf(piece, 0, match.index);
  if (meaning.text === "" || !/^[\p{L}\d]/u.test(name.text)) return null;
  return defined(piece, name, meaning);
}

/** `This pattern uses UK terms.` explains nothing. */
function isSentence(text: string): boolean {
  return /^(?:this|these|the|all|please|note|in|written|use[sd]?|you|only)\s/i.test(text);
}

/** `dc double crochet`: the name is the longest that the trade knows, else the first word. */
function spaced(piece: Stretch): Definition | null {
  const words = piece.text.split(/\s+/);
  if (!/^[\p{L}\d]/u.test(piece.text) || isSentence(piece.text)) return null;
  const known = [3, 2, 1].find((n) => n < words.length && isAbbreviation(words.slice(0, n).join(" ")));
  const n = known ?? ((words[0]?.length ?? 0) <= 6 ? 1 : 0);
  if (n === 0 || words.length <= n) return null;
  const length = new RegExp(`^(?:\\S+\\s+){${n}}`).exec(piece.text)?.[0].length ?? 0;
  return defined(piece, partOf(piece, 0, length), partOf(piece, length));
}

function bare(name: Stretch): Definition {
  return { start: name.start, end: name.end, name, names: namesOf(name.text), meaning: null };
}

function defined({ start, end }: Span, name: Stretch, meaning: Stretch): Definition {
  return { start, end, name, names: namesOf(name.text), meaning };
}

/** `st(s)`, `yo/yoh`, `Cluster (cl)`, `st, sts`. */
function namesOf(text: string): string[] {
  const plural = text.replace(/\((e?s)\)/gi, (_, ending: string) => `|${ending}`);
  const outer = plural.replace(/\(([^()]*)\)/g, ",$1");
  return outer
    .split(/[/,]|\bor\b/)
    .flatMap((name) => {
      const [stem = "", ending] = name.trim().split("|");
      return ending === undefined ? [stem] : [stem, stem + ending];
    })
    .map((name) => name.trim().toLowerCase())
    .filter((name) => name !== "");
}
