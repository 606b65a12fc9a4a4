import { partsOf, perPart, type WorkedPart } from "../fabric/parts";
import { sentencesOf } from "../notation/assembly";
import { say } from "../text/say";
import { type MadePiece, makingOf } from "./pieces-made";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";
import { rowName } from "./wording";
import { isWholePattern, ofRows, workNotEnded } from "./work-not-ended";

/** A piece ends with its last row, and the others are fastened off. */
export const pieceNotFinished: PatternRule = {
  id: "piece-not-finished",
  severity: "information",
  documentation: `## What it finds
A piece that ends with its last row, with no word on fastening off, closing, going on or leaving a tail, in a pattern that says so of its other pieces. Also a pattern that goes on to blocking or washing, and nowhere says how the work ends.

## Why it matters
The maker does not know whether to cut the yarn or to go on with the next piece, and how long a tail the sewing needs.

## Example
\`\`\`crochet
Head
Rnd 1: 6 sc in mr (6)
Fasten off.

Ear (make 2)
Rnd 1: 4 sc in mr (4)
Fasten off.

Snout
Rnd 1: 5 sc in mr (5)
\`\`\`

## Mended
\`\`\`crochet
Head
Rnd 1: 6 sc in mr (6)
Fasten off.

Ear (make 2)
Rnd 1: 4 sc in mr (4)
Fasten off.

Snout
Rnd 1: 5 sc in mr (5)
Fasten off.
\`\`\`
`,
  check(pattern) {
    const open = [...openPieces(pattern), ...workNotEnded(pattern)];
    return open.length > 0 ? open : openEnd(pattern);
  },
};

/** A border without an end, the last rows of a whole pattern: the pieces before it say theirs. */
function openEnd(pattern: WorkedPattern): Found[] {
  const parts = partsOf(pattern);
  const last = parts.findLast(({ piece }) => piece !== null);
  const row = last?.piece?.rows.at(-1);
  if (!last || !row || row.line.kind !== "row" || !isWholePattern(pattern)) return [];
  const { pieces } = makingOf(pattern);
  const isSaid = pieces.some(({ part }) => saysItsEnd(part));
  if (pieces.some(({ part }) => part === last) || !isSaid) return [];
  const behind = parts.slice(parts.indexOf(last) + 1).flatMap(({ lines }) => lines);
  if (saysItsEnd(last) || behind.some(({ text }) => ending.test(text))) return [];
  const { start, end } = row.line.span;
  return [
    {
      span: { start, end },
      message: say`"${last.name}" ends with ${rowName(row)}, and nothing says how it is finished. The other pieces say so.`,
      fixes: [finishing(pieces, end)],
      related: [],
    },
  ];
}

function openPieces(pattern: WorkedPattern): Found[] {
  const pieces = makingOf(pattern).pieces;
  const parts = partsOf(pattern);
  const open = pieces.filter(({ part }) => !isFinished(part, pattern));
  if (open.length === 0) return [];
  const alone = pieces.filter(({ part }) => saysItsEnd(part)).length;
  const inAll = parts.filter((part) => part.piece && saysItsEnd(part)).length;
  // Excerpts leave more out than whole patterns do.
  const needed = open.length === 1 && isWholePattern(pattern) ? 1 : Math.max(2, 2 * open.length);
  // The last words of a pattern end what is made last.
  const evidence = ({ part }: MadePiece): number => (part === parts.at(-1) ? alone : inAll);
  return open.filter((piece) => evidence(piece) >= needed).map((piece) => found(piece, pieces));
}

/** Words that end a piece, in whatever way. */
const ending =
  /\b(?:fast\w*|finish\w*|end(?:s|ing)?|clos\w*|cut\w*|break|tie|bind|join\w*|sew\w*|seam\w*|tail|weav\w*|layers|thicknesses|both\s+(?:sides|walls)|together|continue\w*|go\s+on|invisible|turn\s+inside|same|likewise|hole|opening)\b|\bf\s?\/\s?o\b|\bfo\b|do\s+not|don['’]t/i;

/** `Make a second one in the same way`: that one ends as this one does. */
const another =
  /[^.;]*\b(?:make|work|crochet)\s+(?:the\s+|a\s+|another\s+|one\s+more\s*)*(?:second|other|another|one\s+more)\b[^.]*/gi;

/** What is worked through both layers draws the edges together, and the yarn is there still. */
const throughLayers = /[^.;]*\bthrough\s+(?:both|all)\s+(?:layers|thicknesses)\b[^.;,]*/gi;

function isFinished(part: WorkedPart, pattern: WorkedPattern): boolean {
  return saysItsEnd(part) || isGoneOnFrom(part, pattern);
}

const saysItsEnd = perPart(({ piece, lines }): boolean => {
  const last = piece?.rows.at(-1)?.line;
  // What is worked as another piece is ends as that does.
  if (!last || /^\W*(?:work(?:ed)?\s+)?as\b(?!\s+(?:rows?|rnds?|rounds?|r?\d))/i.test(last.text)) return true;
  const after = lines.filter(({ kind, start }) => kind !== "blank" && start >= last.span.end);
  return (
    ending.test(last.text.replace(ofRows, " ")) ||
    after.some(({ text }) => ending.test(text.replace(throughLayers, " ").replace(another, " ")))
  );
});

/** The next part is worked on it: then the last part of those ends the piece. Where the yarn is joined anew, it was cut before. */
function isGoneOnFrom(part: WorkedPart, pattern: WorkedPattern): boolean {
  const parts = partsOf(pattern).filter(({ piece }) => piece !== null);
  const at = parts.indexOf(part);
  const next = parts[at + 1];
  const isOwn = (one: WorkedPart): boolean => makingOf(pattern).pieces.some((piece) => piece.part === one);
  // Of several, all but one are cut.
  const isSeveral = (part.piece?.piece.make ?? 1) > 1;
  if (next === undefined || isSeveral || isOwn(next) || joinsAnew(next)) return false;
  const end = parts.findIndex((one, i) => i > at + 1 && isOwn(one));
  const run = parts.slice(at + 1, end < 0 ? undefined : end);
  return run.some(saysItsEnd) || !isWholePattern(pattern);
}

function joinsAnew({ piece, lines }: WorkedPart): boolean {
  const first = piece?.rows[0]?.line.span.end ?? 0;
  return lines.some(
    ({ text, end }) => end <= first && /\b(?:re-?)?join(?:ing)?\s+(?:the\s+)?(?:yarn|thread)\b/i.test(text),
  );
}

function found(piece: MadePiece, pieces: readonly MadePiece[]): Found {
  const last = piece.worked.rows.at(-1);
  const { start, end } = last?.line.span ?? piece.worked.piece.span;
  const name = last ? rowName(last) : say`its last row`;
  return {
    span: { start, end },
    message: say`"${piece.name}" ends with ${name}, and nothing says how it is finished. The other pieces say so.`,
    fixes: [finishing(pieces, end)],
    related: [],
  };
}

function finishing(pieces: readonly MadePiece[], end: number): Fix {
  const sentence = wordsOf(pieces) ?? "Fasten off.";
  return {
    title: say`Add "${sentence}"`,
    edits: () => [{ span: { start: end, end }, newText: `\n${sentence}` }],
  };
}

/** How the pattern says it, where it says it in few words. */
function wordsOf(pieces: readonly MadePiece[]): string | null {
  const sentences = pieces.flatMap(({ part }) => part.lines.flatMap(({ content }) => sentencesOf(content)));
  const short = sentences.find(
    ({ deeds, text }) => deeds.some(({ does }) => does === "finish") && text.trim().length < 20,
  );
  return short ? short.text.trim() : null;
}
