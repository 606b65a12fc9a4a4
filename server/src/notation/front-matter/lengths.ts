import { type LengthUnit, unitSpellings } from "../../trade/units";
import { type Stretch, stretchAt } from "./stretch";

/** A length, or one for each size, as it is printed: `12 cm`, `3½"`, `40 (46, 51) cm`. */
export interface Length extends Stretch {
  /** One number, one a size, or the two ends of a range. */
  readonly values: readonly number[];
  readonly unit: LengthUnit;
  /** The smallest part that is printed: 1 for whole numbers, 0.5, 0.25… */
  readonly step: number;
  /** The numbers without the unit. */
  readonly numbers: Stretch;
}

const fraction = String.raw`(?:[¼½¾⅓⅔⅛⅜⅝⅞]|\d{1,2}/\d{1,2})`;
const value = String.raw`(?:\d{1,5}(?:[.,]\d{1,3})?(?:[ -]?${fraction})?|${fraction})`;
const list = String.raw`${value}(?:\s?(?:-|–|to)\s?${value}|\s?[([{]\s?${value}(?:\s?[,:;–-]\s?${value}){0,15}\s?[)\]}])?`;
const unit = String.raw`(?:cms?\b|mms?\b|centimet(?:re|er)s?\b|millimet(?:re|er)s?\b|inch(?:es)?\b|ins?\b|["″”]|'')`;
const one = new RegExp(
  String.raw`(?<![\d./])(${list})(?:\s?-?\s?(${unit})|(?=\s?(?:x|×|by)\s?${list}\s?-?\s?(${unit})))`,
  "giu",
);

/** Every length of a line that has a unit, in order; in `36 x 40 inches` both. */
export function readLengths({ text, start }: Stretch): Length[] {
  if (!/\d|[¼½¾]/.test(text) || text.length > 5_000) return [];
  return [...text.matchAll(one)].flatMap((match) => {
    const spelling = match[2] ?? match[3] ?? "";
    const unitOf = unitSpellings.get(spelling.toLowerCase().replace(/''|”/, '"'));
    if (!isLength(unitOf)) return [];
    const numbers = stretchAt(match[1] as string, start + match.index);
    const printed = numbers.text.match(new RegExp(value, "giu")) ?? [];
    const values = printed.map(numberOf);
    return [
      {
        ...stretchAt(match[0], start + match.index),
        values,
        unit: unitOf,
        step: Math.min(...printed.map(stepOf)),
        numbers,
      },
    ];
  });
}

function isLength(name: string | undefined): name is LengthUnit {
  return name === "cm" || name === "mm" || name === "in";
}

const fractions: Readonly<Record<string, number>> = {
  "¼": 1 / 4,
  "½": 1 / 2,
  "¾": 3 / 4,
  "⅓": 1 / 3,
  "⅔": 2 / 3,
  "⅛": 1 / 8,
  "⅜": 3 / 8,
  "⅝": 5 / 8,
  "⅞": 7 / 8,
};

/** `3 1/2`, `3½`, `3.5` and `3,5` are the same. */
export function numberOf(printed: string): number {
  const [, whole, above, below, sign] =
    /^(\d+(?:[.,]\d+)?(?![\d/]))?[ -]?(?:(\d+)\/(\d+)|([^\d\s.,-]))?$/u.exec(printed.trim()) ?? [];
  const part =
    sign === undefined ? (above === undefined ? 0 : Number(above) / Number(below)) : (fractions[sign] ?? 0);
  return Number((whole ?? "0").replace(",", ".")) + part;
}

function stepOf(printed: string): number {
  const below = /\/(\d+)/.exec(printed)?.[1];
  if (below !== undefined) return 1 / Math.max(1, Number(below));
  const sign = /[¼½¾⅓⅔⅛⅜⅝⅞]/u.exec(printed)?.[0];
  if (sign !== undefined)
    return "½" === sign ? 1 / 2 : "¼¾".includes(sign) ? 1 / 4 : "⅓⅔".includes(sign) ? 1 / 3 : 1 / 8;
  const decimals = /[.,](\d+)/.exec(printed)?.[1];
  if (decimals === undefined) return 1;
  return decimals === "5" ? 1 / 2 : 10 ** -decimals.length;
}

/** The same length printed in centimetres and in inches, one beside the other. */
export interface LengthPair {
  readonly first: Length;
  readonly second: Length;
}

const metric = new Set<LengthUnit>(["cm", "mm"]);

/** `14 cm (5 1/2")`, `4"/10 cm`, `22 cm x 11 cm (8 3/4" x 4 1/4")`. */
export function readLengthPairs(line: Stretch): LengthPair[] {
  if (!/cm|centim/i.test(line.text)) return [];
  const groups = groupsOf(line, readLengths(line));
  return groups.slice(1).flatMap((second, i) => {
    const first = groups[i] as readonly Length[];
    return areBeside(line, first, second)
      ? first.flatMap((length, k) => pairOf(length, second[k] as Length))
      : [];
  });
}

function pairOf(first: Length, second: Length): LengthPair[] {
  const comparable =
    first.values.length === second.values.length && first.unit !== "mm" && second.unit !== "mm";
  return comparable ? [{ first, second }] : [];
}

/** Lengths that are multiplied, `22 cm x 11 cm`, belong together. */
function groupsOf(line: Stretch, lengths: readonly Length[]): Length[][] {
  const groups: Length[][] = [];
  for (const length of lengths) {
    const last = groups.at(-1)?.at(-1);
    const between = last ? line.text.slice(last.end - line.start, length.start - line.start) : "";
    if (last && last.unit === length.unit && belongTogether.test(between)) groups.at(-1)?.push(length);
    else groups.push([length]);
  }
  return groups;
}

/** `22 cm x 11 cm`, `22 cm wide and 160 cm long`, `8 in wide, 63 in long`. */
const belongTogether =
  /^\s*(?:x|×|by|(?:wide|across|deep|around|round|in\s+width)\s*(?:x|×|by|and|,|,\s*and)|(?:long|high|tall|deep|in\s+length)\s*(?:x|×|by|and|,|,\s*and))\s*$/i;

function areBeside(line: Stretch, first: readonly Length[], second: readonly Length[]): boolean {
  const [end, start] = [first.at(-1)?.end ?? 0, second[0]?.start ?? 0];
  const between = line.text.slice(end - line.start, start - line.start);
  const otherSystem = metric.has(first[0]?.unit ?? "cm") !== metric.has(second[0]?.unit ?? "cm");
  return (
    otherSystem &&
    first.length === second.length &&
    /^\.?(?:\s+(?:wide|across|long|high|tall|deep|square|around|round|thick)(?:\s+(?:\w+ed|flat|unstretched))?)?\s*[([/;]\s*(?:(?:about|approx\.?)\s*)?$/i.test(
      between,
    )
  );
}
