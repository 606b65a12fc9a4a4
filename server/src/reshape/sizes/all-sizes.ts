import { say } from "../../text/say";
import { type Span, shift, type TextEdit, withEdits } from "../../text/span";
import type { Refusal } from "../row-trial";
import { alikeEnds, partsOf } from "../text-difference";
import { type ListForm, listFormOf } from "./list-form";
import type { Cut, OneSize } from "./one-size";

/*
 * What was changed in each size by itself, put into the one pattern for all of them, line by line: a number that is
 * another in each size becomes a list, and words that are the same in all of them stay words.
 */

/** A size told alone, with what is changed in it. */
export interface ChangedSize {
  readonly one: OneSize;
  /** In offsets of the text of that size. */
  readonly edits: readonly TextEdit[];
}

/** The changes in offsets of the whole pattern; or which line the sizes would tell in different words. */
export function inAllSizes(text: string, sizes: readonly ChangedSize[]): TextEdit[] | Refusal {
  const form = listFormOf(
    text,
    sizes.map(({ one }) => one),
  );
  const each = sizes.map(linesOf);
  const edits: TextEdit[] = [];
  for (const [i, span] of stretches(text).entries()) {
    const own = each.flatMap((lines) => lines[i] ?? []).filter((one) => one.isWorked);
    if (own.every(({ now, before }) => now === before)) continue;
    const found = lineInAll({ span, text: text.slice(span.start, span.end), own, all: sizes.length, form });
    if ("why" in found) return found;
    edits.push(...found);
  }
  return edits;
}

/** A line of the whole pattern, with what becomes of it in the sizes that work it. */
interface LineInAll {
  readonly span: Span;
  readonly text: string;
  readonly own: readonly LineOfSize[];
  /** How many sizes there are. */
  readonly all: number;
  readonly form: ListForm;
}

/** A line as one size has it, before and after. */
interface LineOfSize {
  readonly size: number;
  readonly isWorked: boolean;
  readonly before: string;
  readonly now: string;
  /** Where an offset of `before` stands in the whole pattern. */
  inPattern(offset: number): number;
  /** Where a stretch of `before` stands there, with the whole of the lists it has a part of. */
  spanInPattern(span: Span): Span;
}

function lineInAll(line: LineInAll): TextEdit[] | Refusal {
  const parted = line.own.map((one) => partedOf(one));
  const [head, tail] = [leastOf(parted, ({ head }) => head), leastOf(parted, ({ tail }) => tail)];
  const parts = parted.map((one) => middleOf(one, head, tail));
  const edits = numbersOf(
    line,
    parts.flatMap(({ numbers }) => numbers),
  );
  const [first, ...others] = parts;
  if (!first || parts.every(({ before, now }) => before === "" && now === "")) return edits;
  const isAlike = others.every(
    ({ now, span }) =>
      wordsOf(now) === wordsOf(first.now) && span.start === first.span.start && span.end === first.span.end,
  );
  // Under `Size L only:` a line belongs to those that work it; with a dash in it, to the others as well.
  if (!isAlike || (line.own.length < line.all && hasDash(line.text)))
    return { why: differentWords(nameOf(line.text)) };
  const told = inOne(
    line,
    parts.map(({ now }) => now),
  );
  return [...edits, { span: first.span, newText: told }].sort((a, b) => a.span.start - b.span.start);
}

/** Why sizes do not go into one line; the line stands last. */
export function differentWords(line: string): string {
  return say`the sizes would need different words in ${line}`;
}

/** A line of a size in its parts, with how many at either end are others in their numbers at most. */
interface Parted {
  readonly one: LineOfSize;
  readonly old: readonly string[];
  readonly now: readonly string[];
  readonly head: number;
  readonly tail: number;
}

function partedOf(one: LineOfSize): Parted {
  const [old, now] = [partsOf(one.before), partsOf(one.now)];
  return { one, old, now, ...alikeEnds(old, now) };
}

function leastOf(all: readonly Parted[], of: (one: Parted) => number): number {
  return Math.min(...all.map(of));
}

/** A number at its place in the whole pattern. */
interface NumberAt {
  readonly at: number;
  readonly before: string;
  readonly now: string;
}

/** What is told anew of a line, and the numbers in front of it and behind it. */
interface Middle {
  readonly before: string;
  readonly now: string;
  /** In the whole pattern. */
  readonly span: Span;
  readonly numbers: readonly NumberAt[];
}

function middleOf({ one, old, now }: Parted, head: number, tail: number): Middle {
  const numbers: NumberAt[] = [];
  const [lastOld, lastNow] = [old.length - tail, now.length - tail];
  const span = { start: 0, end: 0 };
  let offset = 0;
  for (const [i, part] of old.entries()) {
    if (i === head) span.start = offset;
    if (i === lastOld) span.end = offset;
    const after = i < head ? now[i] : i >= lastOld ? now[lastNow + i - lastOld] : null;
    if (after != null && /^\d/.test(part))
      numbers.push({ at: one.inPattern(offset), before: part, now: after });
    offset += part.length;
  }
  if (head >= old.length) span.start = offset;
  if (lastOld >= old.length) span.end = offset;
  return {
    before: old.slice(head, lastOld).join(""),
    now: now.slice(head, lastNow).join(""),
    span: one.spanInPattern(span),
    numbers,
  };
}

/** Each number at its own place, which is one for all sizes or an entry of a list. */
function numbersOf(line: LineInAll, numbers: readonly NumberAt[]): TextEdit[] {
  const places = new Map<number, NumberAt[]>();
  for (const one of numbers) places.set(one.at, [...(places.get(one.at) ?? []), one]);
  return [...places].flatMap(([start, all]) => {
    const before = all[0]?.before ?? "";
    const newText = listed(
      line,
      all.map(({ now }) => now),
    );
    return newText === before ? [] : [{ span: { start, end: start + before.length }, newText }];
  });
}

/** The words that all sizes have, each number one for all or a list. */
function inOne(line: LineInAll, texts: readonly string[]): string {
  const all = texts.map(partsOf);
  return (all[0] ?? [])
    .map((part, i) =>
      /^\d/.test(part)
        ? listed(
            line,
            all.map((parts) => parts[i] ?? ""),
          )
        : part,
    )
    .join("");
}

/** One number where all are the same, else a list of them. */
function listed({ text, own, all, form }: LineInAll, numbers: readonly string[]): string {
  if (new Set(numbers).size === 1) return numbers[0] ?? "";
  const entries =
    own.length < all && hasDash(text)
      ? [...Array(all).keys()].map((size) => numbers[own.findIndex((one) => one.size === size)] ?? "-")
      : numbers;
  return form(entries);
}

/** A row that some sizes do not work has a dash for those, or stands under a line that names the others. */
function hasDash(text: string): boolean {
  return /[-–—]\s?[([,]|,\s?[-–—]\s?[,)\]]/.test(text);
}

function wordsOf(text: string): string {
  return text.replace(/\d+/g, "0");
}

function nameOf(text: string): string {
  const words = text.trim();
  const head = /^[^:]{1,20}(?=:)/.exec(words)?.[0];
  return head ?? `"${words.length > 40 ? `${words.slice(0, 37)}…` : words}"`;
}

// Lines

/** Each line with the end of the one before it. */
function stretches(text: string): Span[] {
  const starts = [0, ...[...text.matchAll(/\r?\n/g)].map(({ index }) => index)];
  return starts.map((start, i) => ({ start, end: starts[i + 1] ?? text.length }));
}

function linesOf({ one, edits }: ChangedSize, size: number): LineOfSize[] {
  return stretches(one.text).map((span, i) => {
    const before = one.text.slice(span.start, span.end);
    const own = edits
      .filter((edit) => isIn(edit, span, i))
      .map((edit) => ({ ...edit, span: shift(edit.span, -span.start) }));
    return {
      size,
      isWorked: before.trim() !== "" || own.length > 0,
      before,
      now: withEdits(before, own),
      inPattern: (offset) => placeOf(span.start + offset, one.cuts),
      spanInPattern: (own) => spanOf(shift(own, span.start), one.cuts),
    };
  });
}

/** What is put in at the end of a line belongs to it. */
function isIn({ span: { start, end } }: TextEdit, line: Span, index: number): boolean {
  const isBehind = start === end ? start > line.start || (index === 0 && start === 0) : start >= line.start;
  return isBehind && end <= line.end;
}

/** An offset of the pattern for one size in the whole pattern; in an entry of a list, within that entry. */
function placeOf(offset: number, cuts: readonly Cut[]): number {
  const { cut, into, moved } = cutAt(offset, cuts);
  return cut?.cell ? cut.cell.start + into : offset + moved;
}

function spanOf({ start, end }: Span, cuts: readonly Cut[]): Span {
  const [first, last] = [cutAt(start, cuts), cutAt(end, cuts)];
  const isWithin = last.into > 0 && last.cut;
  return {
    start: first.cut ? first.cut.span.start : start + first.moved,
    end: isWithin ? isWithin.span.end : (last.cut?.span.start ?? end + last.moved),
  };
}

/** The list that has an entry at an offset of the pattern for one size, and how far into it; what was cut before. */
function cutAt(offset: number, cuts: readonly Cut[]): { cut: Cut | null; into: number; moved: number } {
  let moved = 0;
  for (const cut of cuts) {
    const start = cut.span.start - moved;
    if (offset < start) break;
    if (cut.cell && offset < start + cut.newText.length) return { cut, into: offset - start, moved };
    moved += cut.span.end - cut.span.start - cut.newText.length;
  }
  return { cut: null, into: 0, moved };
}
