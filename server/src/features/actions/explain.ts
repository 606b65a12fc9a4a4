import type { WorkedRow } from "../../fabric/worked";
import { say } from "../../text/say";
import type { Finding } from "../../workspace/report";
import { rowAt } from "../placed-row";
import { type Action, type ActionSource, findingsAt, type Scene } from "./action";
import { newLine } from "./new-line";

const stitches = [
  /^\W*special (?:stitch(?:es)?|sts)\b/i,
  /^\W*(?:stitch(?:es)?|abbreviations?)\b/i,
  /^\W*notes?\b/i,
];

/** Stitches worked over and made, the likeliest first: what a special stitch mostly is. */
const shapes = [
  [1, 1],
  [1, 3],
  [1, 5],
  [1, 2],
  [2, 1],
  [3, 1],
  [2, 2],
  [3, 3],
] as const;

/** Characters; a new word is read by every row, which in a longer pattern takes too long to try. */
const longestText = 200_000;

/** A line that begins to explain a word: with the numbers that its row bears out. How it is worked, its designer tells. */
export const explain: ActionSource = (scene, focus) => {
  if (scene.text.length > longestText) return [];
  const asked = findingsAt(scene, focus).filter(({ rule }) => rule === "not-understood");
  return asked.flatMap((finding) => {
    const row = rowAt(scene.worked, finding.span.start)?.row;
    const word = row && onlyUnknown(row);
    return word ? explained(scene, finding, word) : [];
  });
};

/** One word that stands in the way of a row with a count, which can bear out what the word is taken for. */
function onlyUnknown({ line: { plan } }: WorkedRow): string | null {
  const words = (plan?.unknown ?? []).filter(({ text }) => /\p{L}/u.test(text));
  if (words.some(({ sort }) => sort !== "stitch")) return null;
  const unknown = words.map(({ text }) => text.toLowerCase());
  const [only, ...others] = new Set(unknown);
  return plan?.stated && only && others.length === 0 && /^\p{L}{2,}$/u.test(only) ? only : null;
}

function explained({ worked, prover }: Scene, finding: Finding, word: string): Action[] {
  for (const [uses, makes] of shapes) {
    const says = `worked over ${stitchesIn(uses)}, counts as ${stitchesIn(makes)}`;
    const edits = [newLine(worked, `${word} = ${says}`, stitches)];
    if (!prover.proves(edits, [finding])) continue;
    const title = say`Begin to explain "${word}": ${says}`;
    return [{ kind: "mend", title, mends: [finding], preferred: false, edits: () => edits }];
  }
  return [];
}

function stitchesIn(n: number): string {
  return n === 1 ? "1 st" : `${n} sts`;
}
