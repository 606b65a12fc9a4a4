import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { foundBy, mended, onlyFinding } from "./rule-cases";

// How lists of abbreviations are titled and written: common practice, no source. The texts are invented.

const entries = "ch = chain\nst = stitch\nsc = single crochet\nhdc = half double crochet\n";
const rows = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: Ch 1, sk first st, sc in next 5 sts. (5)\nFasten off.\n";

const titles = [
  "Abbreviations",
  "Abbreviations, US terms",
  "Abbreviations — US",
  "ABBREVIATIONS – US TERMS",
  "Abbreviations in US terms",
  "Abbreviations (US terms):",
  "US abbreviations",
  "Stitches and abbreviations",
  "Abbreviations and terms",
  "Stitch abbreviations (US terms)",
  "US terms",
  "Key",
  "Stitch guide",
];

describe("the title of a list", () => {
  test.each(titles)("%s", (title) => {
    const text = `${title}\n${entries}\n${rows}`;
    expect(onlyFinding("undefined-abbreviation", text).on).toBe("sk");
    expect(onlyFinding("unused-abbreviation", text).on).toBe("hdc = half double crochet");
  });

  test.each([
    [
      "a list of stitches need not hold other abbreviations",
      "Stitches used\nsc = single crochet\nch = chain\n",
    ],
    ["a key of signs", "Key\nX = sc in white\nO = sc in blue\n"],
    ["terms told alone", "US terms\n\nA ring for a key, worked in one piece - quick.\nch = chain\n"],
  ])("%s", (_, list) => {
    const text = `${list}\n${rows}`;
    expect(foundBy("undefined-abbreviation", text)).toEqual([]);
    expect(foundBy("unused-abbreviation", text)).toEqual([]);
  });
});

describe("a list on one line with the names in brackets", () => {
  const list = "Abbreviations (US): chain (ch), single crochet (sc), half double crochet (hdc)";

  test("is read, and goes on in its own form", () => {
    const text = `${list}\n\n${rows}`;
    expect(onlyFinding("unused-abbreviation", text).on).toBe("half double crochet (hdc)");
    expect(mended("undefined-abbreviation", text)).toContain(`${list}, skip (sk)\n`);
    expect(mended("unused-abbreviation", text)).toContain("chain (ch), single crochet (sc)\n");
  });

  test("with plurals in brackets of their own", () => {
    const plurals = "Abbreviations: chain (ch), slip stitch (sl st), stitch(es) (st(s)), single crochet (sc)";
    expect(foundBy("undefined-abbreviation", `${plurals}, skip (sk)\n\n${rows}`)).toEqual([]);
    expect(onlyFinding("unused-abbreviation", `${plurals}, skip (sk)\n\n${rows}`).on).toBe(
      "slip stitch (sl st)",
    );
  });

  test("of stitches: one that nothing uses", () => {
    const text = `${list.replace("Abbreviations", "Stitches used")}\n\n${rows}`;
    expect(foundBy("undefined-abbreviation", text)).toEqual([]);
    expect(onlyFinding("unused-abbreviation", text).on).toBe("half double crochet (hdc)");
  });
});

describe("what the explanation of a stitch uses", () => {
  const stitch =
    "Special stitch\nC4: sk next 2 sts, FPtr around each of next 2 sts, FPtr around each skipped st\n";

  test("an abbreviation that stands nowhere else is looked for in the list", () => {
    const text = `Abbreviations\n${entries}sk = skip\n\n${stitch}\n${rows}`;
    expect(onlyFinding("undefined-abbreviation", text).on).toBe("FPtr");
    const listed = text.replace("sk = skip\n", "sk = skip\nFPtr = front post treble\n");
    expect(foundBy("undefined-abbreviation", listed)).toEqual([]);
  });

  test("behind a comma it may begin with a bracket", () => {
    const list =
      "UK terms\nAbbreviations\nch, chain\nst, stitch\ndc, double crochet\ndc2tog, (insert hook in next st and draw up a loop) twice, yrh and draw through all loops\nyrh, yarn round hook\n";
    const text = `${list}\nRound 1: 6 dc in a ring (6)\nRound 2: dc2tog 3 times (3)\nFasten off.\n`;
    expect(foundBy("undefined-abbreviation", text)).toEqual([]);
    expect(foundBy("unused-abbreviation", text).map(({ message }) => message.split(" ")[0])).not.toContain(
      '"dc2tog"',
    );
  });
});

test("an abbreviation that is not listed is told where it stands first, whatever was checked before", () => {
  const parts = ["sc, sl st in next st (1)", "hdc, sl st in next st (1)"];
  const all = Array.from({ length: 48 }, (_, i) => `Part ${i}\nRow 1: ${parts[i % 2]}\n`).join("\n");
  const text = `Abbreviations\nsc - single crochet\nhdc - half double crochet\nst - stitch\n\n${all}`;
  for (let run = 0; run < 4; run++) {
    const found = new Checker().check(text.replace("Part 0", `Part ${"0".repeat(run + 1)}`)).findings;
    const starts = found
      .filter(({ rule }) => rule === "undefined-abbreviation")
      .map(({ span }) => span.start);
    expect(starts).toEqual([text.indexOf("sl st") + run]);
  }
});
