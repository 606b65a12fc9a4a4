import { otherWord } from "./other-things";
import type { FrontLine } from "./sections";
import { type Stretch, splitOutsideBrackets } from "./stretch";
import { itemsOf } from "./yarns";

/** What else is needed: needles, markers, stuffing. */
export function readNotions(lines: readonly FrontLine[]): Stretch[] {
  return lines
    .filter(({ topic }) => topic === "materials" || topic === "notions")
    .flatMap(({ content, topic }) =>
      itemsOf(content)
        .flatMap((item) => splitOutsideBrackets(item, ","))
        .filter(({ text }) => !/\bhooks?\b/i.test(text) && (topic === "notions" || otherWord.test(text))),
    );
}
