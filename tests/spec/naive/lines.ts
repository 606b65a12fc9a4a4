import { forSize, type Sizes } from "./sizes";
import { tidy } from "./spelling";

/** A line of the pattern that is worked: a row, a chain or ring to start on, or a copy of other rows. */
export interface Line {
  readonly kind: "row" | "start" | "copy";
  readonly piece: string;
  readonly head: string;
  /** Round or flat by its head alone. */
  readonly inRounds: boolean;
  /** Row numbers the line stands for; empty for rows without one. */
  readonly numbers: readonly number[];
  /** Whether the end of the range is open. */
  readonly open: boolean;
  /** Behind the head, in one spelling, for one size; null where that size does not work the line. */
  readonly body: string | null;
}

/** The lines that are worked, and all the others as one text of remarks. */
export interface Layout {
  readonly lines: readonly Line[];
  readonly remarks: string;
}

interface Head {
  readonly head: string;
  readonly from: number;
  readonly to: number;
  readonly open: boolean;
  readonly length: number;
}

const label = "(?: \\([^)]*\\)|, col \\w)?";
const worded = new RegExp(
  `^((?:rows?|rnds?|rounds?|rw|rd|r)\\.? ?(\\d+)(?: ?(?:-|–|to|&|and) ?r?(\\d+))?(?: \\([\\d, ]+\\))?(\\+)?)${label} ?[:.–—|-]? *`,
  "i",
);
const ordinal =
  /^(?!\S+ (?:inc|dec) )((\d+)(?:st|nd|rd|th|d)(?: (?:to|and|&) (\d+)(?:st|nd|rd|th|d))?(?: (?:row|rnd|round)s?)?)(?: incl)?(?: \(\d+ \w+\))?[:.—-] */i;
const translated = /^((\d+)\.?(?:-(\d+))? (?:rnds?|rows?|rounds?)): */i;
const unnumbered =
  /^((?:foundation|next|last|\d+(?:st|nd|rd|th) (?:inc|dec)) (?:row|rnd|round)|(?:inc|dec) (?:row|rnd|round) \d+): */i;
const bare = /^(\d+)[.)] +(?=(?:\d|\(|sc|dc|hdc|inc|dec|ch \d+,))/i;
const copy =
  /^(?:\[?rep(?:eat)? (?:body )?(?:last|rows?|rnds?|\d+(?:st|nd|rd|th) (?:to|and))|(?:dec|inc) \d+ sts? (?:at )?(?:each|neck)|work even)/i;
const titled = /^([A-Z]{3}[A-Z ]*)(?:\.\.\.|: )(?=Starting |1st |With |Rows |Ch )/;
const glued =
  /(?<!to|and) (?=(?:(?:Rnd|Row|Round) \d+|\d+(?:st|nd|rd|th)(?: (?:to|and) \d+th)? rnds?(?: incl)?):)/;
const start =
  /^(?:foundation: )?(?:(?:with|using) [^,]+(?:, | (?=make \d+ ch))|(?:with|starting|begin|leav(?:e|ing)) [^,.]+(?:, |\. | (?=ch ))|to begin: )?(?:make )?(?:a )?(?:foundation )?(?:ch (?:of )?\d+|\d+ ch|magic ring|f(?:sc|hdc|dc) \d+)/;
const colourOrSize = /^(?:with|using|change|join|sizes?|all sizes|magic|make|ch)\b/i;

/** `Heel Row 1:`, `Row 7 of heel:`: the part is no part of the head. */
const partBefore =
  /^(?!Next|Last|First|Foundation|Inc |Dec )[A-Z][a-z]+,? (?=(?:Row|Rnd|Round)s? \d+(?:[-–]\d+)?:)/;
const partBehind = /^((?:Row|Rnd|Round)s? \d+) of (?:the )?\w+(?=:)/;

/** The lines of a pattern as one size works them. */
export function layoutOf(text: string, size: number, sizes: Sizes): Layout {
  const raw = text
    .split("\n")
    .flatMap((line) => line.trim().replace(titled, "$1\n").split("\n"))
    .flatMap((line) => line.split(glued))
    .map((line) => line.replace(/^- ([^-]+) \([a-z]+\) -$/, "$1"))
    .filter((line) => !/^(?:Row|Rnd) \d+ forms/.test(line))
    .map((line) => line.replace(/^(?:- )?\*\*([^*]+)\*\*/, "$1"))
    .map((line) => line.replace(partBefore, "").replace(partBehind, "$1"));
  const lines: Line[] = [];
  const remarks: string[] = [];
  const here = { piece: "", notes: false, worked: true };
  raw.forEach((line, index) => {
    if (line.trim() === "") here.notes = false;
    if (/^notes?:?$/i.test(line)) here.notes = true;
    here.worked = workedBy(line, size, sizes, here.worked);
    const found = here.notes
      ? null
      : lineOf(line, forSize(ownRange(line, size), size, sizes.names.length), here.piece, here.worked);
    if (found) lines.push(found);
    else if (isHeading(line, raw.slice(index + 1)))
      here.piece = line.replace(/\(make.*| - .*|:$/i, "").trim();
    else remarks.push(line);
  });
  return { lines, remarks: remarks.join("\n") };
}

/** `Rows 3-5 (3-6)`: the second size has a range of its own. */
function ownRange(line: string, size: number): string {
  return line.replace(
    /^(rows?|rnds?) (\d+-\d+) \((\d+-\d+)\)/i,
    (_, word, first, second) => `${word} ${size === 0 ? first : second}`,
  );
}

function workedBy(line: string, size: number, sizes: Sizes, before: boolean): boolean {
  if (/^all sizes:/i.test(line)) return true;
  const only = /^sizes? (.+) only:/i.exec(line)?.[1];
  return only ? only.split(/[\s,]+/).includes(sizes.names[size] ?? "") : before;
}

function lineOf(raw: string, line: string, piece: string, worked: boolean): Line | null {
  const shown = headOf(raw);
  const head = headOf(line);
  if (shown && head) {
    const numbers = Array.from({ length: head.to - head.from + 1 }, (_, index) => head.from + index);
    const body = worked ? tidy(line.slice(head.length)) : null;
    const inRounds = /^(?:r\d|rnd|round|rd|\d+\w* r(?:nd|ound)|next rnd|last rnd|.*(?:inc|dec) rnd)/i.test(
      head.head,
    );
    return { kind: "row", piece, head: shown.head, inRounds, numbers, open: head.open, body };
  }
  const body = tidy(line);
  const rest = {
    piece,
    head: raw,
    inRounds: false,
    numbers: [],
    open: /until/.test(line),
    body: worked ? body : null,
  };
  if (copy.test(line)) return { kind: "copy", ...rest };
  return start.test(body) && !/^\d+ ch \w+ (?:at|of)|never|is not a/.test(body)
    ? { kind: "start", ...rest }
    : null;
}

function headOf(line: string): Head | null {
  const found = worded.exec(line) ?? ordinal.exec(line) ?? translated.exec(line) ?? bare.exec(line);
  if (found?.[1]) {
    const from = Number(found[2] ?? found[1]);
    return {
      head: found[1],
      from,
      to: Number(found[3] ?? from),
      open: found[4] === "+",
      length: found[0].length,
    };
  }
  const named = unnumbered.exec(line);
  return named?.[1] ? { head: named[1], from: 0, to: 0, open: false, length: named[0].length } : null;
}

/** A short line without a stop, with a row or a start below it. */
function isHeading(line: string, below: readonly string[]): boolean {
  const next = below.find((other) => other !== "" && !colourOrSize.test(other)) ?? "";
  const starts = below.find((other) => other !== "") ?? "";
  const shape =
    /^[\w '(),]+:?$/.test(line.replace(/\(make[^)]*\)| - [a-z ,]+$/, "")) &&
    line.split(" ").length <= 6 &&
    !colourOrSize.test(line);
  return shape && (headOf(next) !== null || start.test(tidy(starts)));
}
