import type { Instruction } from "../fabric/instructions";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { type Span, type TextEdit, withEdits } from "../text/span";
import { fold } from "./fold";
import { isRefusal, proved, type RowTrial, trialOf } from "./row-trial";
import { written } from "./wording";

/** The same stitches in other words. */
export interface Retold {
  readonly way: "spelled-out" | "folded" | "in-brackets" | "from-asterisk";
  /** In offsets of the row's text. */
  readonly edit: TextEdit;
}

type Repeat = Extract<Instruction, { op: "repeat" }>;

/** Passes that are written one by one at most. */
const passesAtMost = 12;

/** Other ways to write the repeats of a row; each was read and worked, and makes the same. */
export function retellings(row: WorkedRow, piece: WorkedPiece): Retold[] {
  const trial = trialOf(row, piece);
  if (isRefusal(trial) || row.result !== "ok") return [];
  const plan = trial.outcome.how?.plan;
  if (plan?.text !== trial.text) return [];
  const repeats = plan.instructions.filter((one) => one.op === "repeat" && !one.ending) as Repeat[];
  const [only] = repeats.length === 1 ? repeats : [];
  const all = [
    ...repeats.flatMap((one) => spelledOut(one, trial.text)),
    ...folded(asRead(plan.instructions, trial.outcome.reading), trial.text),
    ...(only ? [...inBrackets(only, trial.text), ...fromAsterisk(only, trial.text)] : []),
  ];
  return all.filter((one) => isSame(trial, one));
}

function isSame(trial: RowTrial, { edit }: Retold): boolean {
  const found = proved(trial, withEdits(trial.text, [edit]));
  const { makes, needs, counted } = trial.outcome;
  return (
    found !== null &&
    found.outcome.makes[0] === makes[0] &&
    found.outcome.needs[0] === needs[0] &&
    kindsOf(found.outcome.counted) === kindsOf(counted)
  );
}

function kindsOf(counted: RowTrial["outcome"]["counted"]): string {
  return JSON.stringify(counted.map((one) => one && [...one.kinds]));
}

/** A repeat with its parts as they are written: what opens it, what is repeated, what closes it. */
interface Written {
  readonly open: string;
  readonly body: string;
  readonly close: string;
}

function partsOf({ body, span }: Repeat, text: string): Written | null {
  const [first, last] = [body[0]?.span, body.at(-1)?.span];
  if (!first || !last || first.start < span.start || last.end > span.end) return null;
  return {
    open: text.slice(span.start, first.start),
    body: text.slice(first.start, last.end),
    close: text.slice(last.end, span.end),
  };
}

function timesOf({ times }: Repeat): number | null {
  return times.how === "fixed" && times.n.length === 1 ? (times.n[0] ?? null) : null;
}

function spelledOut(repeat: Repeat, text: string): Retold[] {
  const [parts, times] = [partsOf(repeat, text), timesOf(repeat)];
  if (!parts || times === null || times < 2 || times > passesAtMost) return [];
  const newText = Array(times).fill(parts.body).join(", ");
  return [{ way: "spelled-out", edit: { span: repeat.span, newText } }];
}

function inBrackets(repeat: Repeat, text: string): Retold[] {
  const parts = partsOf(repeat, text);
  if (!parts || !/^\s*\*\s*$/.test(parts.open)) return [];
  const times = timesOf(repeat);
  const howFar = parts.close.replace(/^[^*]*\*+\s*/, "");
  const newText = `(${lowered(parts.body)}) ${times === null ? howFar : `${times} times`}`;
  return times === null && howFar === ""
    ? []
    : [{ way: "in-brackets", edit: { span: repeat.span, newText } }];
}

function fromAsterisk(repeat: Repeat, text: string): Retold[] {
  const parts = partsOf(repeat, text);
  if (!parts || !/^\s*[([]\s*$/.test(parts.open)) return [];
  const times = timesOf(repeat);
  const howFar = parts.close.replace(/^\s*[)\]]\s*/, "");
  if (times === null ? howFar === "" : times < 2) return [];
  const again = times === null ? howFar : `${times - 1} more time${times === 2 ? "" : "s"}`;
  const newText = `*${parts.body}; rep from * ${again}`;
  return [{ way: "from-asterisk", edit: { span: repeat.span, newText } }];
}

function lowered(text: string): string {
  return text.replace(/^\p{Lu}(?=\p{Ll})/u, (letter) => letter.toLowerCase());
}

/** A row of single stitches may be worked once, or again to the end: as it was found to be. */
function asRead(list: readonly Instruction[], reading: readonly number[]): readonly Instruction[] {
  return list.flatMap((one) => (one.op === "either" ? (one.options[reading[one.choice] ?? 0] ?? []) : [one]));
}

/** What comes again among the instructions of a row that has no repeat. */
function folded(list: readonly Instruction[], text: string): Retold[] {
  const isStitch = (one: Instruction): boolean =>
    one.op === "work" || one.op === "chain" || one.op === "skip";
  const from = list.findIndex(isStitch);
  const to = list.findLastIndex(isStitch);
  const run = list.slice(from, to + 1);
  if (from < 0 || !run.every(isStitch)) return [];
  const [first, last] = [run[0]?.span, run.at(-1)?.span];
  if (!first || !last) return [];
  const word = ({ start, end }: Span): string => lowered(text.slice(start, end));
  const drawn = fold(
    run.map(({ span }) => span),
    word,
  );
  if (drawn.length === run.length) return [];
  const repeat = (body: string, times: number): string => `(${body}) ${times} times`;
  const newText = written(drawn, word, { repeat });
  return [{ way: "folded", edit: { span: { start: first.start, end: last.end }, newText } }];
}
