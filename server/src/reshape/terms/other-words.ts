import type { TextEdit } from "../../text/span";
import type { Terms } from "../../trade/stitches";
import { likeCase } from "./like-case";

/** A word of pattern writing that the other terms have another for. */
interface WordPair {
  readonly from: Terms;
  readonly form: RegExp;
  turned(word: string): string;
}

/** What is skipped: it tells the word from "you will miss it". */
const skipped =
  "(?=\\s+(?:over\\s+)?(?:the\\s+|a\\s+|an\\s+)?(?:next|first|last|following|foll|same|remaining|each|every|turning|\\d|one|two|three|four|five|six|seven|eight|nine|ten|ch|chs|chain|chains|sts?|stitch|stitches|sps?|space|spaces|loops?|lps?|[sd]c|h?dc|h?tr|beg|corner|base)(?!\\p{L}))";
const word = (spelled: string, behind = "") =>
  new RegExp(`(?<![\\p{L}'’])(?:${spelled})(?!\\p{L})${behind}`, "giu");
const become =
  (text: string) =>
  (found: string): string =>
    likeCase(text, found);

/**
 * Sources: hilandonubes.com/crochet/info.cgi?id=3008 (skip and miss, gauge and tension); the same pattern
 * in both, patternsforcrochet.co.uk/beanie-hat-usa.html and beanie-hat.html (gauge and tension, sl st and
 * ss); a UK book's list, cdn.shopify.com IW_CB960_SHAWLS_BOOK (yo and yrh). "yoh" and "sl st" are printed
 * in both.
 */
const pairs: readonly WordPair[] = [
  { from: "US", form: word("sk"), turned: become("miss") },
  { from: "US", form: word("skip", skipped), turned: become("miss") },
  { from: "US", form: word("skips", skipped), turned: become("misses") },
  { from: "US", form: word("skipped", skipped), turned: become("missed") },
  { from: "US", form: word("skipping", skipped), turned: become("missing") },
  { from: "US", form: word("gauge"), turned: become("tension") },
  { from: "US", form: word("yo"), turned: become("yrh") },
  { from: "US", form: word("yarn over", "(?!\\s+(?:the\\s+)?hook)"), turned: become("yarn round hook") },
  { from: "UK", form: word("miss", `(?:${skipped}|(?=\\s*[=:–-]))`), turned: become("sk") },
  { from: "UK", form: word("misses", skipped), turned: become("skips") },
  { from: "UK", form: word("missed", skipped), turned: become("skipped") },
  { from: "UK", form: word("missing", skipped), turned: become("skipping") },
  // "Keep an even tension" is about the yarn.
  {
    from: "UK",
    form: /(?<![\p{L}'’])(?<!\b(?:even|tight|loose|yarn|firm|thread)\s+)tension(?!\p{L})/giu,
    turned: become("gauge"),
  },
  { from: "UK", form: word("yrh"), turned: become("yo") },
  { from: "UK", form: word("yarn round (?:the )?hook"), turned: become("yarn over") },
  {
    from: "UK",
    form: word("ss(?!\\s+(?:sts|stitches)\\b)(?:\\s+(?:st|stitch)\\b)?"),
    turned: become("sl st"),
  },
  { from: "UK", form: word("ss\\s+(?:sts|stitches)"), turned: become("sl sts") },
];

/** The words of pattern writing in a text, turned out of the given terms. */
export function turnedWords(text: string, from: Terms): TextEdit[] {
  return pairs
    .filter((pair) => pair.from === from)
    .flatMap(({ form, turned }) =>
      [...text.matchAll(form)].map(({ 0: found, index }) => ({
        span: { start: index, end: index + found.length },
        newText: turned(found),
      })),
    );
}
