import { trade } from "../notation/vocabulary";
import type { PatternContext } from "./context";

/** Whether a row reads otherwise in another context; may say so of a row that does not. */
export type Affects = (row: string) => boolean;

const all: Affects = () => true;

/**
 * What a change of the context touches. Names of pieces and stitches come and go with every key
 * while a heading or a definition is typed: rows that have none of these names read as before.
 */
export function changeOf(before: PatternContext | null, after: PatternContext): Affects {
  if (before === after) return () => false;
  if (before?.base !== after.base) return all;
  const changed = [...new Set([...before.names.keys(), ...after.names.keys()])].filter(
    (name) => before.names.get(name) !== after.names.get(name),
  );
  const starts = [...new Set(changed.flatMap(spellings).map(firstWord))];
  if (starts.length === 0) return () => false;
  const anyOf = new RegExp(starts.map(asWord).join("|"), "i");
  return (row) => !isPlain(row) || anyOf.test(row);
}

/** The name itself, and all that the trade writes for it. */
function spellings(name: string): string[] {
  return [name, ...[...trade].filter(([, { value }]) => value === name).map(([spelling]) => spelling)];
}

function firstWord(name: string): string {
  return /\d+|\p{L}+|\S/u.exec(name)?.[0] ?? name;
}

/** Whole words and numbers only: "fi[rs]t" has nothing to do with a name that begins with "rs". */
function asWord(start: string): string {
  const same = /^\d/.test(start) ? "\\d" : /^\p{L}/u.test(start) ? "[a-z]" : null;
  return same === null ? start.replace(/[^\w\s]/g, "\\$&") : `(?<!${same})${start}(?!${same})`;
}

/** Letters of other scripts may stand for those they look like. */
function isPlain(text: string): boolean {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: all of ASCII is meant
  return /^[\x00-\x7f]*$/.test(text);
}
