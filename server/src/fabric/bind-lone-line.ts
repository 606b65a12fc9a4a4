import type { Sized } from "../notation/words";
import { say } from "../text/say";
import { isInFirst } from "./bind-start";
import { type Choice, forSize, type Instruction } from "./instructions";

/** A line with no mark and no word on how often is worked once, or over and over to the end. */
export function withLoneLine(all: readonly Instruction[], text: string, choices: Choice[]): Instruction[] {
  const from = all.findIndex(
    (instruction) => !["turn", "start", "mark", "unknown", "begin-at", "begins"].includes(instruction.op),
  );
  if (from < 0) return [...all];
  const body = all.slice(from).filter((instruction) => instruction.op !== "turn");
  const reach = body.map((instruction) => reaches(instruction));
  const last = body.at(-1);
  const againAt = body.findIndex(
    (instruction) => instruction.op === "repeat" && instruction.body.length === 0,
  );
  if (againAt > 0) {
    const again = body[againAt] as Extract<Instruction, { op: "repeat" }>;
    return [...all.slice(0, from), { ...again, body: body.slice(0, againAt) }, ...body.slice(againAt + 1)];
  }
  if (
    body.some((instruction) => ["slip", "other-side", "unknown", "change"].includes(instruction.op)) ||
    body.slice(0, -1).some(isInFirst) ||
    body.some(startsOnChain)
  )
    return [...all];
  const span = { start: body[0]?.span.start ?? 0, end: last?.span.end ?? 0 };
  const often = last && body.length > 1 ? oftenOf(last) : null;
  if (often && body.slice(0, -1).every(isPlainRun))
    return [...all.slice(0, from), wholeOrLast(body, often, choices)];
  if (reach.slice(0, -1).some((r) => r !== "some")) return [...all];
  if (
    reach.at(-1) === "all" &&
    body.length > 1 &&
    last?.op === "work" &&
    !worksEach.test(text.slice(last.span.start, last.span.end)) &&
    body.slice(0, -1).some((instruction) => instruction.op === "work")
  ) {
    const choice =
      choices.push({
        options: [say`only the last part is repeated`, say`the whole line is repeated`],
        costs: [0, 1],
      }) - 1;
    const unit: Instruction = {
      op: "repeat",
      body: [...body.slice(0, -1), onceOnly(last)],
      times: { how: "to-end", until: null },
      span,
    };
    return [...all.slice(0, from), { op: "either", choice, options: [body, [unit]], span }];
  }
  if (reach.at(-1) !== "some" || !body.some((instruction) => instruction.op === "work")) return [...all];
  if (isLoneRun(body)) return [...all];
  const choice =
    choices.push({
      options: [say`the line is worked once`, say`the line is repeated to the end`],
      costs: [0, 1],
    }) - 1;
  const unit: Instruction = { op: "repeat", body, times: { how: "to-end", until: null }, span };
  return [...all.slice(0, from), { op: "either", choice, options: [body, [unit]], span }];
}

/** `sc in each st across` goes over all of them by itself; `inc across` may close the line that is repeated. */
const worksEach = /\b(?:each|every)\b/i;

/** How often a row's last stitch is worked by a sign behind it: `inc x6`. */
interface Often {
  readonly n: Sized;
  readonly once: Instruction;
}

function oftenOf(last: Instruction): Often | null {
  if (last.op === "repeat") {
    const [only, second] = last.body;
    // `sc, (inc) x6`: the bracket says what is repeated.
    const isBare = only?.span.start === last.span.start;
    return last.times.how === "fixed" && only?.op === "work" && isBare && !second
      ? { n: last.times.n, once: only }
      : null;
  }
  if (last.op !== "work" || !last.signed) return null;
  const [take] = last.takes;
  return take?.how === "next" ? { n: take.n, once: { ...last, takes: [{ ...take, n: [1] }] } } : null;
}

function isPlainRun(instruction: Instruction): boolean {
  return instruction.op === "work" && instruction.takes.every(({ how }) => how === "next");
}

/** `1 sc, 1 inc x6 (18)`: six increases, or both of them six times. */
function wholeOrLast(body: readonly Instruction[], { n, once }: Often, choices: Choice[]): Instruction {
  const times = n.join("/");
  const options = [
    say`only the last stitch is worked ${times} times`,
    say`the whole line is worked ${times} times`,
  ];
  const choice = choices.push({ options, costs: [0, 0.6] }) - 1;
  const span = { start: body[0]?.span.start ?? 0, end: once.span.end };
  const whole: Instruction = {
    op: "repeat",
    body: [...body.slice(0, -1), once],
    times: { how: "fixed", n },
    span,
  };
  return { op: "either", choice, options: [body, [whole]], span };
}

/** `30 sc`: nobody writes `3 sc` for thirty of them, while `inc` or `1 sc` may well stand for a row of them. */
function isLoneRun(body: readonly Instruction[]): boolean {
  const work = body.filter((instruction) => instruction.op === "work");
  const counted = body.every(({ op }) => ["work", "start", "turn", "mark", "chain"].includes(op));
  const takes = work.length === 1 ? (work[0]?.takes ?? []) : [];
  return counted && takes.some((take) => take.how === "next" && forSize(take.n, 0) !== 1);
}

function startsOnChain(instruction: Instruction): boolean {
  return (
    instruction.op === "work" &&
    instruction.takes.some((take) => take.how === "from-hook" || take.how === "nowhere")
  );
}

function onceOnly(instruction: Extract<Instruction, { op: "work" }>): Instruction {
  return {
    ...instruction,
    takes: [
      {
        how: "next",
        n: [1],
        of:
          instruction.takes[0]?.how === "each"
            ? (instruction.takes[0].of[0] ?? { sort: "stitch" })
            : { sort: "stitch" },
      },
    ],
  };
}

/** How far an instruction goes: over places it counts, to the end, or over places that only it names. */
function reaches(instruction: Instruction): "some" | "all" | "fixed" {
  if (instruction.op === "repeat") return "fixed";
  if (instruction.op !== "work" && instruction.op !== "group" && instruction.op !== "skip") return "some";
  if (instruction.takes.some((take) => take.how === "each"))
    return instruction.takes.length === 1 ? "all" : "fixed";
  return instruction.takes.some(
    (take) => take.how === "last" || take.how === "from-hook" || take.how === "marked",
  )
    ? "fixed"
    : "some";
}
