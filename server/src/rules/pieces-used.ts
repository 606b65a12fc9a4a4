import { type Sentence, sentencesOf } from "../notation/assembly";
import type { PatternLine } from "../notation/lines";
import type { MadePiece, Making } from "./pieces-made";
import type { WorkedPattern } from "./rule";

/** Whether any word of the pattern tells what becomes of a piece. */
export function isUsed(piece: MadePiece, making: Making, pattern: WorkedPattern): boolean {
  const isTold = making.assembly.some(({ mentions }) =>
    mentions.some(({ pieces }) => pieces.includes(piece)),
  );
  return isTold || putsItselfToUse(piece, making) || isSpokenOf(piece, making, pattern);
}

/** `Sew to the head.`: its own part says where it goes. */
function putsItselfToUse({ part, heading, words, worked }: MadePiece, { pieces }: Making): boolean {
  const own = lastWords(words);
  // Its own stages stand below the heading that names it, and are joined between its rows.
  const isStage = (one: MadePiece): boolean =>
    heading.start < one.heading.start && one.heading.start < (part.heading?.start ?? 0);
  const nouns = pieces.filter((one) => !isStage(one)).flatMap((one) => lastWords(one.words));
  const others = new Set(nouns.filter((noun) => !own.includes(noun)));
  const from = pieces.some(isStage) ? (worked.rows.at(-1)?.line.span.end ?? 0) : 0;

  const goesOn = /\b(?:tie|glue|pin|knot|hang|slide|slip it)\b/i;
  return part.lines.some((line) => {
    const isProse = line.kind === "prose" && line.start >= from;
    return sentencesOf(line.content).some(
      (sentence) =>
        speaksOf(sentence, others) || (isProse && (isSewn(sentence) || goesOn.test(sentence.text))),
    );
  });
}

/** Neither `sew the opening flat`, which closes the piece itself, nor `a tail for sewing`, which is sewn later on. */
function isSewn({ deeds, text, start }: Sentence): boolean {
  const isLater = (at: number): boolean =>
    /(?:\b(?:tail|end|length|yarn|thread)\b|\d\s*(?:cm|mm|in|inch|inches|["″”])(?!\p{L})).*\b(?:for|to)\s+$/iu.test(
      text.slice(0, at - start),
    );
  const closes = (end: number): boolean => closing.test(text.slice(end - start));
  return deeds.some(
    ({ does, start: at, end }) => (does === "lace" || (does === "sew" && !closes(end))) && !isLater(at),
  );
}

const before = "(?:(?:the|its|this|small|remaining|open|top|bottom|back|last)\\s+)*";
const closing = new RegExp(
  `^\\s+(?:${before}(?:opening|hole|gap)s?(?:\\s+(?:closed|shut|flat|up|together))*|${before}(?:(?:it|end|edge|top|bottom)s?\\s+)?(?:closed|shut|flat))\\s*(?:[.;,!]|and\\b|$)`,
  "i",
);

/** Any other line of the pattern speaks of it: a row that is worked through it, a note on how to wear it. */
function isSpokenOf(piece: MadePiece, { names }: Making, { lines, pieces }: WorkedPattern): boolean {
  const { part, heading, words } = piece;
  const own = new Set<PatternLine | null>([heading, part.heading, ...part.lines]);
  const nouns = new Set(lastWords(words));
  const begins = pieces[0]?.piece.span.start ?? 0;
  return lines.some(
    (line) =>
      line.kind !== "blank" &&
      !own.has(line) &&
      sentencesOf(line.content).some(
        // What is said at the top of what the pattern is of puts nothing to use.
        (sentence) =>
          speaksOf(sentence, nouns) &&
          (line.start >= begins || sentence.deeds.length > 0) &&
          // `the upper back` is no other back.
          names
            .mentionsIn(sentence)
            .some(({ pieces: meant, kin, isPlural }) => (isPlural ? kin : meant).includes(piece)),
      ),
  );
}

function speaksOf({ words }: Sentence, nouns: ReadonlySet<string>): boolean {
  return words.some(({ noun }) => nouns.has(noun));
}

function lastWords(names: MadePiece["words"]): string[] {
  return names.flatMap((name) => name.slice(-1));
}
