import { frontMatterOf } from "../notation/front-matter/front-matter";
import { mentionsOf } from "../notation/mentions/mentions";
import type { WorkedPattern } from "../rules/rule";
import { type Span, shift } from "../text/span";
import { colourValue, type Rgb } from "../trade/colour-values";

/** A yarn by its colour or its letter, with what that looks like. */
export interface YarnColour {
  readonly span: Span;
  readonly value: Rgb;
}

/** The colours of the list of yarns, and wherever a yarn is taken up. */
export function yarnColours({ lines }: WorkedPattern): YarnColour[] {
  const { yarns } = frontMatterOf(lines);
  const byLetter = new Map(
    yarns.flatMap(({ letter, colour }) => (letter && colour ? [[letter.text, colour.text]] : [])),
  );
  const listed = yarns.flatMap(({ colour }) => coloured(colour, colour?.text));
  const known = new Set(listed.map(({ span }) => span.start));
  const used = lines.flatMap(({ content, start }) =>
    mentionsOf(content).yarns.flatMap((one) =>
      coloured(shift(one, start), one.kind === "letter" ? byLetter.get(one.name) : one.name),
    ),
  );
  return [...listed, ...used.filter(({ span }) => !known.has(span.start))];
}

function coloured(span: Span | null, name: string | undefined): YarnColour[] {
  const value = name === undefined ? null : colourValue(name);
  return span && value ? [{ span: { start: span.start, end: span.end }, value }] : [];
}
