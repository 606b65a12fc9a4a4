import { forSize, type Instruction } from "../../fabric/instructions";
import type { Outcome } from "../../fabric/outcome";
import type { Word } from "../../notation/words";
import type { Span } from "../../text/span";
import { withEdits } from "../../text/span";
import type { Mend, MendEdit } from "./mend";
import type { Trial } from "./trial";

/** One number of the row, as it may be changed. */
interface Place {
  readonly n: number;
  readonly span: Span;
  readonly word: Word;
}

interface Proved {
  readonly mend: Mend;
  readonly apart: number;
}

const numbersAtMost = 12;

/** Another number of times or of stitches: `x3` for `x6`, `sc in next 20` for `sc in next 21`. */
export function nearbyNumber(trial: Trial): Mend[] {
  const proved = placesIn(trial)
    .slice(0, numbersAtMost)
    .flatMap((place) => mendsAt(trial, place));
  return proved.sort((a, b) => a.apart - b.apart).map(({ mend }) => mend);
}

function placesIn(trial: Trial): Place[] {
  const count = trial.row.line.plan?.statedSpan;
  return trial.words
    .filter((word) => word.cls === "n" || word.cls === "W")
    .filter((word) => !count || word.end <= count.start || word.start >= count.end)
    .flatMap((word) => placesOf(word, trial));
}

/** A number a size is changed only for the size that is wrong. */
function placesOf(word: Word, { text, size }: Trial): Place[] {
  const sized = word.number ?? [Number(word.value)];
  const n = forSize(sized, size);
  if (n === null || !Number.isInteger(n)) return [];
  if (sized.length === 1) return [{ n, word, span: word }];
  const digits = [...text.slice(word.start, word.end).matchAll(/\d+/g)];
  const own = digits.length === sized.length ? digits[size] : undefined;
  if (!own) return [];
  const start = word.start + own.index;
  return [{ n, word, span: { start, end: start + own[0].length } }];
}

function mendsAt(trial: Trial, place: Place): Proved[] {
  return likely(trial, place)
    .map((n) => ({ n, edit: editFor(trial.text, place, n) }))
    .filter(({ edit }) => trial.isRight(withEdits(trial.text, [edit])))
    .map(({ n, edit }) => ({ apart: Math.abs(n - place.n), mend: mendFor(trial.text, place, edit) }));
}

/** One more of it tells what each one does: from that the number that closes the gap. */
function likely(trial: Trial, place: Place): number[] {
  const next = trial.rework(withEdits(trial.text, [editFor(trial.text, place, place.n + 1)]));
  const now = trial.asWritten;
  if (!next) return [place.n - 1, place.n + 1].filter((n) => n >= 1);
  if (isAlike(now, next)) return [];
  const closings = [
    closing(place.n, missing(now, trial), missing(next, trial)),
    closing(place.n, miscounted(now, trial), miscounted(next, trial)),
  ].filter((n) => Number.isFinite(n));
  const neighbours = isEven(trial) ? [] : [place.n - 1, place.n + 1];
  const agreed = new Set(closings).size === 1 ? closings : [];
  return [...new Set([...agreed, ...neighbours])].filter((n) => Number.isInteger(n) && isNearby(n, place.n));
}

function isAlike(before: Outcome, after: Outcome): boolean {
  const all = ({ needs, has, counted }: Outcome): string =>
    JSON.stringify([needs, has, counted.map((sum) => sum && [...sum.kinds])]);
  return all(before) === all(after);
}

/** Each one more does the same: nothing goes on to the end, and one number is stated. */
function isEven({ row }: Trial): boolean {
  const kinds = row.line.plan?.stated?.length ?? 0;
  return kinds <= 1 && !goesToEnd(row.found?.plan.instructions ?? []);
}

function goesToEnd(list: readonly Instruction[]): boolean {
  return list.some(
    (one) =>
      one.op === "repeat" && (one.times.how === "to-end" || one.times.how === "lone" || goesToEnd(one.body)),
  );
}

/** Between half and double, or two apart: what a slip could have made of it. */
function isNearby(n: number, from: number): boolean {
  return n >= 1 && n !== from && (Math.abs(n - from) <= 2 || (2 * n >= from && n <= 2 * from));
}

function closing(n: number, gap: number, after: number): number {
  return after === gap ? Number.NaN : n - gap / (after - gap);
}

function missing({ needs, has }: Outcome, { size }: Trial): number {
  return (needs[size] ?? 0) - (has[size] ?? 0);
}

function miscounted({ makes }: Outcome, { size, row }: Trial): number {
  const [only, ...others] = row.line.plan?.stated ?? [];
  return only && others.length === 0 ? (makes[size] ?? 0) - (forSize(only.n, size) ?? 0) : 0;
}

function editFor(text: string, { word, span }: Place, n: number): MendEdit {
  if (word.cls !== "W") return { line: "row", span, newText: `${n}` };
  const more = /^\s+more/i.exec(text.slice(span.end))?.[0] ?? "";
  return {
    line: "row",
    span: { start: span.start, end: span.end + more.length },
    newText: `${n}${more} time${n === 1 ? "" : "s"}`,
  };
}

function mendFor(text: string, place: Place, edit: MendEdit): Mend {
  const around = phraseAround(text, place.word, edit.span);
  const phrase = withEdits(text.slice(0, around.end), [edit]).slice(around.start).replace(/\s+/g, " ").trim();
  const before = text.slice(around.start, around.end).replace(/\s+/g, " ").trim();
  return {
    kind: "number",
    title: `Change "${before}" to "${phrase}"`,
    question: `Did you mean ${phrase}?`,
    exchange: `${phrase} for ${before}`,
    edits: [edit],
  };
}

/** `x6`, `5 more times`, or the instruction between its commas. */
function phraseAround(text: string, word: Word, changed: Span): Span {
  const end = Math.max(word.end, changed.end);
  const sign = /[x×]\s*$/i.exec(text.slice(0, word.start));
  if (sign) return { start: sign.index, end };
  const times = /^(?:\s+more)?\s+times?\b(?:\s+more)?/i.exec(text.slice(word.end));
  if (times || word.cls === "W")
    return { start: word.start, end: Math.max(end, word.end + (times?.[0].length ?? 0)) };
  const before = /[^,;:.*()[\]{}]*$/.exec(text.slice(0, word.start));
  const behind = /^[^,;:.*()[\]{}]*/.exec(text.slice(end));
  return { start: before?.index ?? word.start, end: end + (behind?.[0].length ?? 0) };
}
