import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { HookSize } from "../notation/front-matter/hooks";
import type { FrontLine } from "../notation/front-matter/sections";
import { say } from "../text/say";
import type { TextEdit } from "../text/span";
import { hookLabelOf } from "../trade/hooks";
import { sizesOfHook } from "./hook-sizes";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { placeOf, type Used, usesOf } from "./uses";
import { listed } from "./wording";

/** A hook is taken up that the materials leave out. */
export const unlistedHook: PatternRule = {
  id: "unlisted-hook",
  severity: "warning",
  documentation: `## What it finds
A hook that a row or sentence takes up and the list of materials leaves out. A pattern that lists no hook is left alone.

## Why it matters
Makers get ready what the list says. A second hook that comes as a surprise stops the work.

## Example
\`\`\`crochet
Materials
4 mm hook

Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10)
Change to a 5 mm hook.
Row 2: Ch 1, turn, sc in each st across. (10)
\`\`\`

## Mended
\`\`\`crochet
Materials
4 mm hook
5 mm hook

Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10)
Change to a 5 mm hook.
Row 2: Ch 1, turn, sc in each st across. (10)
\`\`\`
`,
  check(pattern) {
    const front = frontMatterOf(pattern.lines);
    const list = front.lines.findLast((line) => isHookList(line, front.hooks));
    if (!list) return [];
    const has = new Set(front.hooks.flatMap(sizesOfHook));
    const seen = new Set<string>();
    const missing = usesOf(pattern)
      .hooks.filter(
        ({ mention }) => isMissing(mention, has) && !seen.has(mention.text) && seen.add(mention.text),
      )
      .map((used) => foundOn(used, list, front.hooks));
    const isOneOfTwo = has.size === 1 && comparatives.some((word) => usesOf(pattern).says(word));
    return isOneOfTwo && missing.length === 0 ? otherHook(pattern, list) : missing;
  },
};

/** `With the smaller hook`, where the materials list one; "a smaller hook" may be any. */
function otherHook({ lines }: WorkedPattern, { content }: FrontLine): Found[] {
  const line = lines.find((one) => comparing.test(one.text) && !advising.test(one.text));
  const match = line && comparing.exec(line.text);
  const which = match?.[1];
  if (!match || !which) return [];
  const start = line.start + match.index + match[0].lastIndexOf(which);
  return [
    {
      span: { start, end: start + which.length },
      message: say`"${which}" is one of two, and the materials list one hook. Add the other, or leave out which is meant.`,
      fixes: [],
      related: [{ span: { start: content.start, end: content.end }, message: say`The hook of the list.` }],
    },
  ];
}

const comparing = /\b(?:with|using|to|take)\s+(?:the\s+)?((?:smaller|larger|bigger|second|other)\s+hook)\b/i;
const comparatives = ["smaller", "larger", "bigger", "second", "other"];
/** What makers may do for the sake of their gauge. */
const advising = /\b(?:if|try|gauge|tension|loose\w*|tight\w*|may|prefer)\b/i;

const listTopics = new Set(["materials", "hook", "other"]);

function isHookList({ topic, content }: FrontLine, hooks: readonly HookSize[]): boolean {
  return (
    listTopics.has(topic) && hooks.some(({ start, end }) => content.start <= start && end <= content.end)
  );
}

function isMissing(hook: HookSize, has: ReadonlySet<number>): boolean {
  const sizes = sizesOfHook(hook);
  return sizes.length > 0 && !sizes.some((size) => has.has(size));
}

function foundOn(used: Used<HookSize>, list: FrontLine, hooks: readonly HookSize[]): Found {
  const { text, mm } = used.mention;
  const names = hooks.filter((hook) => hook.text !== text).map((hook) => hook.text);
  const labelled = hooks.some(({ labels }) => labels.length > 0);
  return {
    span: placeOf(used),
    message: say`A hook of ${text} is used here, and the materials list ${listed([...new Set(names)], "and")}. Add it to the list, or write the size that is meant.`,
    fixes: [
      {
        title: say`Add the ${text} hook to the materials`,
        edits: () => added(nameOf(text, mm, labelled), list),
      },
    ],
    related: [
      { span: { start: list.content.start, end: list.content.end }, message: say`The hook of the list.` },
    ],
  };
}

/** With the letter where the others have theirs: mm beside a letter is what testers ask for. */
function nameOf(text: string, mm: number | null, labelled: boolean): string {
  const label = mm === null || /[([]/.test(text) ? null : hookLabelOf(mm);
  return labelled && label ? `${text} (${label.replace("-", "/")})` : text;
}

function added(name: string, { title, content, topic }: FrontLine): TextEdit[] {
  const ownLine = title === null && topic === "materials" && !/[,;]/.test(content.text);
  const newText = ownLine ? `\n${name} hook` : `, ${name} hook`;
  return [{ span: { start: content.end, end: content.end }, newText }];
}
