import { countPlaces, type Run, runsOf, type Strip } from "../../fabric/strip";
import { say } from "../../text/say";
import { stitchOf } from "../../trade/stitches";
import { rowTitle } from "../row-names";
import { line, title } from "../shown/blocks";
import { nameIn } from "../shown/stitch-names";
import type { CompletionEntry, CompletionSource } from "./entry";
import type { WritingPlace } from "./writing-place";

/** Behind `in`, `sk` and the like: the places that the row below really has. */
export const places: CompletionSource = (place) => {
  const below = place.isInRow && leading.test(place.before) ? belowOf(place) : null;
  return below ? sortsIn(below.strip).flatMap((sort) => entriesOf(sort, below, place)) : [];
};

const leading =
  /\b(?:in|into|around|over|sk|skip|miss)\s+(?:(?:the|next|each|first|last|same)\s+)?[\p{L}\d-]*$/iu;

interface BelowRow {
  readonly strip: Strip;
  readonly name: string;
}

function belowOf({ current, above }: WritingPlace): BelowRow | null {
  const row = current?.row;
  const strip = row?.found?.state.find((one) => one !== null)?.strip;
  const name = row?.below ? rowTitle({ line: row.below }) : above && rowTitle(above.row);
  return strip && name ? { strip, name } : null;
}

interface Sort {
  readonly words: string;
  readonly n: number;
  readonly kind: string;
}

/** `sc`, `ch-2 sp`: each sort of places once, with how many there are. */
function sortsIn(strip: Strip): Sort[] {
  const byWords = new Map(runsOf(strip).map((run) => [wordsFor(run), run] as const));
  return [...byWords].map(([words, { kind }]) => ({
    words,
    kind,
    n: countPlaces(strip, (run) => wordsFor(run) === words),
  }));
}

function wordsFor({ sort, kind, chains }: Run): string {
  if (sort === "stitch") return kind;
  if (sort === "chain") return "ch";
  return chains === undefined ? "ch sp" : `ch-${chains} sp`;
}

function entriesOf({ words, n, kind }: Sort, { name }: BelowRow, place: WritingPlace): CompletionEntry[] {
  const { terms } = place.pattern.context;
  const stitch = stitchOf(kind, terms);
  return ["next", "each"].map((which) => {
    const label = `${which} ${words}`;
    return {
      kind: "place",
      label,
      detail: say`${n} in ${name}`,
      span: place.beginningOf(label),
      newText: label,
      rank: 4,
      blocks: () => [
        title(label),
        line(say`${name} has ${n} of them${stitch && words === kind ? `: ${nameIn(stitch, terms)}` : ""}.`),
      ],
    };
  });
}
