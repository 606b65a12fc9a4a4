import { perPiece } from "../fabric/parts";
import type { WorkedRow } from "../fabric/worked";
import { sentencesOf } from "../notation/assembly";
import type { PatternLine } from "../notation/lines";
import type { Found, PatternRule } from "./rule";
import { rowName, says } from "./wording";

/** A cord that is laced through an odd number of eyelets ends on the other face than it began. */
export const oddEyelets: PatternRule = {
  id: "odd-eyelets",
  severity: "information",
  documentation: `## What it finds
A round with an odd number of eyelets, in a pattern that laces a cord through them.

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
    const rows = pattern.pieces.flatMap((piece) =>
      eyeletRows(piece).map((at) => piece.rows[at] as WorkedRow),
    );
    const odd = rows.filter((row) => eyeletsIn(row).some((n) => n % 2 === 1));
    const laced = odd.length > 0 ? pattern.lines.find(lacesCord) : undefined;
    return laced ? odd.map((row) => found(row, laced)) : [];
  },
};

/** Rounds whose head calls them eyelets, by their index. */
const eyeletRows = perPiece(({ rows }): readonly number[] =>
  rows.flatMap(({ line: { head, text }, result }, at) => {
    const isEyelets = head?.word === "round" && /\beyelets?\b/i.test(`${head.label} ${text}`);
    return isEyelets && result === "ok" ? [at] : [];
  }),
);

function eyeletsIn({ outcome }: WorkedRow): number[] {
  return (outcome?.counted ?? []).map((one) =>
    [...(one?.kinds ?? [])]
      .filter(([kind]) => /\b(?:sp|eyelet|hole)s?$/.test(kind))
      .reduce((sum, [, n]) => sum + n, 0),
  );
}

function lacesCord({ kind, content }: PatternLine): boolean {
  return (
    kind === "prose" &&
    sentencesOf(content).some(
      ({ text, deeds }) =>
        deeds.some(({ does }) => does === "lace") &&
        /\b(?:cord|drawstring|ribbon|tie|string|lace)s?\b/i.test(text) &&
        /\b(?:eyelet|hole)s?\b/i.test(text),
    )
  );
}

function found(row: WorkedRow, laced: PatternLine): Found {
  const [n] = eyeletsIn(row).filter((one) => one % 2 === 1);
  return {
    span: row.line.span,
    message: `${says(rowName(row), "has")} ${n} eyelets, an odd number: a cord laced in and out of them ends on the other face than it began. One eyelet more or less brings both ends out on the same face.`,
    fixes: [],
    related: [{ span: laced, message: "Here a cord is laced through the eyelets." }],
  };
}
