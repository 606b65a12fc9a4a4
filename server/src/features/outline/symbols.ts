import { partsOf, type WorkedPart } from "../../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { frontMatterOf } from "../../notation/front-matter/front-matter";
import { readHeading } from "../../notation/headings";
import type { WorkedPattern } from "../../rules/rule";
import { say } from "../../text/say";
import type { Span } from "../../text/span";
import { rowTitle } from "../row-names";
import { sized } from "../shown/sized";

/** A part, a piece, a row or a special stitch in the outline of a pattern. */
export interface OutlineEntry {
  readonly kind: "part" | "piece" | "row" | "special stitch";
  readonly name: string;
  /** `24 sts`. */
  readonly detail: string;
  /** All that belongs to it, and what names it there. */
  readonly span: Span;
  readonly nameSpan: Span;
  readonly inside: readonly OutlineEntry[];
}

/** The parts of a pattern with their rows, in order. */
export function outlineEntries(pattern: WorkedPattern): OutlineEntry[] {
  return partsOf(pattern).flatMap((part) => entriesOf(part, pattern));
}

function entriesOf(part: WorkedPart, pattern: WorkedPattern): OutlineEntry[] {
  const rows = part.piece?.rows.map(rowEntry) ?? [];
  const { heading } = part;
  const name = heading && readHeading(heading.text.trim()).name;
  const span = { start: heading?.start ?? 0, end: endOf(part) };
  const inside = [...specialIn(span, pattern), ...rows];
  if (!heading || !name) return inside;
  const kind = part.piece ? "piece" : "part";
  return [{ kind, name, detail: makeOf(part.piece), span, nameSpan: heading, inside }];
}

function makeOf(piece: WorkedPiece | null): string {
  const make = piece?.piece.make ?? 1;
  return make > 1 ? say`make ${make}` : "";
}

/** Blank lines at its end belong to no part. */
export function endOf({ heading, lines }: WorkedPart): number {
  return lines.findLast(({ kind }) => kind !== "blank")?.end ?? heading?.end ?? 0;
}

function specialIn({ start, end }: Span, { lines }: WorkedPattern): OutlineEntry[] {
  return frontMatterOf(lines)
    .specialStitches.filter((one) => start <= one.start && one.end <= end)
    .map(({ name, meaning, ...span }) => ({
      kind: "special stitch",
      name: name.text,
      detail: meaning?.text ?? "",
      span: { start: span.start, end: span.end },
      nameSpan: { start: name.start, end: name.end },
      inside: [],
    }));
}

function rowEntry(row: WorkedRow): OutlineEntry {
  const { line, outcome, result } = row;
  const made = result === "unchecked" ? null : outcome?.makes;
  const { span } = line;
  const head = { start: span.start, end: Math.max(span.start, Math.min(line.start, span.end)) };
  return {
    kind: "row",
    name: rowTitle(row) || "row",
    detail: made && line.kind !== "foundation" ? say`${sized(made)} sts` : "",
    span,
    nameSpan: head,
    inside: [],
  };
}
