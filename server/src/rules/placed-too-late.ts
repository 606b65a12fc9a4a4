import type { WorkedPart } from "../fabric/parts";
import { type Sentence, sentencesOf } from "../notation/assembly";
import { say } from "../text/say";
import type { Span, TextEdit } from "../text/span";
import { inProse } from "./outline";
import { makingOf, type PlacedSentence, placed, placedSentences } from "./pieces-made";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";

/** Safety eyes are put in when the piece is closed already. */
export const placedTooLate: PatternRule = {
  id: "placed-too-late",
  severity: "warning",
  documentation: `## What it finds
Safety eyes that are put in after the piece was closed: their washers go on from the inside. Eyes that are embroidered or sewn on are not meant.

## Why it matters
It cannot be done, and whoever follows the text line by line has to open the piece again.

## Example
\`\`\`crochet
Head
Rnd 1: 6 sc in mr (6)
Rnd 2: sc in each st around (6)
Fasten off and close the hole.
Insert the safety eyes between Rnds 1 and 2.
\`\`\`

## Mended
\`\`\`crochet
Head
Rnd 1: 6 sc in mr (6)
Rnd 2: sc in each st around (6)
Insert the safety eyes between Rnds 1 and 2.
Fasten off and close the hole.
\`\`\`
`,
  check(pattern) {
    const { names } = makingOf(pattern);
    return eyeSentences(pattern).flatMap(({ said: sentence, line, part }) => {
      const said = placed(line, sentence, names);
      if (!washered.test(sentence.text) && !hasSafetyEyes(pattern)) return [];
      const closing = closingBefore(said, part, pattern);
      return closing ? [found(said, closing)] : [];
    });
  },
};

const eyeSentences = inProse((line) =>
  /\beyes\b/i.test(line.text) ? sentencesOf(line).filter(putsInEyes) : [],
);

const washered = /\bsafety\s+eyes\b|\binsert\w*\s+(?:the\s+|both\s+|your\s+|two\s+)*eyes\b/i;

/** What the list calls safety eyes are the eyes of the sentences. */
function hasSafetyEyes({ lines }: WorkedPattern): boolean {
  return lines.some(({ text }) => /\bsafety\s+eyes\b/i.test(text));
}

/** A washer is meant, also where eyes are inserted: sewn and embroidered eyes go on from outside, and "before" sets its own time. */
function putsInEyes({ text, deeds }: Sentence): boolean {
  const isPut = deeds.some(({ does }) => does === "place");
  return (
    isPut && /\beyes\b/i.test(text) && !/\b(?:sew|glue|embroider|felt|before|earlier|already)\b/i.test(text)
  );
}

/** What closes the piece for good; not "stuff before closing" or "do not close yet". */
const closings: readonly RegExp[] = [
  /(?:^|[,;]|\band|\bthen)\s*(?:clos(?:e|ing)\s+(?:it\s+)?(?:up\s+)?(?:the\s+)?(?:\w+\s+)?(?:\d+\s+)?(?:hole|opening|piece|head|body|gap|off|up|sts|stitches|loops)\b|sew\s+(?:the\s+)?(?:hole|opening)\s+(?:shut|closed)|pull\s+(?:it\s+)?tight(?:ly)?\s+to\s+close)/i,
  /\b(?:pull|draw|cinch|gather)\w*\s+(?:[^.;]{0,40}?\b(?:sts|stitches|loops|lps|hole|opening|it|them)\b[^.;]{0,15}?\b(?:tight(?:ly)?|closed|shut|close)\b|(?:up\s+)?(?:and|to)\s+close\b)/i,
  /\b(?:thread|weave|draw|run|pass)\b[^.]*\bthrough\b[^.]*\b(?:sts|stitches|loops|lps)\b[^.]*\b(?:(?:pull|draw|cinch)\s+(?:it\s+|up\s+)*tight(?:ly)?|close)\b/i,
];

function closes({ text }: Sentence): boolean {
  return closings.some((form) => form.test(text)) && !/\b(?:before|not|until|later)\b/i.test(text);
}

/** The sentence that closes the piece that the eyes go into, where it stands before them. */
function closingBefore(said: PlacedSentence, own: WorkedPart, pattern: WorkedPattern): PlacedSentence | null {
  const named = said.mentions.flatMap(({ pieces }) => pieces.map(({ part }) => part));
  const [part, ...others] = own.piece ? [own] : new Set(named);
  if (!part || others.length > 0) return null;
  const { names } = makingOf(pattern);
  const last = part.piece?.rows.at(-1)?.line.span.end ?? 0;
  const at = said.line.start + said.sentence.start;
  const closing = part.lines
    .filter(({ kind, start }) => kind === "prose" && start >= last)
    .flatMap((line) => placedSentences(line, names))
    .filter(({ sentence }) => closes(sentence));
  return closing.find(({ line, sentence }) => line.start + sentence.start < at) ?? null;
}

function found(said: PlacedSentence, closing: PlacedSentence): Found {
  const span = spanOf(said);
  return {
    span,
    message: say`The piece is closed before the safety eyes go in, and their washers go on from the inside. Put this sentence before the closing.`,
    fixes: [movedBefore(said, closing)],
    related: [{ span: spanOf(closing), message: say`Here the piece is closed.` }],
  };
}

function spanOf({ line, sentence }: PlacedSentence): Span {
  const lead = sentence.text.length - sentence.text.trimStart().length;
  return { start: line.start + sentence.start + lead, end: line.start + sentence.end };
}

/** A sentence that has its line to itself keeps one. */
function movedBefore(said: PlacedSentence, closing: PlacedSentence): Fix {
  const edits = (): TextEdit[] => {
    const { start, end } = spanOf(said);
    const text = said.sentence.text.trim();
    const isWhole = said.line.text.trim() === text;
    const from = spanOf(closing).start;
    const isOtherLine = isWhole && closing.line !== said.line;
    const moved = { span: { start: from, end: from }, newText: isOtherLine ? `${text}\n` : `${text} ` };
    // The line end before a line of its own goes with it.
    const gone = isOtherLine ? { start: said.line.start - 1, end: said.line.end } : { start: start - 1, end };
    return [moved, { span: gone, newText: "" }];
  };
  return { title: say`Move it before the closing`, edits };
}
