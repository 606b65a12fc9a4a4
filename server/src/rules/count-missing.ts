import type { Instruction } from "../fabric/instructions";
import type { Outcome } from "../fabric/outcome";
import { perPiece } from "../fabric/parts";
import { countStitches } from "../fabric/steps";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { countLike } from "./count-like";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";
import { numbers, rowName, says } from "./wording";

/** A row changes the number of stitches and does not say to what. */
export const countMissing: PatternRule = {
  id: "count-missing",
  severity: "information",
  documentation: `## What it finds
A row that makes more or fewer stitches than the row below it and gives no count, in a pattern that otherwise gives the count where it changes.

## Why it matters
Counts are what makers ask for most. They check themselves where the number changes, and so does this ledger.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: (sc, inc) x6
Rnd 4: (2 sc, inc) x6 (24)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: (sc, inc) x6 (18)
Rnd 4: (2 sc, inc) x6 (24)
\`\`\`
`,
  check(pattern) {
    const pieces = pattern.pieces.map((piece, i) => ({
      piece,
      changes: withFirst(changesIn(piece), piece, pattern.pieces[i - 1]),
    }));
    const silent = pieces.flatMap(({ piece, changes }) => changes.silent.map((at) => ({ piece, at })));
    const stated = pieces.reduce((sum, { changes }) => sum + changes.stated, 0);
    const isUsual = stated >= Math.max(2, 2 * silent.length);
    return silent
      .filter(({ piece }) => isUsual || isTheOnlyOne(piece))
      .map(({ piece, at }) => found(piece, at, pattern));
  },
};

/** Rows with another number of stitches than the row before. */
interface Changes {
  /** How many give their count. */
  readonly stated: number;
  /** Those that do not, by their index in the piece. */
  readonly silent: readonly number[];
}

const changesIn = perPiece(({ rows }): Changes => {
  const silent: number[] = [];
  const known = new Set<string>();
  let stated = 0;
  let before: string | null = null;
  for (const [at, row] of rows.entries()) {
    const makes = makesOf(row);
    const changes = makes !== null && before !== null && makes !== before;
    const isStated = row.line.plan?.stated != null;
    if (changes && isStated) stated++;
    else if (changes && needsCount(row, makes, known)) silent.push(at);
    if (makes !== null && isStated) known.add(makes);
    before = makes;
  }
  return { stated, silent };
});

/** Under a heading that the work goes on below, the first row may change it too. */
function withFirst(changes: Changes, piece: WorkedPiece, above: WorkedPiece | undefined): Changes {
  const makes = goesOnSilently(piece);
  if (makes === null || !above) return changes;
  const had = madeLast(above);
  return had !== null && makes !== had ? { ...changes, silent: [0, ...changes.silent] } : changes;
}

/** What the first row of a piece makes, where it goes on from another piece and says nothing of its count. */
const goesOnSilently = perPiece(({ rows: [first] }): string | null => {
  if (!first || first.line.plan?.stated != null || !goesOn(first)) return null;
  const makes = makesOf(first);
  return makes !== null && needsCount(first, makes, new Set()) ? makes : null;
});

const madeLast = perPiece(({ rows }): string | null => {
  const last = rows.at(-1);
  return last ? makesOf(last) : null;
});

function goesOn({ outcome, line }: WorkedRow): boolean {
  return (line.head?.from ?? 1) > 1 && (outcome?.needs ?? []).some((n) => n !== null);
}

/** All rows of the piece give a count but one, whether it changes or not. */
const isTheOnlyOne = perPiece(({ rows }: WorkedPiece): boolean => {
  const worked = rows.filter(({ line }) => line.kind !== "foundation");
  return worked.length > 5 && worked.filter(({ line }) => line.plan?.stated == null).length === 1;
});

/** The stitches of all sizes, in whatever groups they are counted; null where they are not known for sure. */
function makesOf({ result, outcome, assumptions, line }: WorkedRow): string | null {
  const isSure = result === "ok" && assumptions.length === 0 && line.sizes === null;
  const steps = isSure ? (outcome?.steps ?? []) : [];
  return steps.length > 0 && steps.every((own) => own.length > 0) ? steps.map(countStitches).join() : null;
}

/** Rows that only repeat others, only slip along, or are their own count leave no doubt. */
function needsCount({ line, outcome }: WorkedRow, makes: string, known: ReadonlySet<string>): boolean {
  const slipsAlong = outcome?.makes.some((n) => n === 0) ?? true;
  const isTold =
    (repeats.test(line.text) && known.has(makes)) ||
    asOf.test(line.text) ||
    isPlain(line.plan?.instructions ?? []);
  return !slipsAlong && !isTold;
}

/** `Work as Rnd 4 of the first hexagon`, `As first motif, but …`: its count is there. */
const asOf =
  /^\W*(?:work\s+as\b[^.]*\bof\b|(?:work(?:ed)?\s+)?as\s+(?:for\s+)?(?!(?:(?:the\s+)?(?:rows?|rnds?|rounds?)|r?\d)\b)\p{L})/iu;
const repeats = /^\W*(?:rep|as\b|same)/i;

/** `42 sc`, `12 dc in ring`: the row is as long as it says. */
function isPlain(list: readonly Instruction[]): boolean {
  const [only, ...others] = list.filter(({ op }) => op !== "turn" && op !== "slip");
  if (others.length > 0) return false;
  if (only?.op === "either") return isPlain(only.options[0] ?? []);
  return only?.op === "work" && only.takes.every(({ how }) => how !== "each");
}

function found(piece: WorkedPiece, at: number, pattern: WorkedPattern): Found {
  const row = piece.rows[at] as WorkedRow;
  const above = pattern.pieces[pattern.pieces.indexOf(piece) - 1];
  const before = (at > 0 ? piece.rows[at - 1] : above?.rows.at(-1)) as WorkedRow;
  const [makes, had] = [numbers(row.outcome?.makes ?? []), numbers(before.outcome?.makes ?? [])];
  return {
    span: row.line.span,
    message: say`${says(rowName(row), "makes")} ${makes} of the ${had} of ${rowName(before)}, and no count says so. Add it: makers check themselves where the number changes.`,
    fixes: fixesFor(row, piece, pattern),
    related: [],
  };
}

function fixesFor(row: WorkedRow, piece: WorkedPiece, pattern: WorkedPattern): Fix[] {
  const like = countLike(row, row.outcome as Outcome, piece, pattern);
  return like
    ? [{ title: say`Add the count ${like.shown}`, kind: "add-count", edits: () => [like.edit] }]
    : [];
}
