import { describe, expect, test } from "vitest";
import {
  lowStarts,
  startingChainFor,
  turningChainDisagreements,
  turningChainFor,
} from "../../server/src/trade/turning-chains";

const handbook =
  "dummies.com/how-to/content/how-to-crochet-a-turning-chain.html; guild lesson of 1997, careyscraftycorner.tripod.com/id15_m.htm; crazypatterns.net/en/blog/243/mehr-haekelmaschen";

describe("turning chains", () => {
  test.each<[stitch: string, chains: number, counts: boolean | "unsettled", firstIn: number, source: string]>(
    [
      ["sl st", 0, false, 2, handbook],
      ["sc", 1, false, 2, handbook],
      ["hdc", 2, "unsettled", 3, handbook],
      ["dc", 3, true, 4, handbook],
      ["tr", 4, true, 5, handbook],
      ["dtr", 5, true, 6, "dummies.com, as above"],
      ["trtr", 6, true, 7, "from memory"],
    ] as const,
  )("%s: %i chains, counted %s, first stitch in chain %i (%s)", (stitch, chains, counts, firstIn) => {
    expect(turningChainFor(stitch)).toMatchObject({ chains, counts, firstIn });
  });

  test("a compound begins like the stitch it is built on", () => {
    expect(turningChainFor("fpdc2tog")).toEqual(turningChainFor("dc"));
    expect(turningChainFor("fsc")).toEqual(turningChainFor("sc"));
  });

  test("nothing is claimed of a stitch without a height", () => {
    expect(turningChainFor("puff")).toMatchObject({ chains: 0, counts: "unsettled" });
    expect(turningChainFor("no such stitch")).toMatchObject({ chains: 0, counts: "unsettled" });
  });

  test("the disagreements name a source for each opinion", () => {
    const opinions = turningChainDisagreements.flatMap(({ says }) => says);
    expect(turningChainDisagreements).toHaveLength(4);
    expect(opinions).toHaveLength(9);
    expect(opinions.every(({ source, value }) => source !== "" && value !== "")).toBe(true);
  });
});

describe("starting chains", () => {
  // Pattern sheets: BRC0502-035419M, CAC0502-030680M, CAC0502-007251M, and a published baby scarf.
  test.each([
    [105, 106],
    [25, 26],
    [166, 167],
    [18, 19],
  ])("%i sc start on %i chains", (stitches, chains) => {
    expect(startingChainFor(stitches, turningChainFor("sc"))).toBe(chains);
  });

  // Quoted at forum.knittinghelp.com/t/teaching-myself-crochet-basics-again/72046.
  test("11 hdc start on 12 chains where ch 2 counts, on 13 where it does not", () => {
    const hdc = turningChainFor("hdc");
    expect(startingChainFor(11, { ...hdc, counts: true })).toBe(12);
    expect(startingChainFor(11, { ...hdc, counts: false })).toBe(13);
  });

  test.each([
    ["dc", 14],
    ["tr", 15],
    ["dtr", 16],
  ])("11 %s start on %i chains where the turning chain does not count (same forum)", (stitch, chains) => {
    expect(startingChainFor(11, { ...turningChainFor(stitch), counts: false })).toBe(chains);
  });

  // From memory.
  test("low starts skip fewer chains", () => {
    expect(startingChainFor(20, lowStarts.hdc ?? turningChainFor("hdc"))).toBe(21);
    expect(startingChainFor(20, lowStarts.dc ?? turningChainFor("dc"))).toBe(22);
  });
});
