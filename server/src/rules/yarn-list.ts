import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import type { Stretch } from "../notation/front-matter/stretch";
import type { Yarn } from "../notation/front-matter/yarns";
import { mentionsOf } from "../notation/mentions/mentions";
import { keptBy } from "../text/kept-by";
import { colourShades } from "../trade/colours";
import type { WorkedPattern } from "./rule";

/** The yarns a pattern lists, as far as rows can call them by letter or colour. */
export interface YarnList {
  readonly yarns: readonly Yarn[];
  /** Letters of the list, and any other that the front matter names. */
  readonly letters: ReadonlySet<string>;
  /** Words of the front matter, in lower case: a colour that is among them is told of. */
  readonly words: ReadonlySet<string>;
  /** `white`, `foam white (C)`: as the list has them. */
  readonly names: readonly string[];
}

/** Null where a pattern lists no yarn by letter or colour: then nothing can be missing. */
export function yarnListOf({ lines }: Pick<WorkedPattern, "lines">): YarnList | null {
  return listOf(frontMatterOf(lines));
}

const listOf = keptBy((front: FrontMatter): YarnList | null => {
  const yarns = front.yarns.filter(({ letter, colour }) => letter !== null || colour !== null);
  if (yarns.length === 0) return null;
  const holdsYarn = ({ start, end }: Stretch): boolean =>
    front.yarns.some((yarn) => start <= yarn.start && yarn.end <= end);
  const lists = front.lines.filter(
    ({ topic, line }) => topic !== "other" || front.yarns.length === 0 || holdsYarn(line),
  );
  const said = lists.map(({ line }) =>
    mentionsOf({ text: withoutHooks(line, front), kind: "prose", head: null }),
  );
  return {
    yarns,
    letters: new Set(said.flatMap(({ letters }) => letters)),
    words: new Set(said.flatMap(({ words }) => words.map(plainColour))),
    names: yarns.map(nameOf),
  };
});

/** `2.75 mm (US C-2)` names no yarn C. */
function withoutHooks({ text, start, end }: Stretch, { hooks }: FrontMatter): string {
  return hooks
    .filter((hook) => hook.start >= start && hook.end <= end)
    .reduce((rest, hook) => {
      const blank = " ".repeat(hook.end - hook.start);
      return rest.slice(0, hook.start - start) + blank + rest.slice(hook.end - start);
    }, text);
}

/** What a yarn is called: its colour, else its letter. */
export function nameOf({ colour, letter }: Yarn): string {
  return colour && letter ? `${colour.text} (${letter.text})` : ((colour ?? letter)?.text ?? "");
}

/** The words of a colour that tell it from others: not `light`. */
export function colourWords(name: string): string[] {
  const words = name
    .toLowerCase()
    .split(/[\s-]+/)
    .map(plainColour);
  const telling = words.filter((word) => !colourShades.has(word));
  return telling.length > 0 ? telling : words;
}

function plainColour(word: string): string {
  return word === "gray" ? "grey" : word;
}
