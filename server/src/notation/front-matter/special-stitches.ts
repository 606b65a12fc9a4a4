import { type Definition, readSigned } from "./definitions";
import type { FrontLine } from "./sections";

/** How a stitch is worked: with a stitch, a chain, a loop or by hand. */
const worked =
  /\b\d*(?:sc|hdc|dc|htr|tr|dtr|ch|sl st|st|sts|yo|yoh|yrh|loops?|lps?|chain|(?:single|double) crochet|treble)\b|\dtog\b/i;

/** Stitches that a pattern explains, under a title or on a line of their own. */
export function readSpecialStitches(lines: readonly FrontLine[]): Definition[] {
  return lines.flatMap(({ topic, content }) => {
    if (topic === "special-stitches") return readSigned(content);
    return topic === "other" ? readSigned(content).filter(isOfStitch) : [];
  });
}

function isOfStitch({ name, meaning }: Definition): boolean {
  const isName =
    name.text.split(/\s+/).length <= 3 && !/^(?:set-?up|foundation|row|round|rnd)\b/i.test(name.text);
  return isName && worked.test(meaning?.text ?? "");
}
