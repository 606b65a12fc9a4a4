import type { PatternLine } from "../../notation/document";
import { meaningOf } from "../../trade/abbreviations";
import { line, title } from "../shown/blocks";
import type { HoverPart, Place } from "./place";

const letter = /^(?:[A-H]|MC|CC\d?|C[A-F])$/;

/** `B` in `Change to B`: the yarn that the materials give this letter to. */
export const yarnLetter: HoverPart = {
  at(place) {
    const { word, pattern } = place;
    const written = word ? pattern.text.slice(word.start, word.end) : "";
    if (word?.cls !== "K" || !letter.test(written)) return null;
    const span = { start: word.start, end: word.end };
    const found = yarnOf(written, place);
    if (found) return { span, blocks: [title(`Yarn ${written}: ${found.yarn}`), line(found.line.text)] };
    const meaning = meaningOf(written, pattern.context.terms);
    return {
      span,
      blocks: [
        title(`Yarn ${written}${meaning ? `: ${meaning}` : ""}`),
        line("Nothing in this pattern says which yarn that is."),
      ],
    };
  },
};

/** Characters; a longer line lists no yarns. */
const longestLine = 2_000;

function yarnOf(
  letter: string,
  { pattern }: Place,
): { readonly yarn: string; readonly line: PatternLine } | null {
  const shapes = shapesOf(letter);
  for (const line of pattern.lines) {
    if (
      line.kind === "row" ||
      line.kind === "copy" ||
      line.kind === "foundation" ||
      line.text.length > longestLine
    )
      continue;
    const yarn = shapes.map((shape) => shape.exec(line.text)?.[1]).find((found) => found !== undefined);
    if (yarn) return { yarn: yarn.trim(), line };
  }
  return null;
}

/** `8 g sand (A), 12 g blue (B) and white (C)`; `A: sand`; `Yarn A - sand`. */
function shapesOf(letter: string): RegExp[] {
  return [
    new RegExp(
      String.raw`(?:^|[,;:]|\band\b)\s*((?:(?!\band\b)[^,;:()])+?)\s*\((?:colou?r |yarn )?${letter}\)`,
      "u",
    ),
    new RegExp(String.raw`(?:^|[,;(])\s*(?:yarn |colou?r )?${letter}\s*(?:[:=]|\s[-–—])\s*([^,;()]+)`, "iu"),
  ];
}
