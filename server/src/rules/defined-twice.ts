import { removeAbbreviation } from "../notation/front-matter/abbreviations";
import type { Definition } from "../notation/front-matter/definitions";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { Stretch } from "../notation/front-matter/stretch";
import { say } from "../text/say";
import type { Found, PatternRule } from "./rule";

/** One abbreviation has two entries in the list. */
export const definedTwice: PatternRule = {
  id: "defined-twice",
  severity: "warning",
  documentation: `## What it finds
An abbreviation that stands in the list of abbreviations twice.

## Why it matters
With two meanings nobody knows which one a row means; with one meaning, an entry was left over from an older text.

## Example
\`\`\`crochet
Abbreviations
sc - single crochet
inc - increase
inc - 2 sc in the same st

Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
\`\`\`

## Mended
\`\`\`crochet
Abbreviations
sc - single crochet
inc - 2 sc in the same st

Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
\`\`\`
`,
  check({ lines, text }) {
    return frontMatterOf(lines).abbreviations.flatMap(({ entries }) => {
      const earlier = new Map<string, Definition[]>();
      return entries.flatMap((entry) => {
        const before = earlierLike(entry, earlier);
        for (const name of keysOf(entry)) earlier.set(name, [...(earlier.get(name) ?? []), entry]);
        return before ? [foundOn(entry, before, entries, text)] : [];
      });
    });
  },
};

/** The first entry before this one that shares a name with it, of those that are known by their names. */
function earlierLike(
  entry: Definition,
  earlier: ReadonlyMap<string, readonly Definition[]>,
): Definition | null {
  const alike = keysOf(entry).flatMap((name) => earlier.get(name) ?? []);
  return alike
    .filter((other) => sharesName(other, entry))
    .reduce<Definition | null>((first, one) => (first && first.start <= one.start ? first : one), null);
}

function keysOf({ name, names }: Definition): readonly string[] {
  return [...new Set([name.text, ...names])];
}

/** `st(s)` and `st` are one; capitals tell others apart: `MC` main colour, `mc` magic circle. */
function sharesName(a: Definition, b: Definition): boolean {
  if (a.name.text === b.name.text) return true;
  const typed = (name: string, { text }: Stretch): string | undefined => {
    const at = text.toLowerCase().indexOf(name);
    return at < 0 ? undefined : text.slice(at, at + name.length);
  };
  const shared = a.names.filter((name) => b.names.includes(name));
  return shared.some(
    (name) => typed(name, a.name) !== undefined && typed(name, a.name) === typed(name, b.name),
  );
}

function foundOn(entry: Definition, before: Definition, entries: readonly Definition[], text: string): Found {
  const name = entry.name.text;
  const [meaning, first] = [entry.meaning?.text ?? "", before.meaning?.text ?? ""];
  const isSame = meaning.toLowerCase() === first.toLowerCase();
  const removing = (gone: Definition) => () => removeAbbreviation(text, entries, gone);
  return {
    span: { start: entry.start, end: entry.end },
    message: isSame
      ? say`"${name}" is in the list of abbreviations twice. One entry can go.`
      : say`"${name}" is in the list of abbreviations twice: as "${first}" and as "${meaning}". Keep the one that is right.`,
    fixes: isSame
      ? [{ title: say`Take this entry out`, edits: removing(entry) }]
      : [
          { title: say`Keep "${first}"`, edits: removing(entry) },
          { title: say`Keep "${meaning}"`, edits: removing(before) },
        ],
    related: [{ span: { start: before.start, end: before.end }, message: say`The first entry.` }],
  };
}
