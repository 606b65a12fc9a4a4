import type { WorkedPiece } from "../fabric/worked";
import { type Curvature, curvatureOf } from "../measure/curvature";
import { yarnUseOf } from "../measure/yarn-used";
import { say } from "../text/say";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { rowName } from "./wording";

/** Rounds that grow from a ring and have too few or too many stitches to lie flat. */
export const doesNotLieFlat: PatternRule = {
  id: "does-not-lie-flat",
  severity: "information",
  startsOff: true,
  documentation: `## What it finds
Rounds worked from a ring that grow evenly and cup or ruffle at the stated gauge, with the count that would lie flat. Not where sides or frills are plainly meant: rounds that stop growing, or that double again and again.

## Why it matters
A coaster that cups or a mat that ruffles is the commonest disappointment with work in the round. Tension and blocking forgive a fifth.

## Example
\`\`\`crochet
Terms: US

Gauge: 13 dc and 8 rounds = 10 cm

Rnd 1: 6 dc in magic ring (6)
Rnd 2: 2 dc in each st around (12)
Rnd 3: *dc in next st, 2 dc in next st; rep from * around (18)
Rnd 4: *dc in next 2 sts, 2 dc in next st; rep from * around (24)
Fasten off.
\`\`\`

## Mended
\`\`\`crochet
Terms: US

Gauge: 13 dc and 8 rounds = 10 cm

Rnd 1: 10 dc in magic ring (10)
Rnd 2: 2 dc in each st around (20)
Rnd 3: *dc in next st, 2 dc in next st; rep from * around (30)
Rnd 4: *dc in next 2 sts, 2 dc in next st; rep from * around (40)
Fasten off.
\`\`\`
`,
  check(pattern) {
    return pattern.pieces.flatMap((piece) => foundIn(piece, pattern));
  },
};

/** What these are called they are meant to be. */
const meant =
  /\b(?:ruffle|frill|petal|flower|rose|bowl|cup|cap|hat|bell|ball|cone|skirt|leaf|shell|hyperbolic|coral)/i;

function foundIn(piece: WorkedPiece, pattern: WorkedPattern): Found[] {
  const { basis, paths } = yarnUseOf(pattern).ground;
  if (basis?.gauge == null || meant.test(`${piece.piece.name} ${pattern.lines[0]?.text ?? ""}`)) return [];
  const lies = curvatureOf(piece, 0, basis, paths) ?? [];
  const growing = lies.slice(0, growsFor(lies));
  const last = growing.at(-1);
  if (roundsIn(lies.slice(growing.length)) >= sides) return [];
  return last && growing.length >= fewest && last.lies !== "flat" ? [found(last)] : [];
}

/** So many rounds behind those that grow are the sides of a bag, a basket or a slipper. */
const sides = 3;

function roundsIn(lies: readonly Curvature[]): number {
  return lies.reduce((sum, { row }) => sum + (row.times?.[0] ?? 1), 0);
}

/** Fewer rounds tell nothing: the middle gives way. */
const fewest = 3;

/** The rounds from the first on that grow, and do not double behind the second. */
function growsFor(rounds: readonly Curvature[]): number {
  const end = rounds.findIndex(({ has }, i) => {
    const before = rounds[i - 1]?.has ?? 0;
    return i > 0 && (has <= before || (i > 1 && has >= 1.9 * before));
  });
  return end < 0 ? rounds.length : end;
}

function found({ row, lies, has, flatCount, rate }: Curvature): Found {
  return {
    span: row.line.span,
    message: say`${rowName(row)} would ${lies === "cups" ? say`cup` : say`ruffle`}: it has ${has} stitches, and at the stated gauge about ${Math.round(flatCount)} lie flat. Begin with about ${Math.round(rate)} and add as many in each round.`,
    fixes: [],
    related: [],
  };
}
