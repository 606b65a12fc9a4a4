import { expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { sampleMutants } from "../mutants/corpus";
import { isFault, isSure, seen } from "../mutants/judge";

/** Every third number of the samples is tried here; `npm run mutants` tries all, and other slips. */
const stride = 3;
const share = 0.97;

test("a number that is off by one is found on its line", () => {
  const all = sampleMutants();
  const rows = all.filter(({ place }) => place !== "starting chain");
  const faults = rows.filter((_, index) => index % stride === 0).filter(isFault);
  expect(faults.length).toBeGreaterThan(280);
  const checker = new Checker();
  const missed = faults.filter((mutant) => seen(mutant, checker, isSure) !== "on the line");
  const shown = missed.map((mutant) => `${mutant.file}: ${mutant.shown}`).join("\n");
  expect(1 - missed.length / faults.length, shown).toBeGreaterThanOrEqual(share);
});
