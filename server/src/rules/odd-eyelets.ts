import { perPiece } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { sentencesOf } from "../notation/assembly";
import type { PatternLine } from "../notation/lines";
import { type RowReference, refersTo } from "../notation/row-references";
import { say } from "../text/say";
import { inProse } from "./outline";
import type { Found, PatternRule } from "./rule";
import { rowName, says } from "./wording";

/** A cord that is laced through an odd number of eyelets ends on the other face than it began. */
export const oddEyelets: PatternRule = {
  id: "odd-eyelets",
  severity: "information",
  documentation: `## What it finds
A round with an odd number of eyelets, in a pattern that laces a cord through them. Which round is laced is told by its head, "Eyelet Rnd", or by the sentence: "through the ch-1 spaces of Rnd 22".

## Why it matters
Laced in and out, a cord comes out on the face where it went in only if the eyelets are even in number. With an odd number one end hangs inside.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: 2 sc in each st around (12)
Rnd 3: (sc, inc) x6 (18)
Rnd 4 (Eyelet Rnd): *sc in next st, ch 1, sk next st; rep from * around (9 sc, 9 ch-1 sps)
Fasten off.

Lace the cord through the eyelets and knot its ends.
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: 2 sc in each st around (12)
Rnd 3: (sc, inc) x6 (18)
Rnd 4: (8 sc, inc) x2 (20)
Rnd 5 (Eyelet Rnd): *sc in next st, ch 1, sk next st; rep from * around (10 sc, 10 ch-1 sps)
Fasten off.

Lace the cord through the eyelets and knot its ends.
\`\`\`
`,
  check(pattern) {
    const odd = lacings(pattern).flatMap(({ line, said: { rows, ofEyelets } }) =>
      pattern.pieces.flatMap((piece) => {
        const named = rows.length > 0 ? rowsNamed(piece, rows) : ofEyelets ? eyeletRows(piece) : [];
        return named
          .map((at) => piece.rows[at] as WorkedRow)
          .filter((row) => eyeletsIn(row).some((n) => n % 2 === 1))
          .map((row) => ({ row, line }));
      }),
    );
    const once = new Map(odd.map(({ row, line }) => [row, line] as const));
    return [...once].map(([row, line]) => foundOn(row, line));
  },
};

/** Rounds whose head calls them eyelets, by their index. */
const eyeletRows = perPiece(({ rows }): readonly number[] =>
  rows.flatMap(({ line: { head, text }, result }, at) => {
    const isEyelets = head?.word === "round" && /\beyelets?\b/i.test(`${head.label} ${text}`);
    return isEyelets && result === "ok" ? [at] : [];
  }),
);

/** The rounds of a piece that a sentence names, by their index. */
function rowsNamed({ rows }: WorkedPiece, named: readonly RowReference[]): number[] {
  return rows.flatMap(({ line: { head }, result }, at) => {
    const from = head?.to == null ? (head?.from ?? null) : null;
    const isNamed = from !== null && head?.word !== "row" && named.some((one) => refersTo(one, from));
    return isNamed && result === "ok" ? [at] : [];
  });
}

function eyeletsIn({ outcome }: WorkedRow): number[] {
  return (outcome?.counted ?? []).map((one) =>
    [...(one?.kinds ?? [])]
      .filter(([kind]) => /\b(?:sp|eyelet|hole)s?$/.test(kind))
      .reduce((sum, [, n]) => sum + n, 0),
  );
}

/** A sentence that laces a cord, with the rows it names; none: through the eyelets, wherever they are. */
interface Lacing {
  readonly rows: readonly RowReference[];
  readonly ofEyelets: boolean;
}

const lacings = inProse((line): Lacing[] =>
  sentencesOf(line).flatMap(({ text, deeds, rows }) => {
    const isLaced = deeds.some(({ does }) => does === "lace") && cord.test(text);
    const ofEyelets = /\b(?:eyelet|hole)s?\b/i.test(text);
    const ofSpaces = /\b(?:sps?|spaces?|gaps?|chain\s+loops?|mesh(?:es)?)\b/i.test(text);
    return isLaced && (ofEyelets || (ofSpaces && rows.length > 0)) ? [{ rows, ofEyelets }] : [];
  }),
);

const cord = /\b(?:cord|drawstring|ribbon|tie|string|lace|elastic|strap)s?\b/i;

function foundOn(row: WorkedRow, laced: PatternLine): Found {
  const [n] = eyeletsIn(row).filter((one) => one % 2 === 1);
  return {
    span: row.line.span,
    message: say`${says(rowName(row), "has")} ${n} eyelets, an odd number: a cord laced in and out of them ends on the other face than it began. One eyelet more or less brings both ends out on the same face.`,
    fixes: [],
    related: [{ span: laced, message: say`Here a cord is laced through the eyelets.` }],
  };
}
