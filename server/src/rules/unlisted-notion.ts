import { sentencesOf } from "../notation/assembly";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { Stretch } from "../notation/front-matter/stretch";
import type { PatternLine } from "../notation/lines";
import { say } from "../text/say";
import type { Span, TextEdit } from "../text/span";
import { inProse } from "./outline";
import { makingOf } from "./pieces-made";
import type { Found, PatternRule, WorkedPattern } from "./rule";

/** A sentence asks for something that the materials leave out. */
export const unlistedNotion: PatternRule = {
  id: "unlisted-notion",
  severity: "information",
  documentation: `## What it finds
Stuffing, safety eyes, buttons, beads, a zip and the like that a sentence asks for, and no list of materials, in a pattern that lists what else is needed beside the yarn.

## Why it matters
Makers buy what the list says. Or the sentence was left over from another pattern.

## Example
\`\`\`crochet
Materials
50 g cotton in red
3 mm hook
yarn needle

Rnd 1: 6 sc in magic ring (6)
Rnd 2: sc in each st around (6)
Stuff firmly and close the hole.
\`\`\`

## Mended
\`\`\`crochet
Materials
50 g cotton in red
3 mm hook
yarn needle
stuffing

Rnd 1: 6 sc in magic ring (6)
Rnd 2: sc in each st around (6)
Stuff firmly and close the hole.
\`\`\`
`,
  check(pattern) {
    const { lines, pieces } = pattern;
    const begins = pieces[0]?.rows[0]?.line.span.start;
    const { notions } = frontMatterOf(lines);
    if (begins === undefined || notions.length === 0) return [];
    const asked = asks(pattern).filter(({ line }) => line.start >= begins);
    // Bells and buttons may be crocheted.
    const made = makingOf(pattern).pieces.map(({ name }) => name);
    return things.flatMap((thing) => {
      const first = asked.find(({ said }) => said.name === thing.name);
      if (!first || made.some((name) => thing.known.test(name)) || isKnown(thing, lines, begins)) return [];
      const { line, said } = first;
      return [foundOn(thing, { start: line.start + said.start, end: line.start + said.end }, pattern)];
    });
  },
};

interface Thing {
  /** As a list has it. */
  readonly name: string;
  /** A sentence that asks for it. */
  readonly asked: RegExp;
  /** Any word that accounts for it. */
  readonly known: RegExp;
}

const put = String.raw`\b(?:insert|place|put|attach|add|fit|fix|snap|sew|secure|install|position|glue)\b[^.;]*?\b`;
const thing = (name: string, words: string, known = words): Thing => ({
  name,
  asked: new RegExp(`${put}${words}`, "iu"),
  known: new RegExp(String.raw`\b${known}`, "iu"),
});

const things: readonly Thing[] = [
  {
    name: "stuffing",
    asked:
      /(?:^|[,;]|\band|\bthen|\b(?:begin|start|finish|continue)\s+(?:to\s+)?|\bcarefully|\blightly|\bfirmly|\bnow)\s*stuff(?:ing)?\b(?!\s+(?:it\s+)?with\b)/iu,
    // Of toys it goes without saying: their eyes tell.
    known:
      /\b(?:fill|fib(?:er|re)|poly|wadding|batting|insert|pad|form|kapok|eyes|toy\b|amigurumi|doll|wool\s+scraps|scraps|stuffing\s+(?!of)(?!the\b))/iu,
  },
  thing("safety eyes", String.raw`safety\s+eyes\b`, String.raw`(?:safety|plastic|toy)?\s*eyes\b`),
  thing(
    "buttons",
    String.raw`buttons?\b(?!\s*(?:band|hole|loop))`,
    String.raw`buttons?\b(?!\s*(?:band|hole|loop))|toggle|clasp`,
  ),
  thing("a zip", String.raw`(?:zips?|zippers?)\b`),
  thing("beads", String.raw`beads?\b`),
  thing("ribbon", String.raw`ribbons?\b`),
  thing("elastic", String.raw`elastic\b`),
  thing("lining fabric", String.raw`(?:lining|fabric)\b`),
  thing("magnets", String.raw`magnets?\b`),
  thing("bells", String.raw`bells?\b`),
];

interface Asked extends Span {
  readonly name: string;
}

const asks = inProse((line): Asked[] =>
  sentencesOf(line).flatMap(({ text, start }) =>
    things.flatMap(({ name, asked }) => {
      const match = asked.exec(text);
      if (!match) return [];
      const lead = match[0].length - match[0].replace(/^[\s,;]+/, "").length;
      return [{ name, start: start + match.index + lead, end: start + match.index + match[0].length }];
    }),
  ),
);

/** Named before the rows. */
function isKnown({ known, name }: Thing, lines: readonly PatternLine[], begins: number): boolean {
  const first = lines.findIndex(({ start }) => start >= begins);
  const isStuffing = name === "stuffing";
  return lines.slice(0, first).some(({ text }) => known.test(text) || (isStuffing && /\bstuff/i.test(text)));
}

function foundOn({ name }: Thing, span: Span, pattern: WorkedPattern): Found {
  const { notions } = frontMatterOf(pattern.lines);
  const last = notions.at(-1) as Stretch;
  return {
    span,
    message: say`This asks for ${name}, and the materials list none. Add it to them, or is the sentence left over from another pattern?`,
    fixes: [{ title: say`Add "${name}" to the materials`, edits: () => added(name, last, pattern) }],
    related: [{ span: { start: last.start, end: last.end }, message: say`The list of materials.` }],
  };
}

/** On a line of its own where the last one has one. */
function added(name: string, last: Stretch, { lines, text }: WorkedPattern): TextEdit[] {
  const line = lines.find(({ start, end }) => start <= last.start && last.end <= end);
  const lead = line ? text.slice(line.start, last.start) : "";
  const isAlone = line !== undefined && /^[\s•·▪*-]*$/u.test(lead) && line.text.trimEnd().endsWith(last.text);
  const lineEnd = /\r?\n/.exec(text)?.[0] ?? "\n";
  const newText = isAlone ? `${lineEnd}${lead}${name}` : `, ${name}`;
  return [{ span: { start: last.end, end: last.end }, newText }];
}
