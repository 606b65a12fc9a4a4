import {
  convertLength,
  convertWeight,
  type LengthUnit,
  unitSpellings,
  type WeightUnit,
} from "../../trade/units";
import { numberOf } from "./lengths";
import { type Stretch, stretchAt } from "./stretch";

/** What the band of a ball says: so many metres weigh so many grams. */
export interface Label extends Stretch {
  readonly grams: number;
  readonly metres: number;
}

const figure = String.raw`(\d{1,5}(?:[.,]\d{1,2})?)`;
const grams = String.raw`${figure}\s?(g|gr|gms?|grams?|grammes?|kg|oz|ounces?|lbs?)(?![\p{L}\d])`;
const metres = String.raw`${figure}\s?(m|met(?:re|er)s?|mtrs?|yds?|yards?)(?![\p{L}\d])`;
const between = String.raw`[\s/=,;:([|–-]*(?:(?:per|to the|to|in|balls?|skeins?|approx\.?|about|ca?\.?|of|each|is|are)\s*){0,3}[\s([/]*`;
const forms = [`${grams}${between}${metres}`, `${metres}${between}${grams}`].map(
  (form) => new RegExp(String.raw`(?<![\d.,])${form}`, "iu"),
);

const longestLine = 2_000;

/** `50 g / 125 m`, `(100 g = 295 m)`, `198 g/364 yd`, `146 yd (250 g)`: a weight and a length beside each other. */
export function readLabel({ text, start }: Stretch): Label | null {
  if (text.length > longestLine) return null;
  for (const form of forms) {
    const match = form.exec(text);
    if (!match) continue;
    const [all, first = "", unit = "", second = "", other = ""] = match;
    const values = [measured(first, unit), measured(second, other)];
    const [weight, length] = [values.find(({ g }) => g)?.g ?? 0, values.find(({ m }) => m)?.m ?? 0];
    if (weight > 0 && length > 0)
      return { ...stretchAt(all, start + match.index), grams: weight, metres: length };
  }
  return null;
}

function measured(value: string, spelling: string): { readonly g?: number; readonly m?: number } {
  const unit = unitSpellings.get(spelling.toLowerCase());
  if (unit === "m" || unit === "yd") return { m: convertLength(numberOf(value), unit as LengthUnit, "m") };
  return { g: convertWeight(numberOf(value), (unit ?? "g") as WeightUnit, "g") };
}
