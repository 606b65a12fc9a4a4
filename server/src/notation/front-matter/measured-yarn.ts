import { stitchSpellings } from "../../trade/stitch-spellings";
import {
  convertLength,
  convertWeight,
  type LengthUnit,
  unitSpellings,
  type WeightUnit,
} from "../../trade/units";
import { numberOf } from "./lengths";
import type { FrontLine } from "./sections";
import type { Stretch } from "./stretch";

/** `sc: 4.6 cm`, `20 sc unravelled: 92 cm`: the designer's own measure of a stitch. */
export interface MeasuredYarn extends Stretch {
  /** The stitch, spelled as in the vocabulary. */
  readonly word: string;
  /** In one stitch; as written, even where that cannot be. */
  readonly millimetres: number;
}

/** `Swatch: 20 sc x 20 rows, 9 g`: weighed, or unravelled and measured. */
export interface WeighedSwatch extends Stretch {
  /** Null where the stitch is not named. */
  readonly word: string | null;
  readonly stitches: number;
  readonly grams: number | null;
  readonly metres: number | null;
}

const figure = String.raw`(\d{1,5}(?:[.,]\d{1,3})?(?:[ -]?(?:[¼½¾]|\d\/\d))?)`;
const unit = String.raw`(mm|cm|centimet(?:re|er)s?|m\b|met(?:re|er)s?|in(?:ches|ch|s)?\b\.?|yds?\b|yards?|ft\b|feet|["″”])`;
const told = new RegExp(
  String.raw`(?<![\d.,/])(?:${figure}\s*)?((?:\p{L}[\p{L}.-]*\s+){0,3}?\p{L}[\p{L}.-]*?)s?\s*(?:\(?(?:unravel(?:l?ed|s)|unpicked|ripped(?: out)?|frogged|pulled out)\)?\s*(?:[:=–-]|is|to|gives?|makes?)?|[:=–]|\s-+\s|uses?|takes?|needs?|is|are|\s)\s*(?:about\s+|approx\.?\s+)?${figure}\s?${unit}`,
  "giu",
);

/** Lines that speak of yarn, not of size. */
const ofYarn = /\b(?:unravel|unpick|ripped|frogged|pulled out|yarn per st|per stitch|of yarn|uses?|takes?)/i;

/** The stitches whose yarn the designer measured. */
export function readMeasuredYarn(lines: readonly FrontLine[]): MeasuredYarn[] {
  return lines.flatMap(({ topic, line, title }) => {
    const speaks = ofYarn.test(line.text) || /yarn|stitch/i.test(title?.text ?? "");
    const isBare =
      /^\W*(?:1\s+)?\p{L}[\p{L} .-]{0,30}\s*[:=]\s*[\d.,]+\s?(?:mm|cm|in(?:ch(?:es)?)?\b|["″”])\W*$/iu.test(
        line.text,
      );
    const mayTell = topic !== "gauge" && topic !== "measurements" && topic !== "sizes" && (speaks || isBare);
    return mayTell && line.text.length < longestLine ? measuresIn(line) : [];
  });
}

const longestLine = 2_000;

function measuresIn(line: Stretch): MeasuredYarn[] {
  return [...line.text.matchAll(told)].flatMap(([all, n, name = "", length = "", unit = ""], i, every) => {
    const word = stitchNamed(name);
    const many = n === undefined ? 1 : numberOf(n);
    const each = (numberOf(length) * convertLength(1, lengthUnit(unit), "mm")) / many;
    if (word === null || !Number.isFinite(each)) return [];
    const at = every[i]?.index ?? 0;
    return [
      { text: all, start: line.start + at, end: line.start + at + all.length, word, millimetres: each },
    ];
  });
}

/** `Yarn per stitch: sc`: the stitch is the end of the words before the sign. */
function stitchNamed(name: string): string | null {
  const words = name.toLowerCase().split(/\s+/);
  for (let from = 0; from < words.length; from++) {
    const tail = words.slice(from).join(" ");
    const word = stitchSpellings.get(tail) ?? stitchSpellings.get(tail.replace(/e?s$/, ""));
    if (word !== undefined) return word;
  }
  return null;
}

function lengthUnit(spelling: string): LengthUnit {
  const found = unitSpellings.get(spelling.toLowerCase().replace(/\.$/, "").replace("”", '"'));
  return (found as LengthUnit | undefined) ?? "cm";
}

const counts = new RegExp(
  String.raw`${figure}\s*(\p{L}[\p{L}.-]*(?:\s+\p{L}[\p{L}.-]*){0,2}?)\s*(?:x|×|by|and|,|wide)\s*${figure}\s*(?:rows?|rnds?|rounds?)`,
  "iu",
);
const all = new RegExp(
  String.raw`${figure}\s*(\p{L}[\p{L}.-]*(?:\s+\p{L}[\p{L}.-]*){0,2}?)(?=[\s,:=(]|$)`,
  "iu",
);
const weight = new RegExp(String.raw`${figure}\s?(g|gr|gms?|grams?|grammes?|oz|ounces?)(?![\p{L}\d])`, "iu");
const length = new RegExp(String.raw`${figure}\s?(m|met(?:re|er)s?|yds?|yards?)(?![\p{L}\d])`, "iu");

/** Swatches with their stitches and what they weigh or hold. */
export function readSwatches(lines: readonly FrontLine[]): WeighedSwatch[] {
  return lines.flatMap(({ line }) => {
    const { text } = line;
    if (!/\bswatch\b/i.test(text) || text.length > longestLine) return [];
    const [, n, name, rows] = counts.exec(text) ?? [];
    const [, alone, ofWhat] = n === undefined ? (all.exec(text) ?? []) : [];
    const stitches = n === undefined ? numberOf(alone ?? "0") : numberOf(n) * numberOf(rows ?? "0");
    const said = name ?? ofWhat ?? "";
    const word = stitchNamed(said);
    const isCounted = word !== null || /^(?:sts?|stitch(?:es)?)$/i.test(said);
    const [, grams, weightUnit] = weight.exec(text) ?? [];
    const [, metres, unit] = length.exec(text) ?? [];
    if (!isCounted || stitches <= 0 || (grams === undefined && metres === undefined)) return [];
    return [
      {
        ...line,
        word,
        stitches,
        grams:
          grams === undefined ? null : numberOf(grams) * convertWeight(1, weightIn(weightUnit ?? "g"), "g"),
        metres:
          metres === undefined ? null : numberOf(metres) * convertLength(1, lengthUnit(unit ?? "m"), "m"),
      },
    ];
  });
}

function weightIn(spelling: string): WeightUnit {
  return (unitSpellings.get(spelling.toLowerCase()) as WeightUnit | undefined) ?? "g";
}
