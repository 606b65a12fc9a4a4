import type { Below } from "./below";
import type { Going } from "./goings";
import { placesOf } from "./place-finder";
import { countPlaces, rotate, type Strip, type StripNode, slice } from "./strip";

/**
 * What a row finds, with places for so many more passes of a repeat: places like those of the first
 * pass, put in behind it wherever the repeat was worked. `movedTo` is where the round began.
 */
export function grown(below: Below, movedTo: number, goings: readonly Going[], passes: number): Below {
  const places = rotate(placesOf(below), movedTo);
  const more = withPasses(places, goings, passes);
  const marked = below.marked === null ? null : below.marked + addedBefore(below.marked, goings, passes);
  const chain = below.chain === null ? null : countPlaces(more);
  return { ...below, strip: rotate(more, countPlaces(more) - movedTo), marked, chain };
}

function withPasses(places: Strip, goings: readonly Going[], times: number): Strip {
  const out: StripNode[] = [];
  let at = 0;
  for (const { from, first } of goings) {
    out.push(...slice(places, at, first));
    if (times > 0 && first > from) out.push({ body: slice(places, from, first), times });
    at = first;
  }
  return [...out, ...slice(places, at, countPlaces(places))];
}

function addedBefore(at: number, goings: readonly Going[], passes: number): number {
  return goings.reduce((sum, { from, first }) => sum + (first <= at ? (first - from) * passes : 0), 0);
}
