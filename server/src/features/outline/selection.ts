import { partsOf } from "../../fabric/parts";
import { usualOptions } from "../../measure/materials";
import type { WorkedPattern } from "../../rules/rule";
import { type Span, shift } from "../../text/span";
import { Place } from "../hover/place";
import { holds } from "../names/named-thing";
import { instructionsOf } from "../row-instructions";
import { endOf } from "./symbols";

/** What a selection grows to, step by step: word, stitch with its place, repeat, instructions, row, piece, pattern. */
export function selectionsAt(pattern: WorkedPattern, offset: number): Span[] {
  const place = new Place(pattern, offset, usualOptions);
  const around = [
    ...wordAt(place),
    ...instructionsAt(place),
    ...rowAround(place),
    ...(place.line ? [{ start: place.line.start, end: place.line.end }] : []),
    ...partsAround(pattern),
    { start: 0, end: pattern.text.length },
  ].filter((span) => holds(span, offset));
  return growing(around);
}

/** The word that the offset is in or right behind. */
function wordAt({ words, offset }: Place): Span[] {
  const word = words.find((one) => holds(one, offset));
  return word ? [{ start: word.start, end: word.end }] : [];
}

function instructionsAt({ placed, pattern }: Place): Span[] {
  const { plan = null, start = 0, text = "" } = placed?.row.line ?? {};
  if (!plan) return [];
  const spans = [...instructionsOf({ instructions: plan.instructions, carried: plan.carried }).keys()];
  const stated = plan.statedSpan ? [plan.statedSpan] : [];
  const all = [...spans, ...stated].filter((span) => span.end <= text.length);
  return all.map((span) => trimmed(shift(span, start), pattern.text));
}

function trimmed({ start, end }: Span, text: string): Span {
  const said = text.slice(start, end);
  return { start: start + said.length - said.trimStart().length, end: start + said.trimEnd().length };
}

function rowAround({ placed }: Place): Span[] {
  if (!placed) return [];
  const { line } = placed.row;
  return [{ start: line.start, end: line.span.end }, line.span];
}

function partsAround(pattern: WorkedPattern): Span[] {
  return partsOf(pattern).map((part) => ({
    start: part.heading?.start ?? part.lines[0]?.start ?? 0,
    end: endOf(part),
  }));
}

/** Each holds the one before and is larger. */
function growing(spans: readonly Span[]): Span[] {
  const bySize = [...spans].sort((a, b) => a.end - a.start - (b.end - b.start));
  const chain: Span[] = [];
  for (const span of bySize) {
    const last = chain.at(-1);
    const holdsLast = !last || (span.start <= last.start && last.end <= span.end);
    if (holdsLast && !(last && span.start === last.start && span.end === last.end)) chain.push(span);
  }
  return chain;
}
