import type { SaidWord, Sentence } from "../notation/assembly";
import { sentencesOf } from "../notation/assembly";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { PatternLine } from "../notation/lines";
import { keptBy } from "../text/kept-by";
import type { Span } from "../text/span";
import { makingOf, type PlacedSentence, partNamesOf } from "./pieces-made";
import type { WorkedPattern } from "./rule";
import { isWholePattern } from "./work-not-ended";

/** Something that the assembly sews on. */
export interface SewnThing {
  readonly thing: SaidWord;
  readonly said: PlacedSentence;
}

/** What the assembly sews on and nothing else in the pattern speaks of. */
export const sewnUnheardOf = keptBy((pattern: WorkedPattern): readonly SewnThing[] => {
  const { joining: assembly } = makingOf(pattern);
  const names = partNamesOf(pattern);
  const isNamed = assembly.some(({ sentence }) => names.mentionsIn(sentence).length > 0);
  // In a pattern of one piece, only what is counted is surely a piece: `the two earflaps`.
  const isOfSeveral = names.all.filter(({ words }) => words.length > 0).length > 1 && isNamed;
  if (!isOfSeveral && !isWholePattern(pattern)) return [];
  return assembly.flatMap((said) =>
    objectsOf(said.sentence)
      .filter((thing) => isOfSeveral || isCounted(thing, said.sentence))
      .filter(
        (thing) => isUnheardOf(thing, said, pattern) && (!bought.test(thing.noun) || hasNotions(pattern)),
      )
      .map((thing) => ({ thing, said })),
  );
});

function isCounted({ start }: SaidWord, { text, start: from }: Sentence): boolean {
  return /\bthe\s+(?:two|three|four|five|six|\d)\s+$/i.test(text.slice(0, start - from));
}

/** Parts of pieces, and what is not crocheted. */
const noPiece =
  /^(?:piece|part|limb|extremity|feature|appendage|side|edge|seam|opening|hole|gap|end|yarn tail|yarn|thread|top|bottom|back|front|middle|centre|center|half|layer|row|round|rnd|stitch|st|loop|chain|corner|place|position|space|way|line|them|it|this|these|one|other|rest|all|everything|both|eye|nose|mouth|face|smile|cheek|eyebrow|shoulder|armhole|neckline|underarm|crotch|waist|knot|needle|pin|marker|colou?r|\d+|cm|inch|in|button|bead|zip|zipper|ribbon|lining|magnet|bell|fabric|hem|ball|skein|work|strip|time|allowance|keyring|key|cross|x|border|edging|fold|crease|mark|toy|cover)$/;

/** What a list of materials has, if it has more than yarn; what is told as a notion is not among it. */
const bought = /^(?:felt|label|pompom|tassel|fringe|snap|ring|wire|pad|insert|whisker)$/;

function hasNotions({ lines }: WorkedPattern): boolean {
  return frontMatterOf(lines).notions.length > 0;
}

const article =
  /^(?:the|a|an|each|both|all|one|remaining|other|of|your|two|three|four|five|six|small|large|little|big|\d+)$/;

/** What a sentence sews on: `Sew the ears, arms and legs to …`, `The bow is sewn to …`. */
const objectsOf = keptBy((sentence: Sentence): readonly SaidWord[] => {
  const { deeds, text, start } = sentence;
  return deeds
    .filter(({ does }) => does === "sew")
    .flatMap((deed) => {
      const before = text.slice(0, deed.start - start);
      if (begins.test(before)) return objectsBehind(deed, sentence);
      const passive = told.exec(before)?.[1];
      return passive === undefined ? [] : nounsIn(wordsBefore(deed, sentence, passive), text, start);
    });
});

/** A verb that tells what to do. */
const begins = /(?:^|[,;:)•*–—-]|\band|\bthen|\bnow)\s*$/i;
/** `The bow and the wings are then`: what it is done to. */
const told = /(?:^|[,;:)])\s*((?:the|both|each|all)\s+(?:\p{L}+[,\s]+){1,6}?)(?:is|are)\s+(?:\p{L}+\s+)?$/iu;

function wordsBefore(deed: Span, { words, text, start }: Sentence, phrase: string): readonly SaidWord[] {
  const from = start + text.slice(0, deed.start - start).lastIndexOf(phrase);
  return words.filter((word) => from <= word.start && word.end <= from + phrase.length);
}

/** What stands between the verb and the next small word. */
function objectsBehind(deed: Span, { words, text, start }: Sentence): SaidWord[] {
  const all = words.filter((word) => word.start >= deed.end);
  // `Sew in the sleeves`, `Sew on the flower`.
  const isParted = /^(?:in|on|up|down)$/.test(all[0]?.word ?? "") && article.test(all[1]?.word ?? "");
  const behind = isParted ? all.slice(1) : all;
  const small = behind.findIndex(({ word }) => smallWord.test(word));
  const end = small < 0 && behind.length <= wordsAtEnd ? behind.length : small;
  const phrase = text.slice(deed.end - start, (behind[end]?.start ?? behind.at(-1)?.end ?? deed.end) - start);
  const isExplained = /^(?:cut|made)$/.test(behind[end]?.word ?? "");
  if (end < 1 || isExplained || /[.;:()]/.test(phrase)) return [];
  // `Sew the tail to the back`: an end of yarn is sewn in, not on.
  const isOnto = /^(?:to|onto|on|at|over|between|below)$/.test(behind[end]?.word ?? "");
  return nounsIn(behind.slice(0, end), text, start).filter(({ noun }) => noun !== "tail" || isOnto);
}

/** `and sew the second sleeve.` */
const wordsAtEnd = 4;

const smallWord =
  /^(?:to|onto|on|in|into|at|over|around|between|along|under|behind|above|below|inside|with|through|across|from|down|up|together|securely|firmly|closed|shut|so|using|as|next|where|near|about|just|centrally|evenly|opposite|against|beside|below|cut|made|left|worked|crocheted|underneath|beneath|upright|flat|symmetrically|horizontally|vertically|diagonally|neatly|invisibly|level)$/;

/** The last word of each phrase between commas and "and". */
function nounsIn(words: readonly SaidWord[], text: string, start: number): SaidWord[] {
  return words.filter((word, i) => {
    const next = words[i + 1];
    const isLast = !next || next.word === "and" || /,/.test(text.slice(word.end - start, next.start - start));
    return isLast && word.word !== "and" && !article.test(word.word) && !noPiece.test(word.noun);
  });
}

/** Neither a piece nor spoken of anywhere else. */
function isUnheardOf({ noun, start, end }: SaidWord, said: PlacedSentence, pattern: WorkedPattern): boolean {
  if (said.mentions.some((mention) => mention.start < end && start < mention.end)) return false;
  const isOther = (line: PatternLine, word: SaidWord): boolean =>
    word.noun === noun && (line !== said.line || word.start !== start);
  return !pattern.lines.some(
    (line) =>
      line.kind !== "blank" &&
      sentencesOf(line.content).some(({ words }) => words.some((word) => isOther(line, word))),
  );
}
