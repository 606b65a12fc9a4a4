/** What stands in a row when it is done: a stitch or a chain space; `unit` tells the shell or V-st it belongs to. */
export interface Made {
  readonly sort: "st" | "sp" | "picot" | "loose";
  readonly name: string;
  /** Chains of a space. */
  readonly chains: number;
  readonly unit: string;
  /** The first of its unit, so that units can be counted. */
  readonly lead: boolean;
}

/** Where a stitch goes. `each` works on to the end, but for `reserve` places. */
export type Target =
  | { readonly at: "next"; readonly count: number; readonly sort: "any" | "sp"; readonly end: EndOfRow }
  | { readonly at: "each"; readonly sort: "any" | "sp"; readonly reserve: number }
  /** On to the next space of so many chains, or so many places short of it. */
  | { readonly at: "to-space"; readonly sort: "any"; readonly chains: number; readonly short: number }
  | { readonly at: "same" | "ring" | "skipped" | "aside" | "to-mark" };

/** Whether the words name the first or the last place of the row. */
export type EndOfRow = "first" | "last" | "between";

export type Times =
  | { readonly how: "number"; readonly count: number }
  | { readonly how: "in-all-or-more"; readonly count: number }
  | { readonly how: "to-the-end"; readonly reserve: number }
  /** Until the next place is a space of so many chains. */
  | { readonly how: "to-space"; readonly chains: number };

export type Node =
  | {
      readonly do: "work";
      readonly yields: readonly Made[];
      /** Places that one working takes: two for a decrease. */
      readonly over: number;
      readonly target: Target;
      /** `3sc`: as many places, or all in one. */
      readonly glued: boolean;
      readonly mark: boolean;
    }
  | { readonly do: "chain"; readonly count: number; readonly beginning: boolean }
  /** The first chain worked, counted from the hook; `chain` is the chain made in the same row. */
  | { readonly do: "foundation"; readonly nth: number; readonly chain: number | null }
  | { readonly do: "skip"; readonly target: Target; readonly later: boolean }
  | { readonly do: "in-one"; readonly body: readonly Node[]; readonly target: Target }
  | {
      readonly do: "repeat";
      readonly body: readonly Node[];
      readonly times: Times;
      /** How far the last pass goes, where it stops early. */
      readonly tail: readonly Node[] | null;
      /** The last of the passes leaves its last chain out. */
      readonly omits?: boolean;
      /** What takes the place of the end of the last pass. */
      readonly ending?: readonly Node[] | null;
    }
  /** `sc in each dc and 3 sc in each sp`: what a place gets, its sort decides. */
  | { readonly do: "side-by-side"; readonly stitches: readonly Made[]; readonly spaces: readonly Made[] }
  | { readonly do: "whole-row-again"; readonly reserve: number }
  | { readonly do: "other-side" }
  | { readonly do: "close-with-loop" };

export function stitch(name: string): Made {
  return { sort: "st", name, chains: 0, unit: "", lead: false };
}

export function space(chains: number): Made {
  return { sort: "sp", name: "", chains, unit: "", lead: false };
}

/** The same stitches as one shell, V-st or whatever the unit is called. */
export function asUnit(unit: string, made: readonly Made[]): readonly Made[] {
  return made.map((one, index) => ({ ...one, unit, lead: index === 0 }));
}
