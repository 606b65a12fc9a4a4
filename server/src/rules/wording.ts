import type { Instruction, RowPlan, Take } from "../fabric/instructions";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say, sayings } from "../text/say";
import type { Span } from "../text/span";

type Numbers = readonly (number | null)[];

/** `a`, `a and b`, `a, b and c`; the last joined by `and` or `or`. */
export function listed(items: readonly string[], word: "and" | "or"): string {
  if (items.length < 2) return items[0] ?? "";
  const [before, last] = [items.slice(0, -1).join(", "), items.at(-1) ?? ""];
  return word === "and" ? say`${before} and ${last}` : say`${before} or ${last}`;
}

/** Numbers of all sizes: `48`, or `40, 44 and 48`. */
export function numbers(list: Numbers): string {
  return listed([...new Set(list.filter((n) => n !== null))].map(String), "and") || say`no`;
}

/** The name of a row as it is typed. */
export function rowName(row: WorkedRow): string {
  const { head, headText } = row.line;
  return head ? headText : headText.replace(/[.,;:\s]+$/, "");
}

/** Where the head of a row stands; of a row without one, its first words. */
export function headOf({ line }: WorkedRow): Span {
  const { start } = line.span;
  return { start, end: line.head ? start + line.headText.length : line.span.end };
}

const ofOne = sayings({
  needs: "needs",
  makes: "makes",
  has: "has",
  gives: "gives",
  says: "says",
  leaves: "leaves",
  stops: "stops",
  is: "is",
  goes: "goes",
  "does not fit": "does not fit",
  comes: "comes",
  names: "names",
  opens: "opens",
  closes: "closes",
  begins: "begins",
  counts: "counts",
});
type Verb = Parameters<typeof ofOne>[0];

const ofMany = sayings<Verb>({
  needs: "need",
  makes: "make",
  has: "have",
  gives: "give",
  says: "say",
  leaves: "leave",
  stops: "stop",
  is: "are",
  goes: "go",
  "does not fit": "do not fit",
  comes: "come",
  names: "name",
  opens: "open",
  closes: "close",
  begins: "begin",
  counts: "count",
});

/** `Rnd 7 needs`, but `Rnds 4-6 need`: a name with its verb. */
export function says(name: string, verb: Verb): string {
  const isMany = /^(?:rows|rnds|rounds|rds)\b|\d\s*[-–—]\s*\d/i.test(name);
  return `${name} ${isMany ? ofMany(verb) : ofOne(verb)}`;
}

/** `once more`, `5 more times`: as a pattern writes it. */
export function moreTimes(n: number): string {
  return n === 1 ? "once more" : `${n} more times`;
}

/** What a row is worked into. */
export type Noun = "stitch" | "chain" | "chain space" | "loop" | "gap" | "stitch or space";

const singular = sayings<Noun>({
  stitch: "stitch",
  chain: "chain",
  "chain space": "chain space",
  loop: "loop",
  gap: "gap",
  "stitch or space": "stitch or space",
});

const plural = sayings<Noun>({
  stitch: "stitches",
  chain: "chains",
  "chain space": "chain spaces",
  loop: "loops",
  gap: "gaps",
  "stitch or space": "stitches and spaces",
});

/** `1 stitch`, `3 stitches`, `no chain spaces`. */
export function counted(n: number, noun: Noun): string {
  if (n === 1) return `1 ${singular(noun)}`;
  return `${n === 0 ? say`no` : n} ${plural(noun)}`;
}

/** `40, 44 and 48 stitches`: one number a size. */
export function countedAll(list: Numbers, noun: Noun): string {
  const distinct = [...new Set(list.filter((n) => n !== null))];
  return distinct.length === 1 ? counted(distinct[0] ?? 0, noun) : `${numbers(list)} ${plural(noun)}`;
}

/** What the row's places are called: as the row itself names them. */
export function placesNoun(row: WorkedRow): Noun {
  const plan = row.found?.plan ?? row.line.plan;
  if (plan?.foundation || row.below?.kind === "foundation") return "chain";
  const sorts = new Set(plan ? sortsIn(plan.instructions) : []);
  if (sorts.has("gap")) return "gap";
  if (!sorts.has("space")) return "stitch";
  if (sorts.has("stitch")) return "stitch or space";
  return /\b(?:loops?|lps?)\b/i.test(row.line.text) ? "loop" : "chain space";
}

function sortsIn(list: readonly Instruction[]): string[] {
  return list.flatMap((instruction): string[] => {
    if (instruction.op === "repeat") return sortsIn(instruction.body);
    if (instruction.op === "either") return instruction.options.flatMap(sortsIn);
    return "takes" in instruction && instruction.op !== "slip" ? instruction.takes.flatMap(sortsOf) : [];
  });
}

function sortsOf(take: Take): string[] {
  if (take.how === "each") return take.of.map(({ sort }) => sort);
  return take.how === "next" || take.how === "last" ? [take.of.sort] : [];
}

/** What left the places, as a maker would call it. */
export function belowName(row: WorkedRow, piece: WorkedPiece): string {
  const plan = row.found?.plan ?? row.line.plan;
  if (plan?.foundation || row.below?.kind === "foundation") return say`the starting chain`;
  if (plan?.onRow != null) return namedRow(plan, piece);
  return row.below?.headText ?? rowBefore(row, piece) ?? say`the edge it is worked on`;
}

/** Of `Rnd 7` behind a heading, `Rnd 6`: the numbers run on from the piece before. */
function rowBefore({ line, goesOn }: WorkedRow, { piece }: WorkedPiece): string | null {
  const { head, headText, plan } = line;
  const from = head?.from ?? 1;
  if (from <= 1 || line !== piece.rows[0] || piece.talk.onRow !== null || !plan || plan.onPiece.length > 0)
    return null;
  // The work may have been taken to go on, whatever the number.
  if (goesOn) return null;
  const typed = /^(\p{L}+?)(s?)([.\s]*)(\d+)/u.exec(headText);
  if (Number(typed?.[4]) !== from) return head?.word === "row" ? say`the row before` : say`the round before`;
  const [, word, plural, gap] = typed as RegExpExecArray;
  return `${word}${head?.to === null ? plural : ""}${gap}${from - 1}`;
}

function namedRow({ onRow }: RowPlan, piece: WorkedPiece): string {
  const named = piece.rows.find(({ line }) => line.head?.from === onRow);
  return named ? rowName(named) : say`the row numbered ${onRow}`;
}

/** `size M`: the name a pattern gives to one of its sizes. */
export function sizeName(size: number, piece: WorkedPiece): string {
  const name = piece.context.sizes[size] ?? `${size + 1}`;
  return /^size\b/i.test(name) ? name : say`size ${name}`;
}
