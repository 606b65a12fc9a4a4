import type { PatternContext } from "../fabric/context";
import { perPiece } from "../fabric/parts";
import type { WorkedPattern, WorkedPiece, WorkedRow } from "../fabric/worked";
import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import { keptBy } from "../text/kept-by";
import { stitchOf } from "../trade/stitches";
import { type Basis, type BasisRead, readBasis, yarnPerStitch } from "./basis";
import { type StitchCounts, stitchesOf, type TurnCounts } from "./stitch-counts";
import { StitchPaths } from "./stitch-paths";
import { type YarnList, yarnListOf } from "./yarn-list";

/** Millimetres of each yarn that a line takes up by name, one map for each row it asks for in turn. */
export type TurnLengths = readonly ReadonlyMap<string, number>[];

/** `Carry the unused yarn inside the stitches`; what is carried up the side of a piece is no longer than a row is high. */
function saysCarried(sentence: string): boolean {
  const isSaid = /\bcarr(?:y|ied|ying)\b|\bwork(?:ing|ed)?\s+over\s+the\s+(?:unused|other|resting)\b/i.test(
    sentence,
  );
  return isSaid && !/\b(?:not|never|without|sides?|edges?|up)\b|n['’]t\b/i.test(sentence);
}

/** What the front matter settles for all rows; the same object as long as an edit leaves it alone. */
export class Ground implements BasisRead {
  readonly list: YarnList;
  readonly paths: StitchPaths;
  readonly basis: Basis | null;
  readonly problems: BasisRead["problems"];
  private readonly carries: boolean;

  /** Yarns worked as one. */
  get strands(): number {
    return this.basis?.strands ?? 1;
  }

  constructor(front: FrontMatter, context: PatternContext, mainStitch: () => string) {
    this.list = yarnListOf(front);
    this.paths = new StitchPaths(context, front.specialStitches);
    const { basis, problems } = readBasis({ front, context, paths: this.paths, list: this.list, mainStitch });
    [this.basis, this.problems] = [basis, problems];
    this.carries = front.lines.some(({ line }) => line.text.split(/[.;]/).some(saysCarried));
  }

  /** Of a line for each size; none where there is no basis, or nothing tells the stitches. */
  lengthsOf(row: WorkedRow): readonly TurnLengths[] {
    return this.lengthsOfCounts(stitchesOf(row));
  }

  private readonly lengthsOfCounts = keptBy(
    (counts: readonly (TurnCounts | null)[]): readonly TurnLengths[] => {
      const { basis } = this;
      if (basis === null) return [];
      return counts.map((turns) => (turns ?? []).map((turn) => this.lengthsIn(turn, basis)));
    },
  );

  private lengthsIn(turn: TurnCounts[number], basis: Basis): ReadonlyMap<string, number> {
    const all = [...turn.values()].reduce((sum, counts) => sum + stitchesIn(counts), 0);
    const lengths = [...turn].map(([name, counts]): [string, number] => {
      // A yarn that is carried along lies straight behind the stitches of the others.
      const behind = this.carries ? (all - stitchesIn(counts)) * basis.size.width * basis.strands : 0;
      return [name, this.lengthOf(counts, basis) + behind];
    });
    return new Map(lengths);
  }

  private lengthOf(counts: StitchCounts, basis: Basis): number {
    let sum = 0;
    for (const [key, n] of counts) sum += n * yarnPerStitch(this.paths.of(key), basis);
    return sum;
  }
}

function stitchesIn(counts: StitchCounts): number {
  let sum = 0;
  for (const n of counts.values()) sum += n;
  return sum;
}

/** Grounds that no row was asked for, and those for which the rows tell what "sts" are. */
interface Known {
  readonly plain: Ground | null;
  readonly byStitch: Map<string, Ground>;
}

/** By the front matter, and by the stitches that the pattern defines. */
const known = new WeakMap<FrontMatter, WeakMap<PatternContext["definitions"], Known>>();

export function groundOf(pattern: WorkedPattern): Ground {
  const front = frontMatterOf(pattern.lines);
  const { context } = pattern;
  const ofFront = known.get(front) ?? new WeakMap<PatternContext["definitions"], Known>();
  known.set(front, ofFront);
  const before = ofFront.get(context.definitions);
  if (before?.plain) return before.plain;
  let main: string | null = before ? mainStitchOf(pattern) : null;
  const same = main === null ? undefined : before?.byStitch.get(main);
  if (same) return same;
  const ground = new Ground(front, context, () => (main ??= mainStitchOf(pattern)));
  const byStitch = before?.byStitch ?? new Map<string, Ground>();
  if (main !== null) byStitch.set(main, ground);
  ofFront.set(context.definitions, { plain: main === null ? ground : null, byStitch });
  return ground;
}

/** The plain stitch that most stitches of a pattern are, by its US name; a single crochet where there is none. */
function mainStitchOf({ pieces }: WorkedPattern): string {
  const sums = new Map<string, number>();
  for (const piece of pieces)
    for (const [plain, n] of plainStitchesIn(piece))
      sums.set(plain, (sums.get(plain) ?? 0) + n * piece.piece.make);
  const [most] = [...sums].sort((a, b) => b[1] - a[1]);
  return most?.[0] ?? "sc";
}

/** How many stitches of a piece, in its first size, are of each plain stitch or built on it. */
const plainStitchesIn = perPiece(({ rows, context }: WorkedPiece): ReadonlyMap<string, number> => {
  const sums = new Map<string, number>();
  for (const row of rows)
    for (const [key, n] of countsOf(row)) {
      const plain = stitchOf(key.split(/[*<]/)[0] ?? key, context.terms)?.base;
      if (plain) sums.set(plain, (sums.get(plain) ?? 0) + n);
    }
  return sums;
});

/** All that a row counts in its first size. */
function countsOf(row: WorkedRow): [string, number][] {
  return (stitchesOf(row)[0] ?? []).flatMap((turn) => [...turn.values()].flatMap((counts) => [...counts]));
}

/** The keys of all stitches of a row, in every size. */
export function kindsIn(row: WorkedRow): string[] {
  return stitchesOf(row).flatMap((turns) =>
    (turns ?? []).flatMap((turn) => [...turn.values()].flatMap((counts) => [...counts.keys()])),
  );
}
