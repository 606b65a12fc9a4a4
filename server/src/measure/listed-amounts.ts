import type { Amount } from "../notation/front-matter/yarns";
import { convertLength, convertWeight } from "../trade/units";
import { usualMetres } from "../trade/yarn-weights";
import type { Basis } from "./basis";
import type { ListedYarn } from "./yarn-list";

/** How many metres a listed amount may be: by the label, or as few and as many as such a yarn may have. */
export interface MetresListed {
  readonly least: number;
  readonly most: number;
}

/** What the list gives of a yarn for one size; null where it says nothing, or nothing tells how long that is. */
export function metresListed(yarn: ListedYarn, size: number, basis: Basis): MetresListed | null {
  const all = yarn.amounts.map((amount) => metresOf(amount, size, yarn, basis));
  // Of several amounts one tells the same in another unit: 100 g, 240 m.
  const told = all.find((one) => one !== null) ?? null;
  const balls = yarn.amounts.findIndex(({ unit }) => unit === "ball");
  // `3 balls (50 g)` may be 50 g in all, or each.
  const many = told && all[balls] === null ? (valueFor(yarn.amounts[balls] as Amount, size) ?? 1) : 1;
  return told && { least: told.least, most: told.most * Math.max(many, 1) };
}

/** The number of an amount for one size; a single number holds for all. */
export function valueFor({ values }: Amount, size: number): number | null {
  return (values.length === 1 ? values[0] : values[size]) ?? null;
}

function metresOf(amount: Amount, size: number, yarn: ListedYarn, basis: Basis): MetresListed | null {
  const value = valueFor(amount, size);
  if (value === null) return null;
  const { unit } = amount;
  if (unit === "m" || unit === "yd") {
    const metres = convertLength(value, unit, "m");
    return { least: metres, most: metres };
  }
  const { label } = yarn;
  const { ballGrams } = amount;
  if (unit === "ball" && label) return exactly(value * label.metres);
  if (unit === "ball" && ballGrams === null) return null;
  const grams = unit === "ball" ? value * (ballGrams ?? 0) : convertWeight(value, unit, "g");
  const per100 = label ? exactly((label.metres * 100) / label.grams) : usualPer100(basis);
  return per100 && { least: (grams * per100.least) / 100, most: (grams * per100.most) / 100 };
}

function exactly(n: number): MetresListed {
  return { least: n, most: n };
}

/** Metres of 100 g by the yarn weight that is named. */
export function usualPer100({ weight }: Pick<Basis, "weight">): MetresListed | null {
  const usual = weight && usualMetres(weight);
  return usual && { least: usual.min, most: usual.max };
}

/** An amount of yarn in the unit of a list; null where nothing tells how much that is. */
export function inUnitOf(amount: Amount, metres: number, yarn: ListedYarn, basis: Basis): number | null {
  const { unit } = amount;
  if (unit === "m" || unit === "yd") return convertLength(metres, "m", unit);
  if (unit === "ball" && yarn.label) return metres / yarn.label.metres;
  const usual = usualPer100(basis);
  const per100 = yarn.label
    ? (yarn.label.metres * 100) / yarn.label.grams
    : usual && (usual.least + usual.most) / 2;
  if (!per100) return null;
  const grams = (metres * 100) / per100;
  if (unit === "ball") return amount.ballGrams && grams / amount.ballGrams;
  return convertWeight(grams, "g", unit);
}

/** Amounts are printed in steps: 5 g, 5 m, whole balls. Common practice, no source. */
const steps: Readonly<Record<Amount["unit"], number>> = {
  g: 5,
  kg: 0.1,
  oz: 0.25,
  lb: 0.1,
  m: 5,
  yd: 5,
  ball: 1,
};

/** An amount as a list prints it, rounded up. */
export function listedAmount(value: number, unit: Amount["unit"]): number {
  const step = steps[unit];
  return Number((Math.ceil(value / step - 1e-9) * step).toFixed(2));
}
