import type { TextEdit } from "../../text/span";
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
  return lines
    .filter(({ topic, title }) => title !== null && (topic === "abbreviations" || topic === "stitches"))
    .map(({ topic, title, section }) => ({
      title: title as Stretch,
      entries: lines.filter((line) => line.section === section).flatMap(({ content }) => readListed(content)),
      isWhole: topic === "abbreviations",
    }))
    .filter(({ entries }) => entries.length > 1);
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
  const sign = text.slice(last.name.end, last.meaning.start);
  const between = before ? text.slice(before.end, last.start) : "\n";
  return [{ span: { start: last.end, end: last.end }, newText: `${between}${name}${sign}${meaning}` }];
}

/** Takes one entry out, with what parts it from its neighbour. */
export function removeAbbreviation(entries: readonly Definition[], gone: Definition): TextEdit[] {
  const at = entries.indexOf(gone);
  const [before, behind] = [entries[at - 1], entries[at + 1]];
  if (behind) return [{ span: { start: gone.start, end: behind.start }, newText: "" }];
  return [{ span: { start: before?.end ?? gone.start, end: gone.end }, newText: "" }];
}
