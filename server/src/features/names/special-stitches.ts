import type { Definition } from "../../notation/front-matter/definitions";
import { frontMatterOf } from "../../notation/front-matter/front-matter";
import type { PatternLine } from "../../notation/lines";
import { isFiller, trade } from "../../notation/vocabulary";
import type { WorkedPattern } from "../../rules/rule";
import { keptBy } from "../../text/kept-by";
import { say } from "../../text/say";
import type { Span, TextEdit } from "../../text/span";
import { isAbbreviation } from "../../trade/abbreviations";
import { stitchSpellings } from "../../trade/stitches";
import { holds, type NamedThing, type NameSource, type NotRenamed } from "./named-thing";

/** Stitches and words that the pattern explains: `Shell: 5 dc in one st`. */
export const specialStitches: NameSource = {
  at({ pattern, offset, line }) {
    const names = line && namesOf(pattern.lines);
    const found = names && foundIn(line, names).find(({ span }) => holds(span, offset));
    return found ? namedThing(found, names, pattern) : null;
  },
};

/** The names that a list explains, and how to find them in a text. */
interface Names {
  readonly byName: ReadonlyMap<string, Explained>;
  readonly form: RegExp;
}

interface Explained {
  readonly definition: Definition;
  readonly isSpecial: boolean;
}

interface Found {
  readonly span: Span;
  /** As the list has it, in lower case, without the ending of this place. */
  readonly name: string;
  readonly explained: Explained;
}

const namesOf = keptBy((lines: readonly PatternLine[]): Names | null => {
  const { specialStitches: special, abbreviations } = frontMatterOf(lines);
  const listed = abbreviations.flatMap(({ entries }) => entries);
  const byName = new Map<string, Explained>();
  for (const [all, isSpecial] of [
    [listed, false],
    [special, true],
  ] as const)
    for (const definition of all)
      for (const name of definition.names) byName.set(name, { definition, isSpecial });
  if (byName.size === 0) return null;
  const longestFirst = [...byName.keys()].sort((a, b) => b.length - a.length).map(escaped);
  const form = `(?<![\\p{L}\\p{N}-])(${longestFirst.join("|")})(?:e?s)?(?![\\p{L}\\p{N}])`;
  return { byName, form: new RegExp(form, "giu") };
});

function escaped(name: string): string {
  return name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}

/** Characters; a longer line is read by nobody. */
const longestLine = 20_000;

function foundIn({ text, start }: PatternLine, { byName, form }: Names): Found[] {
  if (text.length > longestLine) return [];
  return [...text.matchAll(form)].flatMap(({ 1: said = "", index }) => {
    const name = said.toLowerCase();
    const explained = byName.get(name);
    const span = { start: start + index, end: start + index + said.length };
    return explained ? [{ span, name, explained }] : [];
  });
}

function namedThing({ span, name, explained }: Found, names: Names, pattern: WorkedPattern): NamedThing {
  const { definition, isSpecial } = explained;
  const everywhere = pattern.lines
    .filter(({ text }) => text !== "")
    .flatMap((line) => foundIn(line, names))
    .filter((one) => one.explained.definition === definition);
  const isDefining = (one: Found) => holds(definition.name, one.span.start);
  const same = everywhere.filter((one) => one.name === name);
  return {
    span,
    name: pattern.text.slice(span.start, span.end),
    definitions: [{ start: definition.name.start, end: definition.name.end }],
    uses: everywhere.filter((one) => !isDefining(one)).map((one) => one.span),
    fixed: isSpecial || !isOfTrade(name) ? null : ofTrade(name),
    renamed: (to) => whyNot(to, names) ?? same.map((one) => edit(one.span, to, pattern.text)),
  };
}

function isOfTrade(name: string): boolean {
  return trade.has(name) || stitchSpellings.has(name) || isAbbreviation(name);
}

function ofTrade(name: string): string {
  return say`"${name}" is a word of the trade: every maker reads it so, whatever this pattern calls it. Only names that the pattern gives itself can be changed.`;
}

function whyNot(to: string, { byName }: Names): NotRenamed | null {
  const name = to.toLowerCase();
  if (!/^\p{L}[\p{L}\p{N} '’-]{0,39}$/u.test(to))
    return { why: say`A stitch is named by letters, and figures behind them.` };
  if (byName.has(name)) return { why: say`This pattern explains "${to}" already. Choose another name.` };
  if (isOfTrade(name) || isFiller(name))
    return {
      why: say`The trade uses "${to}" already: makers would read it as that. Choose a name that only this pattern has.`,
    };
  return null;
}

/** A capital where there was one. */
function edit(span: Span, to: string, text: string): TextEdit {
  const before = text.slice(span.start, span.end);
  const isCapital = /^\p{Lu}\p{Ll}/u.test(before);
  return { span, newText: isCapital ? to.charAt(0).toUpperCase() + to.slice(1) : to };
}
