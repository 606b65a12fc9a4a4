import type { Definition } from "../../notation/front-matter/definitions";
import { frontMatterOf } from "../../notation/front-matter/front-matter";
import { say } from "../../text/say";
import { type Block, line, title } from "../shown/blocks";
import type { CompletionEntry, CompletionSource } from "./entry";
import type { WritingPlace } from "./writing-place";

/** What the pattern itself explains: special stitches, and the words of its list of abbreviations. */
export const ownWords: CompletionSource = (place) => {
  if (!place.isInRow) return [];
  const { specialStitches, abbreviations } = frontMatterOf(place.pattern.lines);
  const listed = abbreviations.flatMap(({ entries }) => entries);
  return [
    ...specialStitches.flatMap((one) => entriesOf(one, 5, place)),
    ...listed.flatMap((one) => entriesOf(one, 12, place)),
  ];
};

function entriesOf(definition: Definition, rank: number, place: WritingPlace): CompletionEntry[] {
  const { name, meaning, names } = definition;
  return names.map((one) => {
    const label = asInRows(one, name.text);
    return {
      kind: "own stitch",
      label,
      detail: meaning?.text ?? "",
      span: place.beginningOf(label),
      newText: label,
      rank,
      blocks: (): Block[] => [
        title(label),
        ...(meaning ? [line(say`In this pattern: ${meaning.text}`)] : []),
      ],
    };
  });
}

/** `V-st` and `MR` keep their capitals; a word that only begins its line with one has none in rows. */
function asInRows(name: string, written: string): string {
  const at = written.toLowerCase().indexOf(name);
  const own = at < 0 ? name : written.slice(at, at + name.length);
  return /^\p{Lu}\p{Ll}/u.test(own) ? name : own;
}
