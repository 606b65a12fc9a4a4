import { Checker } from "../../server/src/workspace/checker";
import type { PatternReport } from "../../server/src/workspace/report";
import { Random } from "../bench/random";
import { startOf, versions } from "./edits";

/** What checks one version after another, and may remember. */
export type Kept = Pick<Checker, "check">;

/** A fresh check costs more than a kept one, so several edits may pass between two comparisons. */
const editsPerComparison = 8;
/** What may have been meant costs more than all the rest, and is compared now and then: about every 200 edits. */
const comparisonsPerWhole = 45;

/** Where a checker that was kept tells something else than a new one. */
export interface Difference {
  readonly seed: number;
  /** From the last version known to be told alike to the one that is not: two, where one edit makes the difference. */
  readonly steps: readonly string[];
}

export interface Compared {
  readonly edits: number;
  readonly comparisons: number;
  readonly texts: number;
  readonly different: readonly Difference[];
}

export interface Share {
  /** Of the first text; the others are every `apart`-th one after it. */
  readonly seed: number;
  readonly apart: number;
  readonly most: number;
}

/**
 * Random edits, one after another. A kept checker, which saw other texts before, takes every one of them; after one
 * to eight of them a new checker says what it should tell.
 */
export function compared(share: Share, goesOn: () => boolean, keep: () => Kept = newChecker): Compared {
  const kept = keep();
  const different: Difference[] = [];
  const sum = { edits: 0, comparisons: 0, texts: 0 };
  for (let seed = share.seed; sum.edits < share.most && goesOn(); seed += share.apart) {
    const seen = firstOther(seed, kept, sum);
    if (seen) different.push({ seed, steps: narrowed(seen.all, keep()) ?? seen.all.slice(seen.alike) });
    sum.texts++;
  }
  return { ...sum, different };
}

function newChecker(): Kept {
  return new Checker();
}

/** All versions of a text up to one that is told otherwise, and which was told alike last; null where all are. */
function firstOther(
  seed: number,
  kept: Kept,
  sum: { edits: number; comparisons: number },
): { readonly all: readonly string[]; readonly alike: number } | null {
  const random = new Random(seed * 16_807);
  const all = [startOf(random)];
  kept.check(all[0] ?? "");
  for (const run of runsOf(versions(all[0] ?? "", random), new Random(seed))) {
    const alike = all.length - 1;
    all.push(...run);
    const reports = run.map((text) => kept.check(text));
    sum.edits += run.length;
    sum.comparisons++;
    const whole = sum.comparisons % comparisonsPerWhole === 0;
    if (isOther(reports.at(-1) as PatternReport, run.at(-1) ?? "", whole)) return { all, alike };
  }
  return null;
}

/** One to eight at a time. */
function* runsOf(all: Iterable<string>, random: Random): Generator<readonly string[]> {
  let run: string[] = [];
  let length = random.between(1, editsPerComparison);
  for (const one of all) {
    run.push(one);
    if (run.length < length) continue;
    yield run;
    run = [];
    length = random.between(1, editsPerComparison);
  }
  if (run.length > 0) yield run;
}

/** The first edit that is told otherwise when all are played again; null where it takes other texts before it. */
function narrowed([start = "", ...rest]: readonly string[], kept: Kept): readonly string[] | null {
  kept.check(start);
  let before = start;
  for (const next of rest) {
    if (isOther(kept.check(next), next, true)) return [before, next];
    before = next;
  }
  return null;
}

function isOther(kept: PatternReport, text: string, whole: boolean): boolean {
  return told(kept, whole) !== told(new Checker().check(text), whole);
}

function told({ findings, pieces, sizes, terms }: PatternReport, whole: boolean): string {
  const all = findings.map((finding) => [
    finding.rule,
    finding.severity,
    finding.span,
    finding.related,
    whole ? finding.message : (finding.brief ?? finding.message),
  ]);
  return JSON.stringify([all, pieces, sizes, terms]);
}
