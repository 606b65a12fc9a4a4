import { say } from "../text/say";
import type { Choice, Instruction, Take } from "./instructions";

type WorkRun = Extract<Instruction, { op: "work" }>;

/** `3 tr, 2 ch, 3 tr into next 2-ch sp`: a list with one space behind it. */
interface SpacedList {
  /** The stitches and the chain before the last stitches. */
  readonly before: readonly Instruction[];
  readonly last: WorkRun;
}

/** The place behind a list may be that of all of it, in every such list of a row alike. */
export function inOnePlace(all: readonly Instruction[], choices: Choice[]): readonly Instruction[] {
  const lists = spacedListsIn(all);
  if (lists.length === 0) return all;
  const [apart, together] = lists.some(isEven) ? [0.5, 0] : [0, 0.5];
  const options = [
    say`the place behind a list is that of its last stitches`,
    say`all of a list goes into one place`,
  ];
  const choice = choices.push({ options, costs: [apart, together] }) - 1;
  return eitherWay(all, choice);
}

function eitherWay(all: readonly Instruction[], choice: number): Instruction[] {
  const out: Instruction[] = [];
  for (const one of all) {
    const list = listEndingWith(one, out);
    if (one.op === "repeat") out.push({ ...one, body: eitherWay(one.body, choice) });
    else if (list === null) out.push(one);
    else out.push(eitherOf(list, choice, out.splice(out.length - list.before.length)));
  }
  return out;
}

function eitherOf({ last }: SpacedList, choice: number, before: readonly Instruction[]): Instruction {
  const { takes, span } = last;
  const whole = [...before, last];
  return { op: "either", choice, options: [whole, [{ op: "group", body: whole, takes, span }]], span };
}

function spacedListsIn(all: readonly Instruction[]): SpacedList[] {
  return all.flatMap((one, i) =>
    one.op === "repeat" ? spacedListsIn(one.body) : (listEndingWith(one, all.slice(0, i)) ?? []),
  );
}

function listEndingWith(last: Instruction, behind: readonly Instruction[]): SpacedList | null {
  if (last.op !== "work" || last.takes.length !== 1 || !last.takes.every(isOneSpace)) return null;
  const before = behind.slice(-2);
  const [stitches, chain] = before;
  const isPlain =
    chain?.op === "chain" &&
    stitches?.op === "work" &&
    stitches.takes.every((take) => take.how === "next" && take.unplaced === true);
  return isPlain ? { before, last } : null;
}

function isOneSpace(take: Take): boolean {
  if (take.how === "same") return take.inSpace === true;
  return take.how === "next" && take.of.sort === "space" && take.n.every((n) => n === 1);
}

/** As many of the same stitch on both sides of the chain: what turns a corner in one space. */
function isEven({ before: [first], last }: SpacedList): boolean {
  const [take] = first?.op === "work" ? first.takes : [];
  return (
    first?.op === "work" &&
    take?.how === "next" &&
    first.stitch.kind === last.stitch.kind &&
    `${take.n}` === `${last.per}`
  );
}
