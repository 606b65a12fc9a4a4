import { line } from "../shown/blocks";
import type { CompletionSource } from "./entry";

/** Lines that stand above the rows, each with what is written there. */
const lines: readonly (readonly [text: string, tells: string, there: RegExp])[] = [
  ["Terms: US", "which names the stitches have: US", /^\s*terms\b/im],
  ["Terms: UK", "which names the stitches have: UK", /^\s*terms\b/im],
  ["Level: ", "how hard it is", /^\s*(?:skill )?level\b/im],
  ["Sizes: ", "S (M, L): rows then give a number for each", /^\s*sizes?\b/im],
  ["Finished size: ", "how large it becomes", /^\s*(?:finished|size)\b/im],
  ["Materials", "yarn with amounts, hook, notions, a line each", /^\s*(?:materials?|you will need)\b/im],
  ["Gauge: ", "stitches and rows to 10 cm (4 in)", /^\s*(?:gauge|tension)\b/im],
  ["Tension: ", "stitches and rows to 10 cm (4 in), as UK patterns call it", /^\s*(?:gauge|tension)\b/im],
  ["Abbreviations", "what the short words stand for, a line each", /^\s*abbreviations?\b/im],
  ["Special stitches", "stitches that this pattern explains", /^\s*(?:special stitch|stitch guide)/im],
  ["Notes", "what holds for all rows", /^\s*(?:pattern )?notes?\b/im],
];

/** Lines of the front matter that are not there yet, where such a line may begin. */
export const headerLines: CompletionSource = (place) => {
  const { pattern, above, line: at, offset } = place;
  const first = pattern.pieces[0]?.rows[0]?.line.span.start ?? Number.POSITIVE_INFINITY;
  if (!place.isAtStart && !/^\s*\p{L}[\p{L} ]*$/u.test(place.before)) return [];
  if (above || offset > first || place.isInRow || place.behind.trim() !== "") return [];
  const others = pattern.text.slice(0, at.start) + pattern.text.slice(at.end, at.end + 100_000);
  const indent = /^\s*/.exec(place.before)?.[0].length ?? 0;
  return lines
    .filter(([, , there]) => !there.test(others))
    .map(([text, tells]) => ({
      kind: "header",
      label: text.trim(),
      detail: tells,
      span: { start: at.start + indent, end: offset },
      newText: text,
      rank: 60,
      blocks: () => [line(tells)],
    }));
};
