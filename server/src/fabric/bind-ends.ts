import type { Sized } from "../notation/words";
import { say } from "../text/say";
import { stitchOf, type Terms } from "../trade/stitches";
import { firstKind, hasChain } from "./bind-start";
import { type Choice, type Instruction, type Take, takesIn, type WorkRun } from "./instructions";

/** `sc around, increasing in every 6th sc`: one run, told twice. */
export function shapedAlong(all: readonly Instruction[]): readonly Instruction[] {
  if (!all.some((one) => one.op === "repeat" && one.overRun)) return all;
  return all.filter((one, i) => {
    const next = all[i + 1];
    return !(one.op === "work" && one.takes[0]?.how === "each" && next?.op === "repeat" && next.overRun);
  });
}

/** `inc 1 st at each end, sc across`: the run over the row, with its first and last stitches shaped. */
export function shapedAtEnds(all: readonly Instruction[]): readonly Instruction[] {
  const ends = all.find((one) => one.op === "ends");
  const run = all.find((one): one is WorkRun => one.op === "work" && one.takes[0]?.how === "each");
  if (ends?.op !== "ends" || !run) return all;
  const { more, n, span } = ends;
  const { stitch } = run;
  const shaped = more > 0 ? stitch : { ...stitch, uses: 1 - more };
  const atEnd = (how: "next" | "last"): Instruction => ({
    op: "work",
    stitch: shaped,
    per: [more > 0 ? 1 + more : 1],
    takes: [{ how, n, of: { sort: "stitch" } }],
    span,
  });
  const until = { n: n.map((times) => (times ?? 0) * shaped.uses), of: { sort: "stitch" as const } };
  const takes = run.takes.map((take) => (take.how === "each" ? { ...take, until } : take));
  const whole = [atEnd("next"), { ...run, takes }, atEnd("last")];
  return all.flatMap((one) => (one === ends ? [] : one === run ? whole : [one]));
}

/** `…; rep from * around, ending with sc in last st`: what ends the last pass belongs to the repeat. */
export function withEnding(all: readonly Instruction[], choices: Choice[]): readonly Instruction[] {
  const at = all.findIndex((instruction) => instruction.op === "ending");
  const repeat = all[at - 1];
  if (at < 0) return all;
  if (repeat?.op !== "repeat") return all.filter((instruction) => instruction.op !== "ending");
  const behind = all.slice(at + 1).filter((instruction) => instruction.op !== "ending");
  const { omits } = all[at] as Extract<Instruction, { op: "ending" }>;
  if (omits) {
    const choice =
      choices.push({ options: [say`the last part is left out of the last repeat`], costs: [0] }) - 1;
    const ending = { with: [], choice, keeps: [repeat.body.length - 1] };
    return [...all.slice(0, at - 1), { ...repeat, ending }, ...behind];
  }
  // Nobody ends with a chain behind a chain.
  const begins = behind[0]?.op;
  const keeps = [...repeat.body.keys()].filter(
    (n) => n === 0 || begins !== "chain" || repeat.body[n - 1]?.op !== "chain",
  );
  const options = keeps.map((n) =>
    n === 0
      ? say`the ending follows the last whole repeat`
      : say`the ending takes the place of all but the first ${n} parts of the last repeat`,
  );
  const usual = likeness(repeat.body, behind);
  const choice = choices.push({ options, costs: keeps.map((n) => endingCost(n, usual, keeps.length)) }) - 1;
  return [...all.slice(0, at - 1), { ...repeat, ending: { with: reserveLast(behind), choice, keeps } }];
}

/** `…; rep from * across, working last sc in top of turning ch`: the last stitch of the last repeat may go where it is told. */
export function withToldLast(all: readonly Instruction[], choices: Choice[]): readonly Instruction[] {
  const at = all.findIndex(({ op }) => op === "told");
  const [repeat, told] = [all[at - 1], all[at]];
  if (told?.op !== "told") return all;
  const others = all.filter(({ op }) => op !== "told");
  if (repeat?.op !== "repeat" || repeat.ending || !isLikeLast(told.work, repeat.body)) return others;
  const options = [
    say`the last stitch of the last repeat goes where the others do`,
    say`the last stitch of the last repeat goes where it is told`,
  ];
  const choice = choices.push({ options, costs: [0, 0.1] }) - 1;
  const keeps = ["as ever", repeat.body.length - 1] as const;
  return others.with(at - 1, { ...repeat, ending: { with: [told.work], choice, keeps } });
}

function isLikeLast(work: WorkRun, body: readonly Instruction[]): boolean {
  const last = body.at(-1);
  const same =
    last?.op === "work" && last.stitch.kind === work.stitch.kind && `${last.per}` === `${work.per}`;
  return same && work.takes.length === 1 && work.takes[0]?.how === "last";
}

/** An ending replaces as little of the last repeat as it can. */
function endingCost(keeps: number, usual: number, parts: number): number {
  return keeps === usual ? 0 : 0.1 + 0.015 * (parts - 1 - keeps);
}

/** `sc in first sp, *ch 5, sc in next sp; rep from * around, join`: the last ch 5 may lead to the sc that began the round. */
export function withRoundEnd(all: readonly Instruction[], choices: Choice[]): readonly Instruction[] {
  return all.map((repeat, i) => {
    if (repeat.op !== "repeat" || repeat.ending || repeat.cut !== undefined) return repeat;
    if (repeat.times.how !== "to-end" || repeat.times.until !== null || repeat.body.length < 2) return repeat;
    const last = repeat.body.at(-1);
    const began = firstKind(all.slice(0, i));
    if (!last || began === null || firstKind([last]) !== began || all.slice(i + 1).some(isWork))
      return repeat;
    const options = [say`the last repeat is worked whole`, say`the last repeat ends where the round began`];
    const choice = choices.push({ options, costs: [0, 0.5] }) - 1;
    return { ...repeat, ending: { with: [], choice, keeps: [0, repeat.body.length - 1], inRounds: true } };
  });
}

function isWork({ op }: Instruction): boolean {
  return op === "work" || op === "group" || op === "repeat" || op === "either";
}

/** How many parts of a repeat come before the one that its ending begins like; 0 where it begins like none or several. */
function likeness(body: readonly Instruction[], ending: readonly Instruction[]): number {
  const [first] = ending;
  const like = body.flatMap((part, i) => (first && saysOf(part) === saysOf(first) ? [i] : []));
  return like.length === 1 ? (like[0] ?? 0) : 0;
}

/** What an instruction makes, wherever it is worked. */
function saysOf(instruction: Instruction): string {
  switch (instruction.op) {
    case "work":
      return `${instruction.per} ${instruction.stitch.kind}`;
    case "chain":
      return `ch ${instruction.n}`;
    case "group":
    case "repeat":
      return `(${instruction.body.map(saysOf)})`;
    default:
      return instruction.op;
  }
}

/** `*ch 2, dc in next dc; rep from * across, ch 2, sk 2 ch, dc in next ch`: behind the last dc, the turning chain. */
export function closingInTurning(all: readonly Instruction[]): readonly Instruction[] {
  const at = all.findLastIndex((one) => takesIn([one]).length > 0);
  const [last, skip] = [all[at], all[at - 1]];
  const from = skip?.op === "skip" ? at - 1 : at;
  const repeat = all.slice(0, from).findLast(({ op }) => op !== "chain");
  if (last?.op !== "work" || repeat?.op !== "repeat" || !isOpen(repeat)) return all;
  const isChain = (one: Instruction): boolean =>
    takesIn([one]).every((take) => take.how === "next" && take.of.sort === "chain");
  const onStitches = takesIn(repeat.body).every((take) => take.how === "next" && take.of.named === true);
  if (!onStitches || ![last, ...all.slice(from, at)].every(isChain)) return all;
  const [skipped] = takesIn(all.slice(from, at));
  const over = skipped?.how === "next" ? { over: skipped.n } : {};
  const closing: Instruction = { ...last, takes: [{ how: "last", n: [1], of: { sort: "stitch" }, ...over }] };
  return [...all.slice(0, from), closing, ...all.slice(at + 1)];
}

/** `*ch 3, sk 1 st, sc in next st; rep from * to last st, ch 2, sc in last st`: a last stitch, or in a round the end of a loop as long as the others. */
export function closingLoop(
  all: readonly Instruction[],
  choices: Choice[],
  terms: Terms,
): readonly Instruction[] {
  const at = all.findLastIndex((one) => takesIn([one]).length > 0);
  const [chain, last] = [all[at - 1], all[at]];
  if (chain?.op !== "chain" || last?.op !== "work" || last.takes.length > 1) return all;
  const [take] = last.takes;
  if (take?.how !== "last" || `${take.n}/${last.per}` !== "1/1") return all;
  const own = chain.n[0] ?? 0;
  const whole = own + (stitchOf(last.stitch.kind, terms)?.turningChain ?? 0);
  const before = all.slice(0, at - 1);
  if (![whole - 1, whole, whole + 1].some((n) => n > own && hasChain(before, n))) return all;
  const options = [
    say`the last stitch is worked into the last place`,
    say`the last stitch is the end of the last loop`,
  ];
  // The chain that opened the round is where it ends.
  const closes = choices.push({ options, costs: take.onChain ? [0.3, 0] : [0, 0.3] }) - 1;
  return all.with(at, { ...last, takes: [{ ...take, closes }] });
}

function isOpen({ times, ending, cut }: Extract<Instruction, { op: "repeat" }>): boolean {
  return times.how === "to-end" && times.until === null && !ending && cut === undefined;
}

/** `dc in each dc across, dc in top of turning ch`: the run stops where the last stitch has its own place. */
export function reserveLast(all: readonly Instruction[]): readonly Instruction[] {
  return all.map((instruction, i) => {
    if (instruction.op !== "work" && instruction.op !== "repeat") return instruction;
    const last = lastsIn(all.slice(i + 1));
    if (last === null) return instruction;
    if (instruction.op === "repeat") return stoppingBefore(instruction, last);
    return {
      ...instruction,
      takes: instruction.takes.map((take) => reserving(take, last)),
    };
  });
}

/** `*ch 2, dc in next dc; rep from * across, ch 2, dc in 3rd ch of turning ch`. */
function stoppingBefore(repeat: Extract<Instruction, { op: "repeat" }>, last: Sized): Instruction {
  return isOpen(repeat)
    ? { ...repeat, times: { how: "to-end", until: { n: last, of: { sort: "stitch" } } } }
    : repeat;
}

function reserving(take: Take, last: Sized): Take {
  if (take.how === "last") return { ...take, before: last };
  return take.how === "each" && take.until === null
    ? { ...take, until: { n: last, of: { sort: "stitch" } } }
    : take;
}

function lastsIn(rest: readonly Instruction[]): Sized | null {
  for (const instruction of rest) {
    if (instruction.op === "other-side") return null;
    if (instruction.op !== "work" && instruction.op !== "group" && instruction.op !== "skip") continue;
    const [take] = instruction.takes;
    return take?.how === "last" && take.of.sort === "stitch" && instruction.takes.length === 1
      ? take.n
      : null;
  }
  return null;
}
