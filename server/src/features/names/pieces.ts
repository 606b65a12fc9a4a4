import { sentencesOf } from "../../notation/assembly";
import { trade } from "../../notation/vocabulary";
import { type MadePiece, makingOf } from "../../rules/pieces-made";
import type { WorkedPattern } from "../../rules/rule";
import { say } from "../../text/say";
import { type Span, shift, type TextEdit } from "../../text/span";
import { holds, type NamedThing, type NameSource, type NotRenamed } from "./named-thing";

/** `Handle (make 2)` and `sew the handles on`. */
export const pieces: NameSource = {
  at({ pattern, offset, line }) {
    if (!line) return null;
    const { names, pieces: all } = makingOf(pattern);
    const own = all.find((piece) => holds(headingOf(piece), offset));
    const said = sentencesOf(line.content)
      .flatMap((sentence) => names.mentionsIn(sentence))
      .find((one) => one.isWhole && holds(shift(one, line.start), offset));
    const [meant] = said?.pieces ?? [];
    const piece = own ?? (said?.pieces.length === 1 ? meant : undefined);
    if (!piece) return null;
    return namedThing(piece, own ? headingOf(piece) : shift(spanOf(said), line.start), pattern);
  },
};

function spanOf(span: Span | undefined): Span {
  return { start: span?.start ?? 0, end: span?.end ?? 0 };
}

/** The name in the heading, without `(make 2)`. */
function headingOf({ heading: { text, start }, name }: MadePiece): Span {
  const at = Math.max(0, text.indexOf(name));
  return { start: start + at, end: start + at + name.length };
}

function namedThing(piece: MadePiece, span: Span, pattern: WorkedPattern): NamedThing {
  const heading = headingOf(piece);
  const uses = usesOf(piece, pattern);
  const isOne = piece.words.length === 1 && pattern.text.slice(heading.start, heading.end) === piece.name;
  return {
    span,
    name: pattern.text.slice(span.start, span.end),
    definitions: [heading],
    uses,
    fixed: isOne ? null : say`This heading names more than one piece. Change it by hand.`,
    renamed: (to) =>
      whyNot(to, pattern) ?? [
        edit(heading, to, pattern.text),
        ...uses.map((use) => edit(use, to, pattern.text)),
      ],
  };
}

/** Wherever all words of its name stand, and no other piece is meant. */
function usesOf(piece: MadePiece, pattern: WorkedPattern): Span[] {
  const { names } = makingOf(pattern);
  const heading = headingOf(piece);
  return pattern.lines.flatMap((line) => {
    if (line.kind === "blank" || holds(line, heading.start)) return [];
    return sentencesOf(line.content)
      .flatMap((sentence) => names.mentionsIn(sentence))
      .filter((one) => one.isWhole && one.pieces.length === 1 && one.pieces[0] === piece)
      .map((one) => shift(spanOf(one), line.start));
  });
}

function whyNot(to: string, pattern: WorkedPattern): NotRenamed | null {
  if (!/^\p{L}[\p{L}\p{N} '’-]{0,59}$/u.test(to)) return { why: say`A piece is named by words.` };
  const name = to.toLowerCase();
  const isTaken = pattern.pieces.some(({ piece }) => piece.name.toLowerCase() === name);
  if (isTaken) return { why: say`There is a piece named "${to}" already.` };
  const meaning = trade.get(name);
  if (meaning && meaning.cls !== "N")
    return {
      why: say`The trade uses "${to}" in rows: makers would not take it for a piece. Choose another name.`,
    };
  return null;
}

/** As the place is written: in capitals, with a capital, in the plural. */
function edit(span: Span, to: string, text: string): TextEdit {
  const before = text.slice(span.start, span.end);
  const plural = /s$/i.test(before) && !/s$/i.test(to) && !/ss$/i.test(before) ? `${to}s` : to;
  if (before === before.toUpperCase() && before.length > 1) return { span, newText: plural.toUpperCase() };
  const isCapital = /^\p{Lu}/u.test(before);
  const first = isCapital ? plural.charAt(0).toUpperCase() : plural.charAt(0).toLowerCase();
  return { span, newText: first + plural.slice(1) };
}
