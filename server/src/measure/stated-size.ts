import type { WorkedPattern } from "../fabric/worked";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { Length } from "../notation/front-matter/lengths";
import type { Measurement } from "../notation/front-matter/measurements";
import { convertLength } from "../trade/units";
import { liesPlainly } from "./plain-pieces";
import { type PieceSize, sizeOf } from "./size";
import { yarnUseOf } from "./yarn-used";

/** A length that a pattern states of its one piece, beside what the stitches come to; for one size, in millimetres. */
export interface StatedLength extends Told {
  readonly size: number;
  readonly stated: number;
}

/** What a stated length is of, and what the stitches come to. */
interface Told {
  readonly length: Length;
  readonly what: "across" | "around" | "wide" | "high";
  readonly comesTo: number;
}

/**
 * The finished size that a pattern states, where its stitches tell it too: of one plain piece that is done, at a
 * gauge that is not of blocked work.
 */
export function statedLengths(pattern: WorkedPattern): StatedLength[] {
  const [piece, second] = pattern.pieces;
  const { basis, paths } = yarnUseOf(pattern).ground;
  if (!piece || second || basis?.gauge == null || basis.gauge.line.blocked) return [];
  const measurements = frontMatterOf(pattern.lines).measurements.filter(isFinished);
  const prose = proseOf(pattern);
  if (measurements.length === 0 || !isDone.test(prose) || !liesPlainly(piece, prose)) return [];
  const hasRows = basis.gauge.height !== null;
  return pattern.context.sizes.flatMap((_, size) => {
    const own = sizeOf(piece, size, basis, paths);
    return own ? measurements.flatMap((one) => statedFor(size, toldIn(one, own, hasRows))) : [];
  });
}

function statedFor(size: number, told: readonly Told[]): StatedLength[] {
  return told.flatMap((one) => {
    const { values, unit } = one.length;
    const value = values[values.length === 1 ? 0 : size];
    return value === undefined || value <= 0
      ? []
      : [{ ...one, size, stated: convertLength(value, unit, "mm") }];
  });
}

/** A draft that is not finished has no size yet. */
const isDone = /\b(?:fasten|finish|break|tie|end) off\b|\bf\.?\s?\/?o\b|\bweave\b|\bcut (?:the )?yarn\b/i;

function proseOf({ lines }: WorkedPattern): string {
  return lines
    .filter(({ kind }) => kind !== "row" && kind !== "foundation")
    .map(({ text }) => text)
    .join("\n");
}

function isFinished({ title, content }: Measurement): boolean {
  return title !== null && !/\bfit\b|\bbody\b|\bto fit\b/i.test(`${title.text} ${content.text}`);
}

function toldIn({ title, content, lengths }: Measurement, own: PieceSize, hasRows: boolean): Told[] {
  const said = `${title?.text ?? ""} ${content.text}`;
  const [first, second] = lengths;
  if (!first) return [];
  if (/\bcircumference\b|\baround\b/i.test(said)) return aroundOf(own, first);
  if (/\b(?:across|diameter)\b/i.test(said))
    return own.shape === "disc" && hasRows ? [{ length: first, what: "across", comesTo: own.across }] : [];
  if (
    own.shape !== "flat" ||
    own.narrowest < 0.95 * own.width ||
    !second ||
    second.unit !== first.unit ||
    !hasRows
  )
    return [];
  return /\d\s*(?:cm|in(?:ch(?:es)?)?|")?\s*(?:x|×|by)\s*\d/i.test(content.text)
    ? sides(own, first, second)
    : [];
}

function aroundOf(own: PieceSize, length: Length): Told[] {
  if (own.shape !== "tube" && own.shape !== "cup") return [];
  return [{ length, what: "around", comesTo: own.around }];
}

/** Width by height, or the other way round, as the stitches lie nearer to. */
function sides(own: Extract<PieceSize, { shape: "flat" }>, first: Length, second: Length): Told[] {
  const [a, b] = [first, second].map(({ values: [value = 0], unit }) => convertLength(value, unit, "mm")) as [
    number,
    number,
  ];
  const asTold = Math.abs(Math.log(a / own.width)) + Math.abs(Math.log(b / own.height));
  const turned = Math.abs(Math.log(a / own.height)) + Math.abs(Math.log(b / own.width));
  const [wide, high] = asTold <= turned ? [first, second] : [second, first];
  return [
    { length: wide, what: "wide", comesTo: own.width },
    { length: high, what: "high", comesTo: own.height },
  ];
}
