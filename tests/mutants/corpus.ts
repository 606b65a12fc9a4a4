import { Checker } from "../../server/src/workspace/checker";
import { type CorpusText, heldOut, samples, specCases } from "../corpus";
import { verdictOf } from "./judge";
import { linesOf, type Mutant, mutantIn } from "./mutant";
import { mutantsOf, offByOne, slippedDigits } from "./numbers";
import { rowMutants } from "./rows";
import { wrongItems, wrongWords } from "./words";

/** Slips of its own are what the first draft is for. */
const draft = "first-draft.crochet";

function cleanSamples(): readonly CorpusText[] {
  return samples().filter(({ name }) => !name.endsWith(draft));
}

/** Patterns in which every row is right: by their tables, or because they are said to be. */
export function rightPatterns(): readonly CorpusText[] {
  const cases = specCases().filter(({ rows }) => rows.every(({ verdict }) => verdict === "ok"));
  const named = cases.map(({ topic, name, text }) => ({ name: `${topic} > ${name}`, text }));
  return [...cleanSamples(), ...heldOut(), ...named];
}

/** Right patterns in which neither count finds anything: whatever is found in a mutant is the slip then. */
export function cleanPatterns(): readonly CorpusText[] {
  return rightPatterns().filter(
    ({ text }) => verdictOf(text) !== "wrong" && new Checker().check(text).findings.every(isQuiet),
  );
}

const isQuiet = ({ severity }: { severity: string }) => severity !== "error" && severity !== "warning";

/** Every slip that is put into a pattern, line by line. */
export function allMutants({ name, text }: CorpusText): Mutant[] {
  const changes = [offByOne, slippedDigits, wrongWords, wrongItems];
  const inLines = linesOf(text).flatMap((line) =>
    changes.flatMap((changesOf) => changesOf(line.line).map((change) => mutantIn(name, text, line, change))),
  );
  return [...inLines, ...rowMutants(name, text)];
}

/** Every number of the clean samples off by one. */
export function sampleMutants(): Mutant[] {
  return cleanSamples().flatMap(({ name, text }) => mutantsOf(name, text));
}
