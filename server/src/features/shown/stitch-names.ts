import { say } from "../../text/say";
import { abbreviationOf, type Stitch, type Terms } from "../../trade/stitches";

/** `single crochet`: the name of a stitch in given terms. */
export function nameIn(stitch: Stitch, terms: Terms): string {
  return terms === "US" ? stitch.usName : stitch.ukName;
}

/** `single crochet (UK: double crochet)`; one name where both countries have the same. */
export function fullName(stitch: Stitch, terms: Terms): string {
  const other = terms === "US" ? "UK" : "US";
  const [own, theirs] = [nameIn(stitch, terms), nameIn(stitch, other)];
  return own === theirs ? own : `${own} (${other}: ${theirs})`;
}

/** `In UK terms it is written dc.`; null where both countries write it alike. */
export function otherAbbreviation(stitch: Stitch, terms: Terms): string | null {
  const other = terms === "US" ? "UK" : "US";
  const theirs = abbreviationOf(stitch, other);
  return theirs === abbreviationOf(stitch, terms) ? null : say`In ${other} terms it is written ${theirs}.`;
}
