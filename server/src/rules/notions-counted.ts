import { sentencesOf } from "../notation/assembly";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import { singular } from "../notation/nouns";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { numberFrom } from "../trade/number-words";
import { inProse } from "./outline";
import type { Found, WorkedPattern } from "./rule";

/** `Sew on the 6 buttons`, where the materials list 5. Fewer may be those of one of several places. */
export function notionsCounted(pattern: WorkedPattern): Found[] {
  const said = sewnOn(pattern);
  return said.flatMap(({ said: { n, noun, start, end }, line }) => {
    const isAlone = said.filter((one) => one.said.noun === noun).length === 1;
    const listed = isAlone ? listedOf(noun, pattern) : null;
    if (listed === null || n <= listed.n) return [];
    const span = { start: line.start + start, end: line.start + end };
    return [
      {
        span,
        message: say`This speaks of ${n} ${noun}s, and the materials list ${listed.n}. Make the numbers agree.`,
        fixes: [{ title: say`Write ${listed.n}`, edits: () => [{ span, newText: `${listed.n}` }] }],
        related: [{ span: listed, message: say`The list of materials.` }],
      },
    ];
  });
}

const nouns = "buttons?|beads?|magnets?|bells?|toggles?|rings?";
const number = String.raw`(\d{1,2}|two|three|four|five|six|seven|eight|nine|ten|twelve)`;
const handled = new RegExp(
  String.raw`\b(?:sew|attach|stitch|fix|place)\w*\s+(?:on\s+)?(?:the|all|your)\s+(?:the\s+)?${number}\s+(?:\p{L}+\s+)?(${nouns})\b`,
  "iu",
);
/** Behind the noun: the number is that of each place. */
const forEach = /\b(?:each|every|both)\b/i;
const listedForm = new RegExp(
  String.raw`(?<![\d.])\b${number}\s+(?:x\s+)?(?:[\p{L}\d.-]+\s+){0,4}?(${nouns})\b`,
  "giu",
);

interface Counted extends Span {
  readonly n: number;
  readonly noun: string;
}

const sewnOn = inProse((line): Counted[] =>
  sentencesOf(line).flatMap(({ text, start }) => {
    const match = handled.exec(text);
    if (!match || forEach.test(text.slice(match.index + match[0].length))) return [];
    const at = start + match.index + match[0].indexOf(match[1] as string);
    return [{ ...countedIn(match), start: at, end: at + (match[1] as string).length }];
  }),
);

function countedIn([, typed = "", noun = ""]: RegExpExecArray | RegExpMatchArray): {
  n: number;
  noun: string;
} {
  return { n: numberFrom(typed), noun: singular(noun.toLowerCase()) };
}

/** How many the list of materials has, where it says so once. */
function listedOf(noun: string, { lines }: WorkedPattern): (Span & { readonly n: number }) | null {
  const all = frontMatterOf(lines).lines.flatMap(({ line: { text, start } }) =>
    [...text.matchAll(listedForm)].flatMap((match) => {
      const one = countedIn(match);
      const from = start + match.index;
      return one.noun === noun ? [{ n: one.n, start: from, end: from + match[0].length }] : [];
    }),
  );
  const [only, ...others] = all;
  return only && others.length === 0 ? only : null;
}
