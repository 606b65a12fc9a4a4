import { partsOf } from "../fabric/parts";
import type { WorkedRow } from "../fabric/worked";
import { numberOrSizes } from "../notation/mentions/size-lists";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { lastRowsOf, type MadePiece, makingOf, type PlacedSentence } from "./pieces-made";
import type { Found, WorkedPattern } from "./rule";
import { numbers, rowName, says } from "./wording";

/** Seams that tell how many stitches of each of several pieces meet, where their last rows have another number. */
export function shoulderEdges(pattern: WorkedPattern): Found[] {
  return makingOf(pattern).joining.flatMap((said) => [
    ...seamIn(said, pattern),
    ...eachShoulder(said, pattern),
  ]);
}

const onEach = new RegExp(
  String.raw`\bshoulders?\b[^.;]*?\b(${numberOrSizes})\s+(?:sts|stitches)\s+(?:(?:on|at|for)\s+)?(?:each|either|both)\b`,
  "i",
);

/** `Join both shoulders, 18 (20, 22) sts each side`: as many as the last row below a neck or shoulder. */
function eachShoulder({ sentence, line, mentions }: PlacedSentence, pattern: WorkedPattern): Found[] {
  const match =
    mentions.length === 0 && sentence.deeds.some(({ does }) => does === "sew")
      ? onEach.exec(sentence.text)
      : null;
  if (!match) return [];
  const typed = match[1] as string;
  const told = (typed.match(/\d+/g) ?? []).map(Number);
  const ends = partsOf(pattern).flatMap(({ piece, name }) => {
    const last = piece?.rows.at(-1);
    return last?.result === "ok" && /\b(?:neck|shoulder)\b/i.test(name) ? [{ last, name }] : [];
  });
  const made = ends.map(({ last }) => (last.outcome?.makes ?? []).map((n) => n ?? 0));
  const [end] = ends;
  const isKnown = end && made.every((one) => one.length === told.length);
  if (!isKnown || made.some((one) => one.every((n, size) => n === told[size]))) return [];
  const at = line.start + sentence.start + match.index + match[0].indexOf(typed);
  return [found({ start: at, end: at + typed.length }, typed, end.last, end)];
}

/** `the 10 (11, 12) shoulder sts of each front`, `matching the 12 sts of each front`. */
const ofEach = new RegExp(
  String.raw`\b(matching\s+(?:up\s+)?)?(?:the\s+|all\s+)?(${numberOrSizes})\s+(shoulder\s+)?(?:sts|stitches)\s+(?:of|on|at)\s+(?:each|both|the|either)\s+(?:of\s+the\s+)?(?:\p{L}+\s+)?$`,
  "iu",
);

function seamIn(said: PlacedSentence, pattern: WorkedPattern): Found[] {
  const { sentence, mentions, line } = said;
  if (!/\bst(?:itche)?s\b/i.test(sentence.text) || !sentence.deeds.some(({ does }) => does === "sew"))
    return [];
  return mentions.flatMap(({ pieces, start }) => {
    const before = sentence.text.slice(0, start - sentence.start);
    const match = ofEach.exec(before);
    const [, matching, typed = "", shoulder] = match ?? [];
    const last = pieces.length === 1 ? lastOf(pieces[0] as MadePiece, pattern) : null;
    if (!match || !last || !(matching || shoulder) || sameLast(pieces[0] as MadePiece, said)) return [];
    const told = (typed.match(/\d+/g) ?? []).map(Number);
    const made = last.outcome?.makes ?? [];
    if (made.length !== told.length || !areOther(told, made, shoulder !== undefined)) return [];
    const at = line.start + sentence.start + match.index + match[0].indexOf(typed);
    return [found({ start: at, end: at + typed.length }, typed, last, pieces[0] as MadePiece)];
  });
}

/** More than there are can be none of them; fewer may leave a neck, unless they are told as the shoulder of a front. */
function areOther(told: readonly number[], made: readonly (number | null)[], isShoulder: boolean): boolean {
  return told.some((n, size) => {
    const there = made[size] ?? null;
    return there !== null && (isShoulder ? n !== there : n > there);
  });
}

/** Where the back is named so, its last row is its whole width. */
function sameLast({ name }: MadePiece, { sentence }: PlacedSentence): boolean {
  return /\bback\b/i.test(name) && /\bshoulder/i.test(sentence.text);
}

function lastOf(piece: MadePiece, pattern: WorkedPattern): WorkedRow | null {
  const row = lastRowsOf(piece, pattern).at(-1);
  return row?.result === "ok" && row.outcome ? row : null;
}

function found(span: Span, typed: string, last: WorkedRow, { name }: Pick<MadePiece, "name">): Found {
  const made = last.outcome?.makes ?? [];
  return {
    span,
    message: say`The assembly speaks of ${typed} stitches, and "${name}" ends with ${numbers(made)}. Make the numbers agree.`,
    fixes: [],
    related: [{ span: last.line.span, message: say`${says(rowName(last), "makes")} ${numbers(made)}.` }],
  };
}
