import type { PatternContext } from "../fabric/context";
import type { WorkedPattern, WorkedRow } from "../fabric/worked";
import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import { keptBy } from "../text/kept-by";
import { type Basis, type BasisRead, readBasis, yarnPerStitch } from "./basis";
import type { RowsTell } from "./gauge";
import { type MainStitch, mainStitchOf, repeatOf } from "./main-stitch";
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

  constructor(front: FrontMatter, context: PatternContext, rows: RowsTell) {
    this.list = yarnListOf(front);
    this.paths = new StitchPaths(context, front.specialStitches);
    const { basis, problems } = readBasis({ front, context, paths: this.paths, list: this.list, rows });
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

/** Grounds that no row was asked for, and those for which the rows tell what a gauge leaves open. */
interface Known {
  readonly plain: Ground | null;
  readonly byAnswer: Map<string, Ground>;
  /** What was asked of the rows. */
  readonly asked: ReadonlySet<keyof RowsTell>;
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
  const rows = new RowsAsked(pattern);
  const same = before?.byAnswer.get(rows.answersTo(before.asked));
  if (same) return same;
  const ground = new Ground(front, context, rows);
  const byAnswer = before?.byAnswer ?? new Map<string, Ground>();
  const asked = new Set([...rows.asked, ...(before?.asked ?? [])]);
  if (asked.size > 0) byAnswer.set(rows.answersTo(asked), ground);
  ofFront.set(context.definitions, { plain: asked.size === 0 ? ground : null, byAnswer, asked });
  return ground;
}

/** What the rows tell, and which of it was asked: only that can make another ground. */
class RowsAsked implements RowsTell {
  readonly asked = new Set<keyof RowsTell>();

  constructor(private readonly pattern: WorkedPattern) {}

  get main(): MainStitch {
    this.asked.add("main");
    return mainStitchOf(this.pattern);
  }

  get repeat(): number | null {
    this.asked.add("repeat");
    return repeatOf(this.pattern);
  }

  answersTo(asked: ReadonlySet<keyof RowsTell>): string {
    return JSON.stringify([asked.has("main") && this.main, asked.has("repeat") && this.repeat]);
  }
}

/** The keys of all stitches of a row, in every size. */
export function kindsIn(row: WorkedRow): string[] {
  return stitchesOf(row).flatMap((turns) =>
    (turns ?? []).flatMap((turn) => [...turn.values()].flatMap((counts) => [...counts.keys()])),
  );
}
