import type { YarnMention } from "../notation/mentions/yarns";
import { say } from "../text/say";
import type { Fix, Found, PatternRule } from "./rule";
import { placeOf, type Used, usesOf } from "./uses";
import { listed } from "./wording";
import { colourWords, type YarnList, yarnListOf } from "./yarn-list";

/** A yarn is taken up that the materials leave out. */
export const unlistedYarn: PatternRule = {
  id: "unlisted-yarn",
  severity: "warning",
  documentation: `## What it finds
A yarn that a row or sentence takes up, by its letter or colour, and the list of yarns leaves out. A pattern that lists no letters or colours is left alone.

## Why it matters
Makers buy what the list says, and notice in the middle of the work that a colour is missing. Or the name was left over from another version.

## Example
\`\`\`crochet
Materials
Cotton: 50 g red, 20 g white

With red:
Rnd 1: 6 sc in magic ring (6)
Change to white.
Rnd 2: inc x6 (12)
Change to navy.
Rnd 3: sc in each st around (12)
\`\`\`

## Mended
\`\`\`crochet
Materials
Cotton: 50 g red, 20 g white, 10 g navy

With red:
Rnd 1: 6 sc in magic ring (6)
Change to white.
Rnd 2: inc x6 (12)
Change to navy.
Rnd 3: sc in each st around (12)
\`\`\`
`,
  check(pattern) {
    const list = yarnListOf(pattern);
    if (!list) return [];
    const first = new Map<string, Used<YarnMention>>();
    for (const used of usesOf(pattern).yarns)
      if (!first.has(used.mention.name)) first.set(used.mention.name, used);
    const missing = [...first.values()].filter(({ mention }) => !isListed(mention, list));
    const names = missing.map(({ mention }) => mention.name.toLowerCase());
    return missing
      .filter((_, i) => names.indexOf(names[i] as string) === i)
      .map((used) => foundOn(used, list));
  },
};

function isListed({ kind, name }: YarnMention, { letters, words, yarns }: YarnList): boolean {
  if (kind === "letter") return letters.has(name) || yarns.every(({ letter }) => letter === null);
  return colourWords(name).some((word) => words.has(word)) || yarns.every(({ colour }) => colour === null);
}

function foundOn(used: Used<YarnMention>, { names, yarns }: YarnList): Found {
  const { kind, name } = used.mention;
  const called = kind === "letter" ? say`Yarn ${name}` : say`"${name}"`;
  const last = yarns.at(-1)?.item;
  return {
    span: placeOf(used),
    message: say`${called} is used here, and the list of yarns has ${listed(names, "and")}. Add it to the list, or write the name that is meant.`,
    fixes: last ? [add(name, last.end)] : [],
    related: last ? [{ span: { start: last.start, end: last.end }, message: say`The list of yarns.` }] : [],
  };
}

function add(name: string, at: number): Fix {
  const edits = () => [{ span: { start: at, end: at }, newText: `, ${name}` }];
  return { title: say`Add "${name}" to the yarns`, edits };
}
