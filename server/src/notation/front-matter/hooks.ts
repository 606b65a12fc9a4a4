import { otherWord } from "./other-things";
import type { FrontLine } from "./sections";
import { partOf, type Stretch, splitAt, splitOutsideBrackets } from "./stretch";

/** A letter or number beside the millimetres of a hook, or in place of them. */
export interface HookLabel extends Stretch {
  /** Whose label it is said to be; null where nothing is said. */
  readonly system: "us" | "uk" | "steel" | null;
  /** `H-8` of `US H-8`. */
  readonly size: string;
}

/** One hook as a pattern names it: `3.5 mm (E/4)`. */
export interface HookSize extends Stretch {
  readonly mm: number | null;
  /** The figures of the millimetres. */
  readonly figures: Stretch | null;
  readonly labels: readonly HookLabel[];
}

const millimetres = /(?<![\d.,/])(\d{1,2}(?:[.,]\d{1,3})?)\s?-?\s?mm\b/giu;
const letters = String.raw`[A-Z](?:\s?[/-]\s?[A-Z](?![a-z]))?(?:\s?[/-]?\s?\d{1,2}(?:[.,]5|[ -]1\/2|\s?½)?)?(?![\w½])`;
const digits = String.raw`\d{1,2}(?:[.,]5|[ -]1\/2|\s?½)?(?![\w½]|\s?mm)`;
const says = String.raw`(?:(?:[Uu]\.?[Ss]\.?[Aa]?\.?|U\.?K\.?|[Oo]ld|[Ss]izes?|[Ss]teel|[Nn]o\.?|[Nn]umber|#)\s*){0,4}`;
const whole = new RegExp(`^(${says})(${letters}|${digits})(?:\\s*(?:crochet\\s+)?hooks?)?$`, "u");
const wholeLetter = new RegExp(`^${says}${letters}(?:\\s*(?:crochet\\s+)?hooks?)?$`, "u");
/** `Yarn B, 4 mm hook`, `with A, 5 mm hook`: the letter is a yarn's. */
const ofYarn = String.raw`(?<!\b(?:[Yy]arn|[Cc]olou?r)\s)(?!(?<=\b(?:[Ww]ith|[Uu]sing|[Ii]n)\s)[A-H]\s?,)`;
const before = new RegExp(
  `(?:^|[\\s([,])${ofYarn}(${says}(?:${letters}|${digits}))\\s?(?:[([/,=–-]{1,2}\\s?|\\s)$`,
  "u",
);
const said = new RegExp(`\\b(${says})(${letters})|\\b((?:[Ss]ize|[Nn]o\\.?|US|UK|#)\\s*)(${digits})`, "u");

/** The hooks of the lines that speak of hooks. */
export function readHooks(lines: readonly FrontLine[]): HookSize[] {
  return lines.flatMap(({ topic, content }) => hooksIn(content, topic === "hook"));
}

/** `2nd ch from hook`, `loops on hook` speak of no hook to take up. */
function speaksOfHook(text: string): boolean {
  return (
    /hook/i.test(text) && /hook/i.test(text.replace(/\b(?:from|on|onto|off)\s+(?:the\s+|your\s+)?hook/gi, ""))
  );
}

/** `Hooks: 6 mm for the cushion, 5 mm for the edging`. */
const led = /^\W*(?:crochet\s+)?hooks?\s*[:–—]/iu;

/** The hooks that a line names; where it is `about` hooks it need not say the word. */
export function hooksIn(line: Stretch, about: boolean): HookSize[] {
  if (!about && led.test(line.text)) return hooksIn(line, true);
  if (!(about || speaksOfHook(line.text)) || line.text.length > 2_000) return [];
  const items = splitAt(line, /[;•·|]+/gu).flatMap((part) => joined(line, splitOutsideBrackets(part, ",")));
  const ofHook = ({ text }: Stretch) => speaksOfHook(text) || (about && !otherWord.test(text));
  return items.filter(ofHook).flatMap((item) => hooksOfItem(item, about));
}

/** `US I/9, 5.5 mm`, `Crochet hook, 4.5 mm (US 7)`: the comma parts no two things. */
function joined(line: Stretch, items: readonly Stretch[]): Stretch[] {
  const done: Stretch[] = [];
  for (const item of items) {
    const last = done.at(-1);
    const isOne = last !== undefined && areOne(last, item);
    if (isOne) done[done.length - 1] = partOf(line, last.start - line.start, item.end - line.start);
    else done.push(item);
  }
  return done;
}

const hookAlone = /^(?:\p{L}+\s+){0,2}?hooks?$/iu;

/** `Crochet hook, size G/6 (4.0 mm)` */
const sizeWord = /^sizes?\s+(?:US\s+)?(?:[A-Z]\b|\d)/;

function areOne({ text: before }: Stretch, { text: behind }: Stretch): boolean {
  const isSize =
    /^\d{1,2}(?:[.,]\d{1,3})?\s?mm\b/.test(behind) && !otherWord.test(behind.replace(/hooks?/gi, ""));
  if (sizeWord.test(behind) && hookAlone.test(before.trim())) return true;
  if (isSize) return hookAlone.test(before.trim()) || whole.test(before.trim());
  return /\d\s?mm(?:\s+hook)?$/.test(before.trim()) && wholeLetter.test(behind.trim());
}

function hooksOfItem(item: Stretch, about: boolean): HookSize[] {
  const found = [...item.text.matchAll(millimetres)];
  if (found.length === 0) return bareFigures(item, about) ?? labelAlone(item);
  return found.map((match, i) => {
    const end = match.index + match[0].length;
    const next = found[i + 1]?.index ?? item.text.length;
    const last = (found[i - 1]?.index ?? -1) + (found[i - 1]?.[0].length ?? 1);
    const figures = partOf(item, match.index, match.index + (match[1] as string).length);
    const around = [...labelBefore(item, last, match.index), ...labelsBehind(item, end, next)];
    const labels = around.map((label) => (isSteel(item) ? { ...label, system: "steel" as const } : label));
    const from = Math.min(figures.start, ...labels.map(({ start }) => start));
    const to = Math.max(item.start + end, ...labels.map(({ end }) => end)) - item.start;
    const closed = /[)\]]/.test(item.text[to] ?? "") ? to + 1 : to;
    return { ...partOf(item, from - item.start, closed), mm: numberOf(figures), figures, labels };
  });
}

function numberOf({ text }: Stretch): number {
  return Number(text.replace(",", "."));
}

function isSteel({ text }: Stretch): boolean {
  return /\bsteel\b/i.test(text);
}

/** `H/8 - 5.00 mm`, `US H-8 (5.0 mm)`. */
function labelBefore(item: Stretch, from: number, to: number): HookLabel[] {
  const start = Math.max(from, to - 30);
  const match = before.exec(item.text.slice(start, to));
  if (!match) return [];
  const at = start + match.index + match[0].indexOf(match[1] as string);
  return labelOf(partOf(item, at, at + (match[1] as string).length));
}

/** `3.5 mm (E/4)`, `4 mm [US G/6, UK 8]`, `5mm/H-8`. */
function labelsBehind(item: Stretch, from: number, to: number): HookLabel[] {
  const [all, bracket] = /^\s?(?:hook\s?)?[([]([^()[\]]{1,40})[)\]]/i.exec(item.text.slice(from, to)) ?? [];
  if (all !== undefined && bracket !== undefined) {
    const at = from + all.length - 1 - bracket.length;
    return splitAt(partOf(item, at, at + bracket.length), /[,;]|\bor\b/g).flatMap(labelOf);
  }
  const [slash] = /^\s?[/–=]\s?|^,\s|^\s?-\s|^\s(?=US|UK|size)/u.exec(item.text.slice(from, to)) ?? [];
  return slash === undefined ? [] : labelOf(partOf(item, from + slash.length, to));
}

function labelOf(part: Stretch): HookLabel[] {
  const [, prefix = "", size] = whole.exec(part.text) ?? [];
  return size === undefined ? [] : [{ ...part, system: systemOf(prefix), size }];
}

function systemOf(prefix: string): HookLabel["system"] {
  if (/steel/i.test(prefix)) return "steel";
  if (/u\.?k/i.test(prefix)) return "uk";
  return /u\.?s/i.test(prefix) ? "us" : null;
}

/** `hook 2.5`: the fraction tells that millimetres are meant. */
function bareFigures(item: Stretch, about: boolean): HookSize[] | null {
  const form = about ? /^(?:\w+\s)?(\d{1,2}[.,]\d{1,2})$/ : /\bhook\s+(?:of\s+)?(\d{1,2}[.,]\d{1,2})\b/i;
  const match = form.exec(item.text);
  if (!match) return null;
  const to = match.index + match[0].length;
  const figures = partOf(item, to - (match[1] as string).length, to);
  return [{ ...figures, mm: numberOf(figures), figures, labels: [] }];
}

/** `size G hook`, `Steel hook No. 10`: the label nearest to the word, behind it or before. */
function labelAlone(item: Stretch): HookSize[] {
  const behind = Math.max(0, item.text.search(/hook/i));
  const found = labelIn(item, behind, item.text.length) ?? labelIn(item, 0, behind);
  return found ? [{ ...found, mm: null, figures: null, labels: [found] }] : [];
}

function labelIn(item: Stretch, from: number, to: number): HookLabel | null {
  const match = said.exec(item.text.slice(from, to));
  if (!match) return null;
  const [prefix = "", size = ""] = [match[1] ?? match[3], match[2] ?? match[4]];
  const at = from + match.index;
  const system = isSteel(item) ? "steel" : systemOf(prefix);
  return { ...partOf(item, at, at + match[0].length), system, size };
}
