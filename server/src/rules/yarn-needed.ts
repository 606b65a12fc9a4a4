import { copyOf } from "../fabric/copies";
import { inPieces } from "../fabric/parts";
import type { Basis } from "../measure/basis";
import { estimateOf, inWords } from "../measure/figures";
import { inUnitOf, listedAmount, type MetresListed, metresListed, valueFor } from "../measure/listed-amounts";
import type { ListedYarn } from "../measure/yarn-list";
import { type YarnUse, yarnUseOf } from "../measure/yarn-used";
import type { Amount } from "../notation/front-matter/yarns";
import { say } from "../text/say";
import type { Span, TextEdit } from "../text/span";
import type { Fix, WorkedPattern } from "./rule";
import { sizeName } from "./wording";

/** A yarn of the list beside what the rows take of it, in metres, for one size. */
export interface YarnNeed {
  readonly yarn: ListedYarn;
  readonly amount: Amount;
  readonly size: number;
  readonly basis: Basis;
  /** Without anything to spare. */
  readonly needs: number;
  readonly has: MetresListed;
  /** Rows that nobody knows the stitches of are not in it. */
  readonly isWhole: boolean;
}

/** Every listed yarn with an amount and a use, size by size. */
export function yarnNeeds(pattern: WorkedPattern): YarnNeed[] {
  const use = yarnUseOf(pattern);
  const { basis, list } = use.ground;
  if (basis === null || !list.yarns.some(({ amounts }) => amounts.length > 0)) return [];
  if (list.yarns.length > 1 && copyingAnother(pattern).length > 0) return [];
  const { isWhole } = use;
  return pattern.context.sizes.flatMap((_, size) =>
    list.yarns.flatMap((yarn, at) => {
      const has = metresListed(yarn, size, basis);
      const [amount] = yarn.amounts;
      if (!has || !amount) return [];
      return [
        { yarn, amount, size, basis, needs: needsOf(use, pattern, yarn, at, size) / 1000, has, isWhole },
      ];
    }),
  );
}

/** `Work as Rnds 1-3 of the first hexagon`: which yarn its rows are in is told over there. */
const copyingAnother = inPieces(({ rows }) =>
  rows.filter(({ line }) => {
    const copy = copyOf(line.content);
    return copy?.how === "rows" && copy.of !== null;
  }),
);

function needsOf(
  use: YarnUse,
  { pieces }: WorkedPattern,
  { perPiece }: ListedYarn,
  at: number,
  size: number,
): number {
  if (!perPiece) return use.inAll[size]?.get(at) ?? 0;
  return Math.max(0, ...pieces.map((piece) => use.ofPiece(piece)[size]?.get(at) ?? 0));
}

/** ` for size L`; nothing where a pattern has one size. */
export function forSize({ size }: YarnNeed, { pieces: [piece], context }: WorkedPattern): string {
  if (context.sizes.length < 2) return "";
  return say` for ${piece ? sizeName(size, piece) : say`size ${size + 1}`}`;
}

/** An amount of the list as a query: what it is, what the rows take, and what would do. */
export interface AmountQuery {
  /** `The materials list 50 g of teal`. */
  readonly listed: string;
  /** `the rows take about 170–260 m`. */
  readonly taken: string;
  /** What it was worked out by. */
  readonly by: string;
  /** `140 g`; null where nothing tells how much is in a ball. */
  readonly enough: string | null;
  readonly span: Span;
  readonly fixes: readonly Fix[];
}

/** Asks about a listed amount, with so much to spare. */
export function queryOn(need: YarnNeed, spare: number): AmountQuery {
  const { amount, yarn, basis, needs } = need;
  const value = inUnitOf(amount, needs * spare, yarn, basis);
  const enough = value === null ? null : listedAmount(value, amount.unit);
  return {
    listed:
      yarn.name === ""
        ? say`The materials list ${listedInWords(need)}`
        : say`The materials list ${listedInWords(need)} of ${yarn.name}`,
    taken: say`the rows take about ${inWords(estimateOf(needs, basis))} m`,
    by: say`This is by ${basis.says}.`,
    enough: enough === null ? null : inUnit(need, enough),
    span: { start: amount.start, end: amount.end },
    fixes:
      enough === null
        ? []
        : [{ title: say`List ${inUnit(need, enough)}`, edits: () => withAmount(need, enough) }],
  };
}

/** `40 g`, `2 balls`: an amount with the unit as the list spells it. */
function inUnit({ amount }: YarnNeed, value: number): string {
  const unit = amount.text.replace(/^[\d.,\s()[\]:;–-]+/, "");
  return `${value} ${value === 1 ? unit.replace(/(ball|skein|hank|cone)s$/, "$1") : unit}`;
}

/** Changes the number of an amount for one size; the others stay. */
function withAmount(need: YarnNeed, value: number): TextEdit[] {
  const { amount, size } = need;
  const { start: from, end } = amount;
  if (amount.values.length === 1) return [{ span: { start: from, end }, newText: inUnit(need, value) }];
  const figures = [...amount.text.matchAll(/\d+(?:[.,]\d+)?/g)];
  const figure = figures[size];
  if (!figure) return [];
  const start = amount.start + figure.index;
  return [{ span: { start, end: start + figure[0].length }, newText: String(value) }];
}

/** What the list says for the size, as it is written. */
function listedInWords(need: YarnNeed): string {
  return inUnit(need, valueFor(need.amount, need.size) ?? 0);
}
