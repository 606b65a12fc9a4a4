import { perPiece } from "../fabric/parts";
import { sentencesOf } from "../notation/assembly";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import { say } from "../text/say";
import type { Found, WorkedPattern } from "./rule";
import { rowName } from "./wording";

/** Words that a row is full of, and that end nothing in it: `to end`, `in same st`, `join with sl st`. */
export const ofRows =
  /\b(?:to|until|till|at|from)\s+(?:the\s+)?(?:other\s+)?end\b|\bend(?:s|ing)?\s+(?:with|in)\b|\b(?:each|both)\s+ends?\b|\bin(?:to)?\s+(?:the\s+)?same\b|\bsame\s+(?:st|sp|place|ch|loop)\w*|\bjoin\w*(?:\s+(?:with|using|by)\s+(?:an?\s+)?(?:sl|ss)\w*|\s+(?:in|to|into)\s+(?:the\s+)?(?:first|top|beg|\d)|(?=\s*(?:[.,;()[]|$)))|\b\d\s+(?:\w+\s+)?together\b|\bdo\s+not\s+(?:join|turn|count)\b|\bdon['’]t\s+(?:join|turn|count)\b/gi;

/** Words that end the work, or leave it open on purpose, wherever they stand. */
const ends =
  /\b(?:fasten\w*|finish(?!ed)\w*|ends|end\s+off|bind|tie|cut|break|darn|weav\w*|join\w*|sew\w*|seam\w*|pull|secur\w*|clos\w*|continue\w*)\b|\bf\s?\/\s?o\b|\bfo\b|do\s+not|don['’]t/i;
/** Sewing on a button leaves the yarn where it was. */
const onThings =
  /\b(?:sew|join|secure|attach)\w*\s+(?:on\s+)?(?:(?:the|a|an|one|each|both|two|your)\s+)?(?:\p{L}+\s+)?(?:buttons?|labels?|beads?|bells?|ribbons?|snaps?|zips?|zippers?|clasps?|charms?)\b/giu;
/** What is done with finished work. */
const afterwards = /^\s*(?:block|steam|press|wash|soak|starch|pin\s+out)\b/i;

/** Fewer rows show how a pattern is written, as those of a page on it do. */
const rowsAtLeast = 4;

/** Written out for others from its materials on, not noted down in part. */
export function isWholePattern({ lines, pieces }: WorkedPattern): boolean {
  const { hooks, yarns, abbreviations, gauge } = frontMatterOf(lines);
  const isListed = hooks.length > 0 && yarns.length > 0 && (abbreviations.length > 0 || gauge.length > 0);
  return isListed && pieces.reduce((sum, piece) => sum + rowsIn(piece), 0) >= rowsAtLeast;
}

/** A whole pattern, or one whose last row is followed by blocking, that nowhere says how the work ends. */
export function workNotEnded(pattern: WorkedPattern): Found[] {
  const { pieces, lines } = pattern;
  const last = pieces.at(-1)?.rows.at(-1);
  if (last?.line.kind !== "row") return [];
  const { span } = last.line;
  const isCared = lines.some(
    ({ kind, start, content }) =>
      kind === "prose" && start >= span.end && sentencesOf(content).some(({ text }) => afterwards.test(text)),
  );
  // Several pieces with no word on what becomes of them are an excerpt.
  const isWhole = pieces.every(({ piece }) => piece.make === 1) && isWholePattern(pattern);
  const endsIt = (text: string): boolean =>
    ends.test(isWhole ? text.replace(ofRows, " ").replace(onThings, " ") : text.replace(ofRows, " "));
  if (!(isCared || isWhole) || lines.some(({ text }) => endsIt(text))) return [];
  return [
    {
      span,
      message: say`The work ends with ${rowName(last)}, and nothing says how it is finished. Say it ${isCared ? say`before the blocking` : say`behind the last row`}: "Fasten off."`,
      fixes: [
        {
          title: say`Add "Fasten off."`,
          edits: () => [{ span: { start: span.end, end: span.end }, newText: "\nFasten off." }],
        },
      ],
      related: [],
    },
  ];
}

const rowsIn = perPiece(({ rows }) => rows.length);
