import { centimetres, inches } from "../../measure/lengths";
import { inUnitOf, listedAmount } from "../../measure/listed-amounts";
import { type MeasureOptions, usualOptions } from "../../measure/materials";
import { drawnIn } from "../../measure/plain-pieces";
import { sizeOf } from "../../measure/size";
import { sizeInWords } from "../../measure/size-words";
import { type StatedLength, statedLengths } from "../../measure/stated-size";
import type { ListedYarn } from "../../measure/yarn-list";
import { type YarnUse, yarnUseOf } from "../../measure/yarn-used";
import { frontMatterOf } from "../../notation/front-matter/front-matter";
import { type Length, readLengthPairs } from "../../notation/front-matter/lengths";
import type { Amount } from "../../notation/front-matter/yarns";
import type { WorkedPattern } from "../../rules/rule";
import { inEnglish, say } from "../../text/say";
import { type Span, type TextEdit, withEdits } from "../../text/span";
import { Checker } from "../../workspace/checker";
import { sized } from "../shown/sized";
import type { ActionSource } from "./action";
import { newLine } from "./new-line";

/** The amounts of the yarns, and a finished size where the pattern states none, as its rows and gauge give them. */
export const writeMaterials: ActionSource = ({ worked, prover, measures = usualOptions }, focus) => {
  if (!isOnMaterials(worked, focus)) return [];
  const edits = materialEdits(worked, measures);
  if (edits.length === 0 || !prover.proves(edits, []) || !isReadBack(worked, edits, measures)) return [];
  const title = say`Write the yarn amounts and the finished size by the rows and the gauge`;
  return [{ kind: "rewrite", title, mends: [], preferred: false, edits: () => edits }];
};

/** What is written must be understood: else it would be written again and again. */
function isReadBack(worked: WorkedPattern, edits: readonly TextEdit[], measures: MeasureOptions): boolean {
  const after = new Checker().work(withEdits(worked.text, edits));
  return materialEdits(after.worked, measures).length === 0;
}

const topics: ReadonlySet<string> = new Set(["materials", "yarn", "measurements", "gauge"]);

function isOnMaterials({ lines }: WorkedPattern, { start, end }: Span): boolean {
  return frontMatterOf(lines).lines.some(
    ({ topic, line }) => topics.has(topic) && line.start <= end && line.end >= start,
  );
}

/** The changes that bring the materials and the finished size up to date; none where nothing is to change. */
export function materialEdits(pattern: WorkedPattern, options: MeasureOptions): TextEdit[] {
  const use = yarnUseOf(pattern);
  if (use.ground.basis === null || !use.isWhole) return [];
  return [...yarnEdits(use, pattern, options), ...sizeEdits(use, pattern)];
}

function yarnEdits(use: YarnUse, pattern: WorkedPattern, options: MeasureOptions): TextEdit[] {
  const { yarns } = use.ground.list;
  if (yarns.length === 0)
    return [newLine(pattern, `Yarn: about ${metresInAll(use, options)} m`, underMaterials)];
  return yarns.flatMap((yarn, at) => {
    const needs = needsOf(use, pattern, yarn, at, options);
    return needs.every((n) => n === 0) ? [] : yarnEdit(yarn, needs, use);
  });
}

const underMaterials = [/^\W*(?:materials?|yarns?|what you need|you will need|supplies)\b/i];

function metresInAll(use: YarnUse, options: MeasureOptions): string {
  const spare = 1 + options.marginPercent / 100;
  return sized(
    use.inAll.map((sums) =>
      listedAmount(([...sums.values()].reduce((a, b) => a + b, 0) / 1000) * spare, "m"),
    ),
  );
}

/** Metres of one yarn for each size, with something to spare. */
function needsOf(
  use: YarnUse,
  { pieces, context }: WorkedPattern,
  { perPiece }: ListedYarn,
  at: number,
  { marginPercent }: MeasureOptions,
): number[] {
  const spare = 1 + marginPercent / 100;
  return context.sizes.map((_, size) => {
    const all = use.inAll[size]?.get(at) ?? 0;
    const most = Math.max(0, ...pieces.map((piece) => use.ofPiece(piece)[size]?.get(at) ?? 0));
    return ((perPiece ? most : all) / 1000) * spare;
  });
}

function yarnEdit(yarn: ListedYarn, needs: readonly number[], use: YarnUse): TextEdit[] {
  const [amount] = yarn.amounts;
  if (amount) return amountEdit(amount, yarn, needs, use);
  if (!yarn.yarn) return [];
  const { end } = yarn.yarn;
  const metres = sized(needs.map((n) => listedAmount(n, "m")));
  return [{ span: { start: end, end }, newText: `, about ${metres} m` }];
}

/** Only the figures are written anew: `60 (75, 95, 115)`; an amount that stands for others too is left alone. */
function amountEdit(
  amount: Amount,
  yarn: ListedYarn,
  needs: readonly number[],
  { ground }: YarnUse,
): TextEdit[] {
  const { basis } = ground;
  const isOwn = yarn.yarn !== null && amount.start >= yarn.yarn.start && amount.end <= yarn.yarn.end;
  const values = needs.map((n) => (basis === null ? null : inUnitOf(amount, n, yarn, basis)));
  if (!isOwn || values.some((n) => n === null)) return [];
  const figures = sized(values.map((n) => listedAmount(n ?? 0, amount.unit)));
  const written = /^[\d.,]+(?:\s?[([][^)\]]*[)\]])?/.exec(amount.text)?.[0] ?? "";
  if (written === "" || written === figures) return [];
  return [{ span: { start: amount.start, end: amount.start + written.length }, newText: figures }];
}

const underSize = [/^\W*(?:level|difficulty|skill)\b/i, /^\W*terms?\b/i];

/** A stated size that the stitches do not come to is written anew, figure by figure; one is added where there is none. */
function sizeEdits(use: YarnUse, pattern: WorkedPattern): TextEdit[] {
  const stale = statedLengths(pattern).filter(isStale);
  const lengths = new Set(stale.map(({ length }) => length));
  const refreshed = [...lengths].flatMap((length) => refresh(length, pattern));
  return refreshed.length > 0 ? refreshed : newSize(use, pattern);
}

/** Half a centimetre, or three in a hundred: nearer nobody measures. */
function isStale({ stated, comesTo }: StatedLength): boolean {
  return Math.abs(stated - comesTo) > Math.max(5, 0.03 * comesTo);
}

/** A length with the same one in the other unit beside it: `20 cm (8 in)`. */
function refresh(length: Length, pattern: WorkedPattern): TextEdit[] {
  const all = statedLengths(pattern).filter((one) => one.length.start === length.start);
  const sizes = length.values.length === 1 ? all.slice(0, 1) : all;
  const line = pattern.lines.find(({ start, end }) => start <= length.start && length.end <= end);
  if (!line || sizes.length !== length.values.length) return [];
  const pairs = readLengthPairs({ text: line.text, start: line.start, end: line.end });
  const beside = pairs.find(({ first }) => first.start === length.start)?.second;
  return [length, ...(beside ? [beside] : [])].map(({ numbers, unit }) => ({
    span: { start: numbers.start, end: numbers.end },
    newText: sizedTexts(sizes.map(({ comesTo }) => inUnit(comesTo, unit))),
  }));
}

function inUnit(millimetres: number, unit: Length["unit"]): string {
  return unit === "in" ? inches(millimetres) : centimetres(millimetres);
}

function sizedTexts([first = "", ...rest]: readonly string[]): string {
  return rest.length === 0 ? first : `${first} (${rest.join(", ")})`;
}

/** Only where the pattern states no size at all: its own words are left alone. */
function newSize({ ground: { basis, paths } }: YarnUse, pattern: WorkedPattern): TextEdit[] {
  const [piece, second] = pattern.pieces;
  const isStated = frontMatterOf(pattern.lines).measurements.length > 0;
  if (
    isStated ||
    !piece ||
    second ||
    drawnIn(piece) !== null ||
    basis?.gauge == null ||
    pattern.context.sizes.length > 1
  )
    return [];
  const size = sizeOf(piece, 0, basis, paths);
  return size
    ? [
        newLine(
          pattern,
          inEnglish(() => `Finished size: ${sizeInWords(size)}`),
          underSize,
        ),
      ]
    : [];
}
