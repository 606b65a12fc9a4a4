import { inParts } from "../fabric/parts";
import type { Yarn } from "../notation/front-matter/yarns";
import type { PatternLine } from "../notation/lines";
import { mentionsOf } from "../notation/mentions/mentions";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import type { Span, TextEdit } from "../text/span";
import { isOwnPiece } from "./pieces-made";
import type { PatternRule } from "./rule";
import { type Uses, usesOf } from "./uses";
import { colourWords, nameOf, type YarnList, yarnListOf } from "./yarn-list";

/** The materials list a yarn that is never taken up. */
export const unusedYarn: PatternRule = {
  id: "unused-yarn",
  severity: "warning",
  documentation: `## What it finds
A yarn in the list of materials, by its letter or colour, that no row and no sentence names, although others are named. The colour that a piece begins with need not be named.

## Why it matters
Makers buy yarn they do not need, or look for the row where it comes in.

## Example
\`\`\`crochet
Materials
Cotton: 50 g red, 20 g white, 10 g navy

With red:
Rnd 1: 6 sc in magic ring (6)
Change to white.
Rnd 2: inc x6 (12)
\`\`\`

## Mended
\`\`\`crochet
Materials
Cotton: 50 g red, 20 g white

With red:
Rnd 1: 6 sc in magic ring (6)
Change to white.
Rnd 2: inc x6 (12)
\`\`\`
`,
  check(pattern) {
    const list = yarnListOf(pattern);
    const uses = usesOf(pattern);
    if (!list || list.yarns.length < 2) return [];
    const unnamed = list.yarns.filter((yarn) => !isNamed(yarn, uses));
    if (unnamed.length === 0 || unnamed.length === list.yarns.length) return [];
    const missing = unnamed.slice(piecesWithoutYarn(list)(pattern).length);
    if (missing.length === 0 || leavesOpen(uses)) return [];
    return missing.map((yarn) => ({
      span: { start: yarn.start, end: yarn.end },
      message: say`${nameOf(yarn)} is in the list of yarns, and no row and no sentence takes it up.`,
      fixes: [{ title: say`Take it out of the list`, edits: () => without(yarn, pattern.text) }],
      related: [],
    }));
  },
};

/** Stripes in turn, charts, scraps: which yarn comes when is told in other words. */
function leavesOpen(uses: Uses): boolean {
  return openWords.some((word) => uses.says(word));
}

const openWords = "colours|colors|yarns|stripe|stripes|chart|graph|scraps|alternate".split("|");

function isNamed({ letter, colour }: Yarn, uses: Uses): boolean {
  const taken = (name: string) => uses.yarns.some(({ mention }) => mention.name === name);
  if (letter && (taken(letter.text) || uses.hasLetter(letter.text))) return true;
  if (colour === null) return false;
  const said = (word: string) => uses.says(word) || (word === "grey" && uses.says("gray"));
  return taken(colour.text) || colourWords(colour.text).some(said);
}

/** Each of them may begin with a yarn that is not named. What goes on from another piece begins with none. */
const piecesWithoutYarn = keptBy((list: YarnList) =>
  inParts(({ piece, heading, lines }) => {
    if (piece === null || !isOwnPiece(piece)) return [];
    const end = piece.rows[0]?.line.span.end ?? piece.piece.span.end;
    const above = [...(heading ? [heading] : []), ...lines.filter(({ start }) => start < end)];
    const isTold = above.some((line) => mentionsOf(line.content).yarns.length > 0 || namesListed(line, list));
    return isTold ? [] : [true];
  }),
);

/** `Bill (Tangerine)`: the list tells that it is a colour. */
function namesListed({ kind, content }: PatternLine, { yarns }: YarnList): boolean {
  if (kind !== "heading") return false;
  const { words, letters } = mentionsOf(content);
  return yarns.some(
    ({ letter, colour }) =>
      (letter !== null && letters.includes(letter.text)) ||
      (colour !== null && colourWords(colour.text).some((word) => words.includes(word))),
  );
}

/** The yarn with the comma or "and" that parts it from the one before. */
function without({ start, end, item }: Yarn, text: string): TextEdit[] {
  const before = /(?:\s*(?:,|&|\+)\s*|\s+and\s+|\s*,\s*and\s+)$/.exec(text.slice(item.start, start));
  const behind = /^(?:\s*,\s*|\s+and\s+)/.exec(text.slice(end, item.end));
  const span: Span = before
    ? { start: start - before[0].length, end }
    : { start, end: end + (behind?.[0].length ?? 0) };
  return [{ span, newText: "" }];
}
