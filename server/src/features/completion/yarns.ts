import { frontMatterOf } from "../../notation/front-matter/front-matter";
import type { Yarn } from "../../notation/front-matter/yarns";
import { say } from "../../text/say";
import { line, title } from "../shown/blocks";
import type { CompletionEntry, CompletionSource } from "./entry";
import type { WritingPlace } from "./writing-place";

/** Words that take up a yarn. */
const taking =
  /\b(?:with|using|in|(?:re)?join(?:ing)?|chang(?:e|ing)(?: colou?r)? to|switch(?:ing)? to|attach)\s+(?:yarn\s+|colou?r\s+)?\p{L}*$/iu;

/** The yarns of the materials, by letter or by colour, behind words that take one up. */
export const yarns: CompletionSource = (place) =>
  taking.test(place.before)
    ? frontMatterOf(place.pattern.lines).yarns.flatMap((yarn) => entryOf(yarn, place))
    : [];

function entryOf({ letter, colour, item, text }: Yarn, place: WritingPlace): CompletionEntry[] {
  const name = letter?.text ?? colour?.text;
  if (name === undefined) return [];
  return [
    {
      kind: "yarn",
      label: name,
      detail: letter ? (colour?.text ?? text) : "",
      span: place.word,
      newText: name,
      rank: 2,
      blocks: () => [title(say`Yarn ${name}`), line(item.text)],
    },
  ];
}
