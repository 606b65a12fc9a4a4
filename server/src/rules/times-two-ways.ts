import { forSize, type Instruction, type RowPlan, type Times } from "../fabric/instructions";
import { perPiece } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import type { Span } from "../text/span";
import type { Found, PatternRule, Related } from "./rule";
import { moreTimes, rowName } from "./wording";

/** "5 times" is five in all in one row and five more in another. */
export const timesTwoWays: PatternRule = {
  id: "times-two-ways",
  severity: "warning",
  documentation: `## What it finds
A pattern in which "repeat from * 5 times" means five times in all in one row, and five more times in another: the numbers of each row settle it, and they settle it differently. Also a row in which it means five in all, among rows that say "4 more times".

## Why it matters
The trade has no settled meaning for these words, so makers learn from the first row what this pattern means by them. The next such row leads them astray.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: *sc, inc; rep from * 6 times (18)
Rnd 4: *2 sc, inc; rep from * 5 times (24)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: *sc, inc; rep from * 6 times (18)
Rnd 4: *2 sc, inc; rep from * 5 more times (24)
\`\`\`
`,
  check({ pieces }) {
    const uses = pieces.flatMap((piece) =>
      usesIn(piece).map((use) => ({ ...use, row: rowAt(piece, use.at) })),
    );
    const [first] = uses;
    const more = uses.filter((use) => use.isMore);
    if (!first) return [];
    if (more.length === 0) return againstClear(uses, pieces);
    if (more.length === uses.length) return [];
    // The way of the most; of two as common, the one that comes first.
    const isUsual = 2 * more.length === uses.length ? first.isMore : 2 * more.length > uses.length;
    const usual = uses.find((use) => use.isMore === isUsual) ?? first;
    return uses.filter((use) => use.isMore !== isUsual).map((use) => found(use, usual));
  },
};

/** `7 more times`: leaves no doubt. */
const clear =
  /\brep(?:eat)?\b[^.;*]*\*[^.;*]*?\b((?:\w+\s+more|\w+\s+further)\s+times?|\w+\s+times\s+more|(?:once|twice)\s+more)\b/i;
/** So many rows say it clearly that the others stand out. */
const rowsAtLeast = 3;

/** The rows of a piece that say so, by their index, with their words. */
const clearIn = perPiece(({ rows }) =>
  rows.flatMap((row, at) => {
    const said = clear.exec(row.line.text)?.[1];
    return said === undefined ? [] : [{ at, said }];
  }),
);

/** Five in all, among rows that all say "4 more times". */
function againstClear(uses: readonly PlacedUse[], pieces: readonly WorkedPiece[]): Found[] {
  const clearly = pieces.flatMap((piece) =>
    clearIn(piece).map(({ at, said }) => ({ row: rowAt(piece, at), said })),
  );
  const [other] = clearly;
  if (!other || clearly.length < rowsAtLeast || clearly.length < 3 * uses.length) return [];
  const usual = say`${rowName(other.row)} and others say "${other.said}"`;
  return uses.map((use) =>
    asking(use, usual, { span: spanOf(other), message: say`Here it is told clearly.` }),
  );
}

/** `6 times`, with what the numbers of its row make of it. */
interface Use {
  /** The index of the row in its piece. */
  readonly at: number;
  readonly said: string;
  readonly n: number;
  readonly isMore: boolean;
}

type PlacedUse = Use & { readonly row: WorkedRow };

type Doubtful = Extract<Times, { how: "doubtful" }>;

const usesIn = perPiece(({ rows }) => rows.flatMap(usesOf));

function rowAt({ rows }: WorkedPiece, at: number): WorkedRow {
  return rows[at] as WorkedRow;
}

/** Only rows that leave no choice: right in one way, whatever the pattern is used to. */
function usesOf(row: WorkedRow, at: number): Use[] {
  const { plan } = row.line;
  if (!plan || plan.choices.length === 0 || row.result !== "ok" || row.assumptions.length > 0) return [];
  return doubtfulOf(plan).flatMap(({ n, choice }): Use[] => {
    const about = plan.choices[choice]?.about;
    const said = about && "said" in about ? about.said : undefined;
    const times = forSize(n, 0);
    if (said === undefined || times === null || n.length > 1) return [];
    return [{ at, said, n: times, isMore: row.outcome?.reading[choice] === 1 }];
  });
}

const doubtfulOf = keptBy((plan: RowPlan): readonly Doubtful[] => doubtfulIn(plan.instructions));

function doubtfulIn(list: readonly Instruction[]): Doubtful[] {
  return list.flatMap((one): Doubtful[] => {
    if (one.op !== "repeat") return [];
    const own = one.times.how === "doubtful" ? [one.times] : [];
    return [...own, ...doubtfulIn(one.body)];
  });
}

function found(use: PlacedUse, usual: PlacedUse): Found {
  const here = { span: spanOf(usual), message: say`Here it means ${sense(usual)}.` };
  return asking(use, meaning(usual), here);
}

function asking(use: PlacedUse, usual: string, here: Related): Found {
  const span = spanOf(use);
  const newText = moreTimes(use.isMore ? use.n : use.n - 1);
  const edits = () => [{ span, newText }];
  return {
    span,
    message: say`${meaning(use)}; ${usual}. Write "${newText}" in ${rowName(use.row)} to leave no doubt.`,
    fixes: [{ title: say`Write "${newText}"`, edits }],
    related: [here],
  };
}

function meaning(use: PlacedUse): string {
  return say`"${use.said}" in ${rowName(use.row)} means ${sense(use)}`;
}

function sense({ n, isMore }: Use): string {
  if (!isMore) return say`${n} times in all`;
  return n === 1 ? say`once more` : say`${n} more times`;
}

function spanOf({ row: { line }, said }: Pick<PlacedUse, "row" | "said">): Span {
  const at = line.text.indexOf(said);
  return at < 0 ? line.span : { start: line.start + at, end: line.start + at + said.length };
}
