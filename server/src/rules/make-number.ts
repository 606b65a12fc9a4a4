import { readHeading, readMake } from "../notation/headings";
import { say } from "../text/say";
import type { MadePiece } from "./pieces-made";
import type { Fix } from "./rule";

/** `Arms (make 1)` says so itself; `Arms` alone leaves it open. */
export function saysOne({ heading }: MadePiece): boolean {
  return /\b(?:make|work|x)\s*(?:1|one)\b|[([]\s*(?:1|one)\s*(?:pcs?|pieces?|off|needed|required)?\s*[)\]]/i.test(
    heading.text,
  );
}

/** A heading such as `Feet`, `Leg 1` or `Left leg` says of more than one by itself. */
export function tellsOfOthers({ heading, words }: MadePiece): boolean {
  const typed = heading.text.toLowerCase().replace(/\b(?:make|work|x)\s*(?:1|one)\b/g, "");
  const said: readonly string[] = typed.match(/\p{L}+|\d+/gu) ?? [];
  const isPlural = !words.every((name) => said.includes(name.at(-1) ?? ""));
  return isPlural || said.some((word) => oneOfSeveral.test(word));
}

const oneOfSeveral = /^(?:both|each|pair|first|second|third|left|right|front|back|upper|lower|\d|[a-d])$/;

/** `Make the second one in white`: words of the piece that tell of more than its heading does. */
const moreOfIt =
  /\b(?:make|work|crochet)\s+(?:\w+\s+)?(?:another|more|two|three|four|both|as\s+many|several|enough|(?!1\b)\d+\b(?!\s*-?\s*(?:ch|sc|hdc|dc|htr|tr|dtr|sl|ss|sts?|stitch\w*|more|rows?|rnds?|rounds?)\b))\b|\b(?:second|another|pair|twice|repeat|likewise)\b|\b(?:both|other)\b(?!\s+(?:layers|thicknesses|walls|sides?|edges?|ends?|loops?|lps)\b)|[([,]\s*(?:x\s*\d|\d\s*x)\b/i;

export function saysMore({ part }: MadePiece): boolean {
  // `Make 2 in cream` right below the heading says how many there are, and no more.
  return part.lines.some(
    ({ text, kind }) => kind !== "row" && readMake(text) === null && moreOfIt.test(text),
  );
}

/** The number of the heading, or one put behind its name. */
export function headingFix({ heading, make }: MadePiece, n: number): Fix[] {
  const text = heading.text.trimEnd();
  const digits = [...text.matchAll(/\d+/g)].filter(([typed]) => Number(typed) === make);
  const title = say`Make ${n} under the heading`;
  const [only, ...others] = digits;
  if (only && others.length === 0) {
    const start = heading.start + only.index;
    return [{ title, edits: () => [{ span: { start, end: start + only[0].length }, newText: `${n}` }] }];
  }
  if (make > 1 || digits.length > 0) return [];
  const at = heading.start + text.replace(/\s*[:–—-]+$/, "").length;
  const newText = ` (make ${n})`;
  const isRead = readHeading(`${text.slice(0, at - heading.start)}${newText}`).make === n;
  return isRead ? [{ title, edits: () => [{ span: { start: at, end: at }, newText }] }] : [];
}
