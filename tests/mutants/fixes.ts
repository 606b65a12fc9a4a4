// `npm run mutants -- fixes`: makes every change that is offered in patterns with slips, and judges the outcome;
// `-- fixes --sample 2000`: in so many of them.
import { pathToFileURL } from "node:url";
import { Checker } from "../../server/src/workspace/checker";
import { readCases } from "../spec/case-file";
import { sampleMutants } from "./corpus";
import type { Mutant } from "./mutant";
import { mutantsOf } from "./numbers";
import { correctsTheSlip, type Offer, offersIn, sceneOf } from "./promises";
import { sampled } from "./sample";

/** A pattern with at least one slip in it. */
interface Slipped {
  readonly name: string;
  readonly text: string;
  /** The number that was changed by one; none where the slips are the pattern's own. */
  readonly mutant?: Mutant;
}

const cases = readCases(pathToFileURL("tests/spec/"));
const clean = cases.filter(({ text }) => new Checker().check(text).findings.length === 0);
const mutants = [...clean.flatMap(({ name, text }) => mutantsOf(name, text)), ...sampleMutants()];
const texts: readonly Slipped[] = [
  ...cases.map(({ name, text }) => ({ name, text })),
  ...sampled(mutants).map((mutant) => ({
    name: `${mutant.file}: ${mutant.shown}`,
    text: mutant.text,
    mutant,
  })),
];

interface Tally {
  offered: number;
  readonly broken: string[];
}

function tallied(): Map<string, Tally> {
  const all = new Map<string, Tally>();
  for (const { name, text, mutant } of texts) {
    for (const offer of offersIn(text)) {
      const { action } = offer;
      const isRight = mutant === undefined || correctsTheSlip(action, mutant);
      const broken = offer.broken ?? (isRight ? null : "not where the slip is");
      const tally = all.get(sortOf(action)) ?? { offered: 0, broken: [] };
      all.set(sortOf(action), tally);
      tally.offered++;
      if (broken) tally.broken.push(`${name}: ${action.title}: ${broken}`);
    }
  }
  return all;
}

/** A title without its numbers and quotations. */
function sortOf({ title }: Offer["action"]): string {
  return title
    .replace(/".*"/g, "…")
    .replace(/\d[^:]*$/, "…")
    .replace(/\d+/g, "…");
}

/** For how many findings of each rule at least one way to mend them is proved. */
function coverage(): string[] {
  const found = new Map<string, { all: number; mended: number }>();
  for (const { text } of texts) {
    const { findings, prover } = sceneOf(text);
    for (const finding of findings) {
      const one = found.get(finding.rule) ?? { all: 0, mended: 0 };
      found.set(finding.rule, one);
      one.all++;
      if (prover.fixesOf(finding).length > 0) one.mended++;
    }
  }
  return [...found].map(([rule, { all, mended }]) => `| ${rule} | ${all} | ${mended} |`);
}

const all = [...tallied()].sort((a, b) => b[1].offered - a[1].offered);
const broken = all.flatMap(([, tally]) => tally.broken);
const offered = all.reduce((sum, [, tally]) => sum + tally.offered, 0);
console.log(
  [
    "# Changes that are offered",
    `${texts.length} patterns (${cases.length} of them the cases of the specification, the others clean patterns with one number changed by one): ${offered} changes were offered and made, ${broken.length} did not keep what they promise.`,
    [
      "| change | offered | broken |",
      "|---|---|---|",
      ...all.map(([sort, tally]) => `| ${sort} | ${tally.offered} | ${tally.broken.length} |`),
    ].join("\n"),
    ["| rule | findings | with a proved way to mend it |", "|---|---|---|", ...coverage()].join("\n"),
    ...(broken.length > 0 ? [broken.map((one) => `- ${one}`).join("\n")] : []),
  ].join("\n\n"),
);
if (broken.length > 0) process.exitCode = 1;
