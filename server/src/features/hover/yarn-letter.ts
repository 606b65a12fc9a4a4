import { frontMatterOf } from "../../notation/front-matter/front-matter";
import { yarnLetter as letters, type Yarn } from "../../notation/front-matter/yarns";
import { say } from "../../text/say";
import { meaningOf } from "../../trade/abbreviations";
import { type Block, line, title } from "../shown/blocks";
import type { HoverPart, Place } from "./place";

const letter = new RegExp(`^${letters}$`);

/** `B` in `Change to B`: the yarn that the materials give this letter to. */
export const yarnLetter: HoverPart = {
  at(place) {
    const { word, pattern } = place;
    if (word?.cls !== "K") return null;
    const written = place.textOf(word);
    if (!letter.test(written)) return null;
    const yarn = frontMatterOf(pattern.lines).yarns.find((one) => one.letter?.text === written);
    return {
      span: { start: word.start, end: word.end },
      blocks: yarn ? found(yarn) : unknown(written, place),
    };
  },
};

function found({ letter, colour, text, item }: Yarn): Block[] {
  return [title(say`Yarn ${letter?.text}: ${colour?.text ?? text}`), line(item.text)];
}

function unknown(written: string, { pattern }: Place): Block[] {
  const meaning = meaningOf(written, pattern.context.terms);
  return [
    title(say`Yarn ${written}${meaning ? `: ${meaning}` : ""}`),
    line(say`Nothing in this pattern says which yarn that is. Write it with the materials: 20 g blue (B).`),
  ];
}
