import type { Span, TextEdit } from "../../text/span";
import { isAbbreviation, isOfNoStitch } from "../../trade/abbreviations";
import { type Definition, readListed } from "./definitions";
import type { FrontLine } from "./sections";
import type { Stretch } from "./stretch";

/** A list of abbreviations under its title. */
export interface AbbreviationList {
  readonly title: Stretch;
  readonly entries: readonly Definition[];
  /** Whether the list means to hold all; one of "stitches used" need not. */
  readonly isWhole: boolean;
}

/** The lists of a pattern: those titled as abbreviations, and those of the stitches used. */
export function readAbbreviations(lines: readonly FrontLine[]): AbbreviationList[] {
  const titled = lines
    .filter(({ topic, title }) => title !== null && (topic === "abbreviations" || topic === "stitches"))
    .map(({ topic, title, section }) => {
      const own = lines.filter((line) => line.section === section);
      const entries = own.flatMap(({ content }) => readListed(content));
      return { title: title as Stretch, entries, isWhole: topic === "abbreviations" || isMore(entries) };
    })
    .filter(({ entries }) => entries.length > 1);
  return titled.length > 0 ? titled : untitled(lines);
}

/** `sc: single crochet / ch: chain / st: stitch` on one line under no title; three entries that everybody shortens so. */
function untitled(lines: readonly FrontLine[]): AbbreviationList[] {
  return lines.flatMap(({ title, content }) => {
    if (title !== null || !/[/;,•|].*[/;,•|]/.test(content.text)) return [];
    const entries = readListed(content).filter(({ meaning }) => meaning !== null);
    const known = entries.filter(({ names }) => names.some(isAbbreviation));
    return known.length >= fewestUntitled && known.length * 2 > entries.length
      ? [{ title: content, entries, isWhole: true }]
      : [];
  });
}

const fewestUntitled = 3;

/** A list that explains `st` and `sk` among the stitches is one of abbreviations, whatever its title. */
function isMore(entries: readonly Definition[]): boolean {
  const known = entries.filter(({ names }) => names.some(isAbbreviation));
  return (
    known.length * 2 > entries.length &&
    entries.some(({ names, meaning }) => meaning !== null && names.some(isOfNoStitch))
  );
}

/** Adds an abbreviation at the end of a list, in the form of the entries before it. */
export function addAbbreviation(
  text: string,
  { entries }: AbbreviationList,
  name: string,
  meaning: string,
): TextEdit[] {
  const last = entries.at(-1);
  const before = entries.at(-2);
  if (!last?.meaning) return [];
  const isGloss = last.meaning.start < last.name.start;
  const sign = text.slice(last.name.end, last.meaning.start);
  const entry = isGloss ? `${meaning} (${name})` : `${name}${sign}${meaning}`;
  const between = before ? text.slice(before.end, last.start) : "\n";
  const lineEnd = /(?:\r\n|\n|\r)[^\r\n]*$/.exec(between)?.[0];
  const at = lineEnd === undefined ? last.end : lineOf(text, last).end;
  return [{ span: { start: at, end: at }, newText: `${lineEnd ?? between}${entry}` }];
}

/** Takes one entry out: its line, or what parts it from its neighbour on the line. */
export function removeAbbreviation(
  text: string,
  entries: readonly Definition[],
  gone: Definition,
): TextEdit[] {
  const at = entries.indexOf(gone);
  const [before, behind] = [entries[at - 1], entries[at + 1]];
  const line = lineOf(text, gone);
  const isAlone =
    !isOn(line, before) && !isOn(line, behind) && /^[\s•·▪*-]*$/u.test(text.slice(line.start, gone.start));
  if (isAlone) return [{ span: { start: line.start, end: line.next }, newText: "" }];
  if (behind && isOn(line, behind)) return [{ span: { start: gone.start, end: behind.start }, newText: "" }];
  return [{ span: { start: before?.end ?? gone.start, end: gone.end }, newText: "" }];
}

/** The line of an entry, with whatever remark stands behind it; `next` is where the next line starts. */
function lineOf(text: string, { start, end }: Span): Span & { readonly next: number } {
  const from = Math.max(text.lastIndexOf("\n", start - 1), text.lastIndexOf("\r", start - 1)) + 1;
  const rest = text.slice(end).search(/[\r\n]/);
  const to = rest < 0 ? text.length : end + rest;
  return {
    start: from,
    end: to,
    next: to + (/^(?:\r\n|\n|\r)/.exec(text.slice(to, to + 2))?.[0].length ?? 0),
  };
}

function isOn(line: Span, entry: Definition | undefined): boolean {
  return entry !== undefined && line.start <= entry.start && entry.start < line.end;
}
