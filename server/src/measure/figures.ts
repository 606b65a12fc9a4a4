import type { Basis } from "./basis";

/** An estimate with the bounds between which it lies; all equal where the designer measured it. */
export interface Estimate {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** No figure is told to more than these: what is measured by hand is hardly better. */
const figures = { measured: 3, estimated: 2 } as const;

export function figuresOf({ spread }: Pick<Basis, "spread">): number {
  return spread > 0 ? figures.estimated : figures.measured;
}

/** A number to so many significant figures: 47.3 to two is 47. */
export function rounded(n: number, significant: number): number {
  return n === 0 ? 0 : Number(n.toPrecision(significant));
}

/** A length with the spread of its basis, to as many figures as it deserves; bounds are rounded outward. */
export function estimateOf(n: number, basis: Pick<Basis, "spread">): Estimate {
  const { spread } = basis;
  const to = figuresOf(basis);
  const likely = rounded(n, to);
  if (spread === 0) return { low: likely, likely, high: likely };
  return {
    low: outward(n * (1 - spread), to, Math.floor),
    likely,
    high: outward(n * (1 + spread), to, Math.ceil),
  };
}

function outward(n: number, significant: number, round: (n: number) => number): number {
  if (n <= 0) return 0;
  const unit = 10 ** (Math.floor(Math.log10(n)) - significant + 1);
  return rounded(round(n / unit + 1e-9 * (round === Math.floor ? 1 : -1)) * unit, significant + 1);
}

/** `38-57`, or `46` where both bounds are the same. */
export function inWords({ low, high }: Estimate): string {
  return low === high ? printed(low) : `${printed(low)}–${printed(high)}`;
}

/** Thousands in groups, as in print; no more decimals than there are. */
export function printed(n: number): string {
  const [whole = "0", decimals] = String(n).split(".");
  const grouped = whole.replace(/\B(?=(?:\d{3})+$)/g, ",");
  return decimals === undefined ? grouped : `${grouped}.${decimals}`;
}
