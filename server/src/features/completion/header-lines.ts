import { sayings } from "../../text/say";
import { line } from "../shown/blocks";
import type { CompletionSource } from "./entry";

/** What is written on a line above the rows. */
const tells = sayings({
  us: "which names the stitches have: US",
  uk: "which names the stitches have: UK",
  level: "how hard it is",
  sizes: "S (M, L): rows then give a number for each",
  finished: "how large it becomes",
  materials: "yarn with amounts, hook, notions, a line each",
  gauge: "stitches and rows to 10 cm (4 in)",
  tension: "stitches and rows to 10 cm (4 in), as UK patterns call it",
  abbreviations: "what the short words stand for, a line each",
  special: "stitches that this pattern explains",
  notes: "what holds for all rows",
});

/** Lines that stand above the rows. */
const lines: readonly (readonly [text: string, tells: Parameters<typeof tells>[0], there: RegExp])[] = [
  ["Terms: US", "us", /^\s*terms\b/im],
  ["Terms: UK", "uk", /^\s*terms\b/im],
  ["Level: ", "level", /^\s*(?:skill )?level\b/im],
  ["Sizes: ", "sizes", /^\s*sizes?\b/im],
  ["Finished size: ", "finished", /^\s*(?:finished|size)\b/im],
  ["Materials", "materials", /^\s*(?:materials?|you will need)\b/im],
  ["Gauge: ", "gauge", /^\s*(?:gauge|tension)\b/im],
  ["Tension: ", "tension", /^\s*(?:gauge|tension)\b/im],
  ["Abbreviations", "abbreviations", /^\s*abbreviations?\b/im],
  ["Special stitches", "special", /^\s*(?:special stitch|stitch guide)/im],
  ["Notes", "notes", /^\s*(?:pattern )?notes?\b/im],
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
    .map(([text, what]) => ({
      kind: "header",
      label: text.trim(),
      detail: tells(what),
      span: { start: at.start + indent, end: offset },
      newText: text,
      rank: 60,
      blocks: () => [line(tells(what))],
    }));
};
