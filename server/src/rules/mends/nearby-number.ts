import { forSize, type Instruction } from "../../fabric/instructions";
import type { Outcome } from "../../fabric/outcome";
import type { Word } from "../../notation/words";
import { say } from "../../text/say";
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

/** One more of it tells what each one does: from that the number that closes every gap. */
function likely(trial: Trial, place: Place): number[] {
  const next = trial.rework(withEdits(trial.text, [editFor(trial.text, place, place.n + 1)]));
  const now = trial.asWritten;
  if (!next) return [place.n - 1, place.n + 1].filter((n) => n >= 1);
  const [gaps, after] = [gapsOf(now, trial), gapsOf(next, trial)];
  if (isAlike(now, next)) return [];
  const isEven = gaps.length === after.length && !goesToEnd(trial.row.found?.plan.instructions ?? []);
  const neighbours = isEven ? [] : [place.n - 1, place.n + 1];
  return [...new Set([...closing(place.n, gaps, after), ...neighbours])].filter((n) => isNearby(n, place.n));
}

function isAlike(before: Outcome, after: Outcome): boolean {
  const all = ({ needs, has, counted }: Outcome): string =>
    JSON.stringify([needs, has, counted.map((sum) => sum && [...sum.kinds])]);
  return all(before) === all(after);
}

function goesToEnd(list: readonly Instruction[]): boolean {
  return list.some(
    (one) =>
      one.op === "repeat" && (one.times.how === "to-end" || one.times.how === "lone" || goesToEnd(one.body)),
  );
}

/** How far the row is from right: in the places that it needs, and in each kind of its count; 0 where it agrees. */
function gapsOf({ needs, has, makes, counted }: Outcome, { size, row }: Trial): number[] {
  const stated = row.line.plan?.stated ?? [];
  const kinds = [...(counted[size]?.kinds.values() ?? [])];
  const made = stated.length === 1 ? [makes[size] ?? 0] : kinds;
  const missing = (needs[size] ?? 0) - (has[size] ?? 0);
  // Kinds that are told by one name cannot be told apart.
  if (made.length !== stated.length) return [missing];
  return [missing, ...stated.map(({ n }, term) => (made[term] ?? 0) - (forSize(n, size) ?? 0))];
}

/** The number that closes all gaps at once, where each more of it changes them as the first one did. */
function closing(n: number, gaps: readonly number[], after: readonly number[]): number[] {
  const steps = gaps.map((gap, i) => ({ gap, by: (after[i] ?? 0) - gap }));
  if (steps.some(({ gap, by }) => by === 0 && gap !== 0)) return [];
  const all = new Set(steps.filter(({ by }) => by !== 0).map(({ gap, by }) => n - gap / by));
  return all.size === 1 ? [...all] : [];
}

/** Between half and double, or two apart: what a slip could have made of it. */
function isNearby(n: number, from: number): boolean {
  return (
    Number.isInteger(n) &&
    n >= 1 &&
    n !== from &&
    (Math.abs(n - from) <= 2 || (2 * n >= from && n <= 2 * from))
  );
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
    title: say`Change "${before}" to "${phrase}"`,
    question: say`Did you mean ${phrase}?`,
    exchange: say`${phrase} for ${before}`,
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
