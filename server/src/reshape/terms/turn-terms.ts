import type { Pattern } from "../../fabric/pattern";
import { termsDeclaredIn } from "../../notation/front-matter/terms";
import { trade } from "../../notation/vocabulary";
import { say } from "../../text/say";
import { type Span, shift, type TextEdit } from "../../text/span";
import type { Terms } from "../../trade/stitches";
import { otherTerms } from "../../trade/term-spellings";
import { allLabels, declaringLabels, type Label, labelOf } from "./labels";
import { turnedWords } from "./other-words";
import { type StitchName, stitchNamesIn, turnedName } from "./stitch-names";

/** A word that was not turned, and why. */
export interface LeftAlone extends Span {
  readonly word: string;
  readonly why: string;
}

export interface Turned {
  /** In order; they do not overlap. */
  readonly edits: readonly TextEdit[];
  readonly left: readonly LeftAlone[];
}

type Readable = Pick<Pattern, "lines" | "context" | "pieces">;
type OwnWords = Pattern["context"]["lexicon"]["words"];

/**
 * A pattern, or a stretch of it, out of the other terms into the wanted ones. A name with a label of its
 * own, `sc (UK dc)`, is read as the label says, and both are turned: so turning back gives the same text.
 */
export function turnTerms(pattern: Readable, to: Terms, within: Span = { start: 0, end: Infinity }): Turned {
  const from = otherTerms(to);
  const own = pattern.context.lexicon.words;
  const lines = pattern.lines.map((line) => ({ line, turned: turnLine(line.text, from, own) }));
  const isWithin = ({ start, end }: Span) => start >= within.start && end <= within.end;
  const left = [
    ...lines.flatMap(({ line, turned }) => turned.left.map((one) => ({ ...one, ...shift(one, line.start) }))),
    ...notUnderstood(pattern),
  ];
  return {
    edits: lines
      .flatMap(({ line, turned }) =>
        turned.edits.map(({ span, newText }) => ({ span: shift(span, line.start), newText })),
      )
      .filter(({ span }) => isWithin(span)),
    left: left.filter(isWithin).sort((a, b) => a.start - b.start),
  };
}

/** Addresses and answers to queries are no words of a pattern. */
const notRead = /\b(?:https?:\/\/|www\.)\S+|\S+@\S+\.\S+|\[as meant:[^\]]*\]/giu;

/** One line, in offsets of its text. */
export function turnLine(line: string, from: Terms, own: OwnWords): Turned {
  const text = line.replace(notRead, (found) => " ".repeat(found.length));
  const labels = new Map<number, Label>();
  if (termsDeclaredIn(text)) for (const one of declaringLabels(text)) labels.set(one.start, one);
  const near = allLabels(text);
  const edits: TextEdit[] = [];
  const left: LeftAlone[] = [];
  for (const name of stitchNamesIn(text)) {
    const label = labelOf(name, text, near);
    if (label) labels.set(label.start, label);
    const turned = isOwn(name.spelling, own) ? null : turnedName(name, label?.terms ?? from);
    if (turned === null) left.push({ ...spanOf(name), word: name.word, why: whyLeft(name, own, from) });
    else edits.push({ span: spanOf(name), newText: turned });
  }
  for (const { start, end, turned } of labels.values()) edits.push({ span: { start, end }, newText: turned });
  const words = turnedWords(text, from).filter(({ span }) => !isOwn(text.slice(span.start, span.end), own));
  return { edits: [...edits, ...words].sort((a, b) => a.span.start - b.span.start), left };
}

function spanOf({ start, end }: Span): Span {
  return { start, end };
}

/** A word to which the pattern gives another meaning than the trade. */
export function isOwn(word: string, own: OwnWords): boolean {
  const meaning = own.get(word.toLowerCase());
  return meaning !== undefined && meaning.value !== trade.get(word.toLowerCase())?.value;
}

function whyLeft(name: StitchName, own: OwnWords, from: Terms): string {
  return isOwn(name.spelling, own)
    ? say`the pattern gives it a meaning of its own`
    : say`it is a ${otherTerms(from)} name already`;
}

/** Words of rows that nobody understood: they may hide a stitch. */
function notUnderstood({ pieces }: Readable): LeftAlone[] {
  return pieces.flatMap(({ rows }) =>
    rows.flatMap(({ plan, start }) =>
      (plan?.unknown ?? [])
        .filter(({ text }) => /\p{L}/u.test(text))
        .map(({ text, span }) => ({ ...shift(span, start), word: text, why: say`it was not understood` })),
    ),
  );
}
