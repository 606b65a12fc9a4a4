import type { Place } from "./mutant";

/** A slip that is not found, as far as its cause can be told. */
export interface Survivor {
  readonly place: Place;
  /** How its row was judged, and with what reason or assumption. */
  readonly why: string;
  readonly isNoted: boolean;
}

/** What survivors have in common that fit and count as they stand, by what was changed. */
const unseen: Readonly<Partial<Record<Place, string>>> = {
  chain: "a chain of another length, which no count and no later row names",
  "starting chain": "a starting chain that the first row fits as well",
  place: "another word for a place, which leads to the same one or fits as well",
  stitch: "another stitch where only a place or a remark is named, or where nobody counts it",
  "item left out": "an instruction without which the numbers come out as well",
  "item twice": "an instruction twice that changes no number the row is held to",
  number: "another number where the count allows for both",
  count: "a count that another reading of the row comes to",
};

/** The cause of a survivor, in words that many of them share. */
export function causeOf({ place, why, isNoted }: Survivor): string {
  if (why.startsWith("unchecked: ")) return `left unchecked: ${alike(why.slice("unchecked: ".length))}`;
  if (isNoted) return "told as a note: the row may be meant so";
  if (why.startsWith("ok; ")) return `swallowed by another meaning: ${alike(why.slice("ok; ".length))}`;
  return unseen[place] ?? `${place}: nothing in the row speaks against it`;
}

export function isSwallowed({ why }: Survivor): boolean {
  return why.startsWith("ok; ");
}

/** Without its numbers and quotations. */
function alike(said: string): string {
  return said.replace(/"[^"]*"/g, '"…"').replace(/\d+/g, "…");
}
