import { sentencesOf } from "../notation/assembly";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { numberFrom } from "../trade/number-words";
import { inProse } from "./outline";
import { makingOf } from "./pieces-made";
import type { Found, WorkedPattern } from "./rule";
import { rowName, says } from "./wording";

/** `10 sc along each side` of a hexagon whose last round has another number of stitches than six times ten. */
export function sidesOfMotifs(pattern: WorkedPattern): Found[] {
  return sides(pattern).flatMap(({ said: { n, start, end, shape }, line }) => {
    const motifs = makingOf(pattern).pieces.filter(({ words }) =>
      words.some((name) => name.length === 1 && name[0] === shape),
    );
    const [motif, ...others] = motifs;
    const last = motif?.worked.rows.at(-1);
    const [made, ...sizes] = last?.result === "ok" ? (last.outcome?.makes ?? []) : [];
    const many = corners.get(shape) as number;
    const isPlain = last?.outcome?.counted[0]?.kinds.size === 1;
    if (!last || others.length > 0 || made == null || sizes.length > 0 || !isPlain) return [];
    // Stitches of the corners may be left to themselves.
    if (made % many !== 0 || made === n * many || made === (n + 1) * many) return [];
    const span = { start: line.start + start, end: line.start + end };
    const right = made / many;
    return [
      {
        span,
        message: say`${n} stitches along each side of the ${shape} are ${n * many}, and ${says(rowName(last), "has")} ${made}. Did you mean ${right}?`,
        fixes: [{ title: say`Write ${right}`, edits: () => [{ span, newText: `${right}` }] }],
        related: [{ span: last.line.span, message: say`${says(rowName(last), "is")} the last round.` }],
      },
    ];
  });
}

const corners: ReadonlyMap<string, number> = new Map([
  ["triangle", 3],
  ["square", 4],
  ["pentagon", 5],
  ["hexagon", 6],
  ["octagon", 8],
]);

interface Side extends Span {
  readonly n: number;
  readonly shape: string;
}

const alongEach =
  /\b(\d{1,3}|[a-z]{3,9})\s+(?:sl\s?sts?|ss|sc|hdc|dc|htr|tr|sts|stitches)\s+(?:along|across|on|to|in|for)\s+(?:each|every|one)\s+side\b/i;

const sides = inProse((line): Side[] =>
  sentencesOf(line).flatMap(({ text, start, words }) => {
    const match = alongEach.exec(text);
    const shapes = [...new Set(words.flatMap(({ noun }) => (corners.has(noun) ? [noun] : [])))];
    const [shape, ...others] = shapes;
    if (!match || !shape || others.length > 0 || /\bcorners?\b/i.test(text)) return [];
    const typed = match[1] as string;
    const n = numberFrom(typed);
    const at = start + match.index;
    return Number.isInteger(n) ? [{ n, shape, start: at, end: at + typed.length }] : [];
  }),
);
