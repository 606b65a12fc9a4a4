import { isStepLoop, type Steps } from "../fabric/steps";
import type { WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import { isTold, keyOfStitch, stitchesOf } from "./stitch-counts";
import type { StitchPaths } from "./stitch-paths";

/** One row or more that are alike, as they lie in the fabric; lengths in widths of a stitch. */
export interface RowShape {
  /** How wide it lies: around, for a round. */
  readonly width: number;
  /** Height of one row; widths of a stitch at the usual proportions, so that the rise of the gauge scales it. */
  readonly height: number;
  readonly rows: number;
  /** Stitches and chains laid end to end; more than the width where chains hang in arches. */
  readonly run: number;
  /** Chain spaces of the row. */
  readonly spaces: number;
  /** Chains of the longest space. */
  readonly longest: number;
  /** Spaces longer than the others: four in a square, one in the middle of a shawl; 0 where all are alike or there are none. */
  readonly corners: number;
  /** Slits for handles, arms or thumbs: a few long chains over as many skipped stitches. */
  readonly openings: { readonly n: number; readonly chains: number } | null;
}

/** What the steps of one row come to. */
interface Sums {
  stitches: number;
  /** Heights of all stitches together. */
  heights: number;
  chains: number;
  spaces: number;
  skipped: number;
  readonly lengths: Map<number, number>;
}

/** The rows of a line in order, for one size; null where they are not known. Of an open range, one pass of its rows. */
export function shapesOf(
  row: WorkedRow,
  size: number,
  below: RowShape | null,
  paths: StitchPaths,
): RowShape[] | null {
  const { outcome, result, line } = row;
  if (!outcome || result === "unchecked") return isTold(row) ? toldShape(row, size, paths) : null;
  if (line.sizes && !line.sizes.includes(size)) return [];
  if (outcome.worked.length === 0) return null;
  const shapes: RowShape[] = [];
  for (const { steps, times, before } of outcome.worked) {
    const own = steps[size] ?? [];
    if (own.length === 0) continue;
    const last = shapes.at(-1) ?? below;
    const first = shapeOf(own, last, times, paths);
    shapes.push(...(before === null ? [first] : growing(first, shapeOf(before[size] ?? [], last, 1, paths))));
  }
  return shapes;
}

/** As wide as the count that a row states, where nothing else of it is known. */
function toldShape(row: WorkedRow, size: number, paths: StitchPaths): RowShape[] {
  return (stitchesOf(row)[size] ?? []).flatMap((turn) =>
    [...turn.values()].map((counts) => {
      const all = [...counts];
      const run = all.reduce((sum, [, n]) => sum + n, 0);
      const height = Math.max(0, ...all.map(([kind]) => paths.of(kind).path.height));
      return { width: run, height, rows: 1, run, spaces: 0, longest: 0, corners: 0, openings: null };
    }),
  );
}

/** Rows that change evenly: their mean, then the last. */
function growing(now: RowShape, before: RowShape): RowShape[] {
  const by = now.width - before.width;
  const mean = { ...now, width: now.width + (by * now.rows) / 2, rows: now.rows - 1 };
  return [mean, { ...now, width: now.width + by * now.rows, rows: 1 }];
}

function shapeOf(
  steps: readonly Steps[],
  below: RowShape | null,
  rows: number,
  paths: StitchPaths,
): RowShape {
  const sums: Sums = { stitches: 0, heights: 0, chains: 0, spaces: 0, skipped: 0, lengths: new Map() };
  addTo(sums, steps, 1, paths);
  const { stitches, heights, spaces, lengths } = sums;
  const longest = Math.max(0, ...lengths.keys());
  return {
    width: widthOf(sums, below),
    height: Math.max(stitches > 0 ? heights / stitches : 0, archOf(sums)),
    rows,
    run: sums.stitches + sums.chains,
    spaces,
    longest,
    corners: stitches > 0 ? (lengths.get(longest) ?? 0) : 0,
    openings: openingsIn(sums, longest),
  };
}

/** Longer chains pull together or hang in arches. */
export const longestFlatChain = 3;

/**
 * Chains bridge what is skipped; longer ones hang in arches. As many arches as below lie over those, and wider
 * by as much as they are longer.
 */
function widthOf({ stitches, chains, spaces, skipped }: Sums, below: RowShape | null): number {
  const isNet = spaces > 0 && chains > longestFlatChain * spaces;
  if (isNet && below !== null && spaces === below.spaces && below.longest > longestFlatChain)
    return Math.max(stitches, (below.width * (stitches + chains)) / below.run);
  return stitches + (skipped > 0 ? Math.min(chains, skipped) : chains);
}

/** More of them are lace. */
const openingsAtMost = 4;

function openingsIn({ stitches, spaces, skipped, lengths }: Sums, longest: number): RowShape["openings"] {
  const n = lengths.get(longest) ?? 0;
  const isSlit = longest > longestFlatChain && n === spaces && n <= openingsAtMost && skipped > 2 * n;
  return isSlit && stitches > 2 * n ? { n, chains: longest } : null;
}

/** How high chains rise over the gap they bridge: two straight sides. */
function archOf({ chains, spaces, skipped }: Sums): number {
  if (spaces === 0 || chains <= 2 * spaces) return 0;
  const side = chains / spaces / 2;
  const gap = (skipped / spaces + 1) / 2;
  return side > gap ? Math.sqrt(side * side - gap * gap) : 0;
}

function addTo(sums: Sums, steps: readonly Steps[], times: number, paths: StitchPaths): void {
  for (const step of steps) {
    if (isStepLoop(step)) {
      addTo(sums, step.steps, times * step.times, paths);
      continue;
    }
    const n = step.n * times;
    if (step.kind === "skip") sums.skipped += n;
    if (step.sort === "stitch") {
      sums.stitches += n;
      sums.heights += n * paths.of(keyOfStitch(step)).path.height;
    }
    if (step.sort !== "space") continue;
    const chains = step.chains ?? 1;
    sums.spaces += n;
    sums.chains += n * chains;
    sums.lengths.set(chains, (sums.lengths.get(chains) ?? 0) + n);
  }
}

/** Whether a piece is worked around rather than back and forth. */
export const isInRounds: (rows: readonly WorkedRow[]) => boolean = keptBy((rows) => {
  const turns = rows.some(({ line }) => line.plan?.turns ?? false);
  return (
    rows.some(({ line }) => line.head?.word === "round") ||
    (!turns && rows.some(({ line }) => line.goesRound))
  );
});

/** Whether the first round stands on a ring, so that its middle is closed. */
export function startsInMiddle(rows: readonly WorkedRow[]): boolean {
  const first = rows.find(({ line }) => line.kind !== "foundation");
  return first?.outcome?.needs.every((n) => n === null) ?? false;
}
