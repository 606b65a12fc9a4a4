import { type Copy, copyOf } from "../fabric/copies";
import type { Instruction } from "../fabric/instructions";
import type { Outcome } from "../fabric/outcome";
import { isStepLoop, type Steps } from "../fabric/steps";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { type TextEdit, withEdits } from "../text/span";
import { isRefusal, type Refusal, trialOf } from "./row-trial";
import { difference } from "./text-difference";
import { begunLike } from "./wording";

/** What makes of a row that of the mirror image of its piece; nothing where it is the same from both ends. */
export function mirroredRow(row: WorkedRow, piece: WorkedPiece): TextEdit[] | Refusal {
  const { text } = row.line;
  if (row.line.kind === "foundation") return [];
  if (row.result === "ok" && repeatsOwnRows(row)) return [];
  const trial = trialOf(row, piece);
  if (isRefusal(trial)) return trial;
  // Of a line for several rows, the first.
  const worked = (told: string) => trial.rework(told).find((one) => one.fits && one.outOfReach === null);
  const own = worked(text);
  const marks = own ? marksOf(own) : null;
  if (!own || marks === null) return { why: say`it is too long to be looked through` };
  if (`${[...marks].reverse()}` === `${marks}`) return [];
  const turned = turnedText(own, text);
  const after = turned === null ? undefined : worked(turned);
  const isMirror = after && after.makes[0] === own.makes[0] && `${marksOf(after)?.reverse()}` === `${marks}`;
  return turned !== null && isMirror
    ? difference(text, turned)
    : { why: say`it is not plain how it goes from its other end` };
}

/** One edge, or one end of a row. */
const oneEdge = /\b(?:edges?|beg|beginning|start)\b|(?<!\b(?:each|both)\s)\bends?\s+of\b/i;

/** What repeats whole rows of its piece repeats their mirror images there. */
function repeatsOwnRows({ line }: WorkedRow): boolean {
  const copy = copyOf(line.content);
  if (!copy || oneEdge.test(line.text)) return false;
  return copy.how === "rows"
    ? !copy.ofOther && copy.of === null
    : copy.how === "last" || isEven(copy, line.text);
}

/** `Work even for 6 rows`, `Dec 1 st at each end of next row`. */
function isEven({ how }: Copy, text: string): boolean {
  return how === "even" || (/^each-end/.test(how) && /\b(?:each|both)\s+(?:ends?|sides?)\b/i.test(text));
}

const marksAtMost = 4_000;

/** Each stitch in turn, with the chains and the skipped places between it and the next; null where it is too long. */
function marksOf({ steps }: Outcome): string[] | null {
  const marks: string[] = [];
  return addMarks(steps[0] ?? [], marks) ? marks : null;
}

function addMarks(steps: readonly Steps[], marks: string[]): boolean {
  for (const step of steps) {
    if (marks.length > marksAtMost) return false;
    if (isStepLoop(step)) {
      for (let pass = 0; pass < step.times; pass++) if (!addMarks(step.steps, marks)) return false;
    } else if (step.sort === "stitch") {
      const each = `${step.kind} ${step.uses} ${step.perPlace}`;
      for (let i = 0; i < step.n / step.perPlace; i++) marks.push(each);
    } else addBetween(marks, `${step.kind} ${step.chains ?? step.uses}`);
  }
  return true;
}

/** What lies between two stitches is the same in whichever order it is told. */
function addBetween(marks: string[], mark: string): void {
  const before = marks.at(-1);
  if (before?.startsWith("~")) marks[marks.length - 1] = `~${[before.slice(1), mark].sort().join("+")}`;
  else marks.push(`~${mark}`);
}

type Work = Extract<Instruction, { op: "work" }>;

const around = new Set(["start", "chain", "turn", "mark", "tie", "change"]);

/** Its stitches told from the last to the first; null where there is more than runs of stitches. */
function turnedText({ how, reading }: Outcome, text: string): string | null {
  const all = (how?.plan.instructions ?? []).flatMap((one) =>
    one.op === "either" ? (one.options[reading[one.choice] ?? 0] ?? []) : [one],
  );
  const works = all.filter((one) => one.op === "work");
  const isPlain = all.every((one) => one.op === "work" || around.has(one.op));
  const [first, last] = [works[0], works.at(-1)];
  if (!isPlain || !first || !last || works.some(({ takes }) => takes.length !== 1)) return null;
  const span = { start: first.span.start, end: last.span.end };
  const parts = [...works].reverse().map((work, i, list) => partText(work, list.slice(i + 1), text));
  const newText = begunLike(parts.join(", "), text.slice(span.start, span.end));
  return withEdits(text, [{ span, newText }]);
}

/** A run or an increase in its new place: what went to the end stops before what follows it now. */
function partText({ takes: [take], span }: Work, behind: readonly Work[], text: string): string {
  const own = lowered(text.slice(span.start, span.end));
  if (take?.how !== "each") return sidesTurned(own);
  const stitch = own.replace(/\s+(?:in(?:to)?|to|across|around)\b.*$/i, "");
  const each = /\bin(?:to)?\s+(?:each|every)\s+\w+/i.exec(own)?.[0];
  const run = each ? `${stitch} ${each}` : stitch;
  const left = behind.reduce((sum, work) => sum + placesOf(work), 0);
  return left > 0 ? `${run} to last ${left === 1 ? "st" : `${left} sts`}` : `${run} to end`;
}

function placesOf({ stitch, takes: [take] }: Work): number {
  return take && "n" in take && take.n !== undefined && Array.isArray(take.n)
    ? stitch.uses * (take.n[0] ?? 1)
    : stitch.uses;
}

function sidesTurned(text: string): string {
  return text.replace(/\b(first|last)\b/gi, (word) => (word.toLowerCase() === "first" ? "last" : "first"));
}

function lowered(text: string): string {
  return text.replace(/^\p{Lu}(?=\p{Ll})/u, (letter) => letter.toLowerCase());
}
