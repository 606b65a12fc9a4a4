/* Exact by the international yard and pound agreement of 1959: 1 in = 2.54 cm, 1 yd = 0.9144 m, 1 lb = 453.59237 g. */

export type LengthUnit = "mm" | "cm" | "m" | "in" | "ft" | "yd";
export type WeightUnit = "g" | "kg" | "oz" | "lb";

const centimetres: Readonly<Record<LengthUnit, number>> = {
  mm: 0.1,
  cm: 1,
  m: 100,
  in: 2.54,
  ft: 30.48,
  yd: 91.44,
};

const grams: Readonly<Record<WeightUnit, number>> = { g: 1, kg: 1000, oz: 28.349523125, lb: 453.59237 };

/** A length in another unit, unrounded. */
export function convertLength(value: number, from: LengthUnit, to: LengthUnit): number {
  return (value * centimetres[from]) / centimetres[to];
}

/** A weight in another unit, unrounded. */
export function convertWeight(value: number, from: WeightUnit, to: WeightUnit): number {
  return (value * grams[from]) / grams[to];
}

/** The steps that patterns round to: half a centimetre, a quarter of an inch, whole yards and metres. Common practice, no source. */
const steps: Readonly<Record<LengthUnit, number>> = { mm: 0.25, cm: 0.5, m: 1, in: 0.25, ft: 0.25, yd: 1 };

/** A length as a pattern prints it, rounded to the nearest step of its unit. */
export function printedLength(value: number, unit: LengthUnit): number {
  return Math.round(value / steps[unit]) * steps[unit];
}

/**
 * Whether two printed lengths can be of the same thing: they differ by no more than the rounding
 * of each, as when 10 cm stands beside 4 in.
 */
export function sameLength(a: number, unitA: LengthUnit, b: number, unitB: LengthUnit): boolean {
  const difference = Math.abs(a * centimetres[unitA] - b * centimetres[unitB]);
  const tolerance = steps[unitA] * centimetres[unitA] + steps[unitB] * centimetres[unitB];
  return difference <= tolerance / 2 + 1e-9;
}

/** The length to which a gauge is given, in both systems. Sources: Craft Yarn Council tables ("4 in/10 cm"). */
export const gaugeLength = { cm: 10, in: 4 } as const;

/** Spellings of units, lower case, without stops. Common practice, no source. */
export const unitSpellings: ReadonlyMap<string, LengthUnit | WeightUnit> = new Map(
  (
    [
      ["mm", "mms", "millimetre", "millimetres", "millimeter", "millimeters"],
      ["cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"],
      ["m", "metre", "metres", "meter", "meters", "mtr", "mtrs"],
      ["in", '"', "″", "ins", "inch", "inches"],
      ["ft", "foot", "feet"],
      ["yd", "yds", "yard", "yards"],
      ["g", "gm", "gms", "gr", "gram", "grams", "gramme", "grammes"],
      ["kg", "kilo", "kilos"],
      ["oz", "ozs", "ounce", "ounces"],
      ["lb", "lbs", "pound", "pounds"],
    ] as const
  ).flatMap(([unit, ...spellings]) => [unit, ...spellings].map((spelling) => [spelling, unit] as const)),
);
