import { bodyStart, type Change, type Place } from "./mutant";
import { countStart } from "./numbers";

interface Slip {
  readonly what: RegExp;
  readonly to: (found: string) => string;
  readonly place: Place;
}

/** Words that are taken for one another when a row is typed. Common practice of the trade, no source. */
const slips: readonly Slip[] = [
  { what: /\binc\b/g, to: () => "sc", place: "stitch" },
  { what: /\binc\b/g, to: () => "dec", place: "stitch" },
  { what: /\bdec\b/g, to: () => "inc", place: "stitch" },
  { what: /\bdec\b/g, to: () => "sc", place: "stitch" },
  { what: /\b[a-z]+\dtog\b/g, to: (found) => found.replace(/\dtog/, ""), place: "stitch" },
  { what: /\bsc\b/g, to: () => "hdc", place: "stitch" },
  { what: /\bdc\b/g, to: () => "sc", place: "stitch" },
  { what: /\b(?:sc|dc)\b/g, to: () => "inc", place: "stitch" },
  { what: /\bnext (?=st\b|sc\b|dc\b)/g, to: () => "same ", place: "place" },
  { what: /\bfirst (?=st\b|sc\b|dc\b)/g, to: () => "next ", place: "place" },
  { what: /\bin each /g, to: () => "in next ", place: "place" },
  { what: / ?x ?\d+\b/g, to: () => "", place: "repeat" },
  { what: /,? \d+ (?:more )?times\b/g, to: () => "", place: "repeat" },
  // The opening mark one item too late, the closing one an item too soon.
  {
    what: /[[(*] ?[^,()[\]*]+, (?=[^()[\]]*(?:[\])] ?x|[\])] \d+ times|; rep))/g,
    to: later,
    place: "repeat",
  },
  { what: /, [^,()[\]]+[\])](?= ?x ?\d| \d+ times)/g, to: sooner, place: "repeat" },
];

/** `(a, b) x6` → `a, (b) x6`. */
function later(found: string): string {
  return `${found.slice(1).trimStart()}${found[0]}`;
}

/** `(a, b) x6` → `(a), b x6`. */
function sooner(found: string): string {
  return `${found.at(-1)}${found.slice(0, -1)}`;
}

/** Another word than was meant, and repeats that are not what they were; all but in the stated count. */
export function wrongWords(line: string): Change[] {
  const from = bodyStart(line);
  if (from === null) return [];
  const body = line.slice(from, Math.max(from, countStart(line)));
  return slips.flatMap(({ what, to, place }) =>
    [...body.matchAll(what)].map(({ 0: found, index }) => ({
      at: from + index,
      from: found,
      to: to(found),
      place,
    })),
  );
}

/** One instruction between commas left out, or written twice. */
export function wrongItems(line: string): Change[] {
  const from = bodyStart(line);
  if (from === null) return [];
  const body = line.slice(from, Math.max(from, countStart(line)));
  return [...body.matchAll(/[^,;:()[\]*.{}]+, (?=[^\s])/g)].flatMap(({ 0: found, index }) => {
    const gap = found.length - found.trimStart().length;
    const [at, item] = [from + index + gap, found.trimStart()];
    return [
      { at, from: item, to: "", place: "item left out" as const },
      { at, from: item, to: `${item}${item}`, place: "item twice" as const },
    ];
  });
}
