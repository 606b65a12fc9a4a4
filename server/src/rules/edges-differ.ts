import type { WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { alongRowEnds } from "./along-row-ends";
import { flatClosings } from "./flat-closings";
import { type MadePiece, makingOf, type PlacedSentence } from "./pieces-made";
import type { Fix, Found, PatternRule, Related, WorkedPattern } from "./rule";
import { shoulderEdges } from "./shoulder-edges";
import { sidesOfMotifs } from "./sides-of-motifs";
import { skippedStitches } from "./skipped-stitches";
import { toldEdges } from "./told-edges";
import { numbers, rowName, says } from "./wording";

/** Two edges that meet have different numbers of stitches. */
export const edgesDiffer: PatternRule = {
  id: "edges-differ",
  severity: "warning",
  documentation: `## What it finds
Two pieces that the assembly sews together opening to opening, last round to last round or stitch for stitch, and whose last rounds have different numbers of stitches, or another number than the assembly tells. Also a round along the row ends of a piece that has half as many stitches again as the rows are high, or another number than "one in each row" says; a piece that is closed flat through both layers with more stitches than half of its last round; and a last row that is joined to the foundation with another number of stitches than it has. Stitches that are told as skipped, as those of a shoulder or as those along each side of a square or hexagon, in another number than there are.

## Why it matters
The seam puckers, or stitches of the larger edge are left over, and the maker looks for a mistake of their own.

## Example
\`\`\`crochet
Head
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Body
Rnd 1: 7 sc in mr (7)
Rnd 2: inc x7 (14)
Fasten off.

Assembly
Sew the head to the body, opening to opening.
\`\`\`

## Mended
\`\`\`crochet
Head
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Body
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Assembly
Sew the head to the body, opening to opening.
\`\`\`
`,
  check(pattern) {
    const sewn = edgesThatDiffer(pattern).map(({ edges: [a, b], said }) => found(a, b, said));
    return [
      ...sewn,
      ...otherNumbers(pattern),
      ...numbersOfPieces(pattern),
      ...alongRowEnds(pattern),
      ...flatClosings(pattern),
      ...toldEdges(pattern),
      ...shoulderEdges(pattern),
      ...skippedStitches(pattern),
      ...sidesOfMotifs(pattern),
    ];
  },
};

/** Two edges that a sentence sews together, and that have different numbers of stitches. */
export interface Seam {
  readonly edges: readonly [Edge, Edge];
  readonly said: PlacedSentence;
}

export function edgesThatDiffer(pattern: WorkedPattern): Seam[] {
  return seamsOf(pattern).filter(({ edges: [a, b] }) => differ(a, b));
}

/** Where the assembly sews two edges whose stitches are known, one to one. */
function seamsOf(pattern: WorkedPattern): Seam[] {
  return makingOf(pattern).joining.flatMap((said) => {
    const [a, b, ...others] = edgesIn(said);
    return a && b && others.length === 0 ? [{ edges: [a, b], said }] : [];
  });
}

/** A piece with the row that its edge is. */
export interface Edge {
  readonly piece: MadePiece;
  readonly row: WorkedRow;
  readonly count: readonly (number | null)[];
}

/** Words by which two edges meet stitch by stitch. */
const meeting =
  /\bopen(?:ing|\s+end|\s+edge)s?\s+(?:to|with)\s+(?:the\s+)?open|\bopen(?:ing|\s+end|\s+edge)s\b[^.]*\btogether|\b(?:stitch|st)\s+(?:for|by|to)\s+(?:stitch|st)\b|\bmatching\s+(?:up\s+)?(?:the\s+)?(?:sts|stitches|openings)|\blast\s+(?:round|rnd|row)s?\s+(?:to|together)|\blast\s+(?:round|rnd|row)\s+of\b[^.]*\b(?:to|with)\s+(?:the\s+)?last\s+(?:round|rnd|row)\s+of\b/i;
const eased = /\b(?:eas(?:e|ing)|gather|stretch|pleat|fold|fit)/i;

function edgesIn({ sentence, mentions }: PlacedSentence): Edge[] {
  const sews = sentence.deeds.some(({ does }) => does === "sew");
  if (!sews || !(meeting.test(sentence.text) || told.test(sentence.text)) || eased.test(sentence.text))
    return [];
  const edgeOf = byRow.test(sentence.text) ? lastRowOf : openingOf;
  const edges = mentions.map(({ pieces: [piece, ...others], isWhole }) =>
    piece && isWhole && others.length === 0 ? edgeOf(piece) : null,
  );
  const known = edges.filter((edge) => edge !== null);
  return known.length === edges.length ? known : [];
}

/** Words by which the edge of a flat piece, too, is its last row. */
const byRow = /\blast\s+(?:round|rnd|row)s?\b|\b(?:stitch|st)\s+(?:for|by|to)\s+(?:stitch|st)\b/i;

function lastRowOf(piece: MadePiece): Edge | null {
  const row = piece.worked.rows.at(-1);
  const count = row?.result === "ok" ? (row.outcome?.makes ?? []) : [];
  return row && count.length > 0 ? { piece, row, count } : null;
}

/** The last round of what was begun in a ring; nothing else is known to be the opening. */
function openingOf(piece: MadePiece): Edge | null {
  const [first] = piece.worked.rows;
  const isRing = first?.line.kind === "row" && first.outcome?.needs.every((n) => n === null);
  return isRing ? lastRowOf(piece) : null;
}

/** `matching the 12 sts`, `the 12 sts of each opening`. */
const told =
  /\bmatching\s+(?:up\s+)?(?:all\s+)?(?:the\s+)?(\d+)\s+(?:sts|stitches)(?=\s*(?:[.,;!)]|$)|\s+(?:of|at|on|around)\s+(?:the\s+two|both|each|the)\s+(?:openings?|open|edges?|necks?|ends?)\b)|\b(\d+)\s+(?:sts|stitches)\s+(?:of|at|on|in)\s+(?:each|both)\s+(?:of\s+the\s+)?(?:opening|edge|neck)/i;

/** `matching the 14 sts of each opening`, where both have 12. */
function otherNumbers(pattern: WorkedPattern): Found[] {
  return seamsOf(pattern).flatMap(({ edges: [a, b], said: { line, sentence } }): Found[] => {
    const [phrase, matching, ofEach] = told.exec(sentence.text) ?? [];
    const typed = matching ?? ofEach;
    const [made, ...others] = [...new Set([...a.count, ...b.count].filter((n) => n !== null))];
    if (phrase === undefined || typed === undefined || made === undefined || others.length > 0) return [];
    if (made === Number(typed)) return [];
    const start = line.start + sentence.start + sentence.text.indexOf(phrase) + phrase.indexOf(typed);
    const span = { start, end: start + typed.length };
    return [
      {
        span,
        message: say`The assembly speaks of ${typed} stitches, and ${edgeText(a)}, as does "${b.piece.name}". Did you mean ${made}?`,
        fixes: [{ title: say`Write ${made}`, edits: () => [{ span, newText: `${made}` }] }],
        related: [a, b].map(relatedTo),
      },
    ];
  });
}

/** `the 14 sts of the head`: what stands before a piece whose last row is sewn on. */
const ofPiece =
  /\b(\d{1,3})\s+(?:sts|stitches|sc|hdc|dc|htr|tr)\s+(?:of|at|on|around)\s+(?:the\s+)?(?:(?:last|final)\s+(?:row|rnd|round)\s+of\s+(?:the\s+)?|(?:opening|open\s+(?:end|edge)|top|neck)\s+of\s+(?:the\s+)?)?$/i;

/** `Sew the 14 sts of the head to the neck`, where the head ends with 12. Fewer may be a part of them. */
function numbersOfPieces(pattern: WorkedPattern): Found[] {
  return makingOf(pattern).joining.flatMap((said) => {
    const { line, sentence, mentions } = said;
    if (!sentence.deeds.some(({ does }) => does === "sew")) return [];
    return mentions.flatMap(({ pieces: [piece, ...others], isWhole, start }): Found[] => {
      const match = ofPiece.exec(sentence.text.slice(0, start - sentence.start));
      if (!match || !piece || !isWhole || others.length > 0) return [];
      const isOfEdge = /\b(?:last|final|open\w*)\b/i.test(match[0]);
      const edge = isOfEdge ? lastRowOf(piece) : openingOf(piece);
      const [made, ...sizes] = edge?.count ?? [];
      const n = Number(match[1]);
      const isWrong = made != null && sizes.length === 0 && (isOfEdge ? n !== made : n > made);
      return isWrong && edge ? [numberFound(n, made, edge, line.start + sentence.start + match.index)] : [];
    });
  });
}

function numberFound(n: number, made: number, edge: Edge, start: number): Found {
  const span = { start, end: start + `${n}`.length };
  return {
    span,
    message: say`The assembly speaks of ${n} stitches, and ${edgeText(edge)}. Did you mean ${made}?`,
    fixes: [{ title: say`Write ${made}`, edits: () => [{ span, newText: `${made}` }] }],
    related: [relatedTo(edge)],
  };
}

function differ(a: Edge, b: Edge): boolean {
  return a.count.some((n, size) => n !== null && b.count[size] != null && n !== b.count[size]);
}

function found(a: Edge, b: Edge, { line, sentence }: PlacedSentence): Found {
  const typed = sentence.text;
  const start = line.start + sentence.start + (typed.length - typed.trimStart().length);
  const end = line.start + sentence.end;
  return {
    span: { start, end },
    message: say`${edgeText(a)}, ${edgeText(b)}, and the assembly sews them stitch for stitch. Make the numbers agree, or say how the larger one is eased in.`,
    fixes: easing(end, typed),
    related: [a, b].map(relatedTo),
  };
}

function relatedTo({ row, count, piece }: Edge): Related {
  const message = say`${says(rowName(row), "leaves")} ${numbers(count)} stitches at the opening of "${piece.name}".`;
  return { span: row.line.span, message };
}

function edgeText({ piece, count }: Edge): string {
  return say`"${piece.name}" ends with ${numbers(count)} stitches`;
}

function easing(end: number, sentence: string): Fix[] {
  const at = end - (/[.;!]$/.exec(sentence)?.[0].length ?? 0);
  const newText = ", easing in the larger edge";
  return [
    { title: say`Add "easing in the larger edge"`, edits: () => [{ span: { start: at, end: at }, newText }] },
  ];
}
