import type { Instruction } from "./instructions";
import type { Strip } from "./strip";

/** What a row is worked on. */
export interface Below {
  readonly strip: Strip;
  /** A starting chain not yet worked into: how many chains. */
  readonly chain: number | null;
  /** A ring: any number of stitches go into it. */
  readonly ring: boolean;
  /** Position of a marked stitch. */
  readonly marked: number | null;
  /** Other places that the row names: the ends of other pieces, the free side of the starting chain. */
  readonly elsewhere?: ReadonlyMap<string, Strip>;
  /**
   * Only a count tells what is there: where its spaces are, nobody knows; those that the count has
   * are supposed to lie evenly spread.
   */
  readonly told?: "stitches" | "spaces";
}

/** Row-wide ways to see the places below; the row's own words or its fit decide. */
export interface View {
  /** Whether "st" means stitches, or any place. */
  readonly stMeans: "stitch" | "any";
  /** Whether an oval goes on into its first chain again, or into the one under the chains that opened it. */
  readonly returns: "no" | "first" | "opening";
  readonly slipCounts: boolean;
  /** Slip stitches that open the row move its start and use no place: joined rounds. */
  readonly rotates: boolean;
  /** Behind a chain, the next stitch lies beyond the group whose space was worked into. */
  readonly leavesGroups: boolean;
  /** Stitches that are skipped may be the chains of a space: "sk 2 sts" over an open mesh. */
  readonly skipsChains: boolean;
  /** Only stitches of these kinds are places, as the row names no others; null: all are. */
  readonly kinds: ReadonlySet<string> | null;
}

/** A repeat worked for more passes than are written. */
export interface More {
  readonly of: Instruction;
  readonly passes: number;
}
