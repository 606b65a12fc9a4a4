import { forSize, type StatedTerm } from "../../fabric/instructions";
import { type Outcome, tally } from "../../fabric/outcome";
import { counted } from "../../rules/wording";
import { say } from "../../text/say";
import { shift } from "../../text/span";
import { type Stitch, stitchOf, type Terms } from "../../trade/stitches";
import type { PlacedRow } from "../placed-row";
import { type Block, list, title } from "../shown/blocks";
import { sizeTable } from "../shown/size-table";
import { nameIn } from "../shown/stitch-names";
import type { HoverPart } from "./place";

/** `(32 hdc, 16 ch-1 sps)`: what is counted, and what the row makes of it. */
export const statedCount: HoverPart = {
  at(place) {
    const { placed, offset, pattern } = place;
    const plan = placed?.row.line.plan;
    if (!placed || !plan?.stated || !plan.statedSpan) return null;
    const span = shift(plan.statedSpan, placed.row.line.start);
    if (offset < span.start || offset >= span.end) return null;
    const { sizes, terms } = pattern.context;
    const rows = plan.stated.flatMap((term, i) => termRows(term, i, placed));
    return {
      span,
      blocks: [
        title(place.textOf(span)),
        ...sizeTable("", sizes, rows),
        ...notes(plan.stated, placed, terms),
      ],
    };
  },
};

function termRows(
  term: StatedTerm,
  i: number,
  { row, piece }: PlacedRow,
): { label: string; cells: (string | null)[] }[] {
  const { outcome, result } = row;
  const sizes = outcome?.counted ?? piece.context.sizes.map(() => null);
  const before = term.noun === "" ? "" : `${term.noun}, `;
  const stated = sizes.map((_, size) => textOfNumber(forSize(term.n, size)));
  const made =
    result === "unchecked"
      ? []
      : sizes.map((counted) => textOfNumber(counted ? ([...counted.kinds.values()][i] ?? null) : null));
  return [
    { label: say`${before}the line says`, cells: stated },
    { label: say`${before}the row makes`, cells: made },
  ];
}

function textOfNumber(n: number | null): string | null {
  return n === null ? null : `${n}`;
}

function notes(stated: readonly StatedTerm[], { row }: PlacedRow, terms: Terms): Block[] {
  const counted = row.outcome?.counted ?? [];
  const chains = counted.some((one) => one?.chainsCounted);
  const doubt = counted.find((one) => one?.doubt)?.doubt;
  return list([
    ...new Set(stated.map((term) => meaning(term, terms, row.outcome))),
    ...(chains ? [say`The chains or chain spaces are in this count.`] : []),
    ...(doubt ? [say`It would be another number if ${doubt.says}.`] : []),
    ...(row.result === "unchecked"
      ? [say`The row is not checked; the rows that follow are checked against this count.`]
      : []),
  ]);
}

/** What a term of a count counts. */
function meaning({ sort, noun, chains, word }: StatedTerm, terms: Terms, outcome: Outcome | null): string {
  const stitch = stitchOf(word, terms);
  switch (sort) {
    case "any":
      return hasSpaces(outcome)
        ? say`Counted: every stitch, whatever its kind; chain spaces apart.`
        : say`Counted: every stitch.`;
    case "stitch":
      return stitch ? say`Counted: ${named(stitch, noun, terms)}.` : say`Counted: ${noun}.`;
    case "space":
      return say`Counted: spaces${chains === undefined ? "" : say` of ${counted(chains, "chain")}`}.`;
    case "chain":
      return say`Counted: chains, one by one.`;
    case "turning-chain":
      return say`Counted: the chain that opens the row, beside the stitches.`;
    case "unit":
      return say`Counted: whole groups or special stitches, each as one (${noun}).`;
  }
}

function named(stitch: Stitch, noun: string, terms: Terms): string {
  return `${noun} (${nameIn(stitch, terms)})`;
}

function hasSpaces(outcome: Outcome | null): boolean {
  return outcome?.steps.some((steps) => tally(steps).spaces.size > 0) ?? false;
}
