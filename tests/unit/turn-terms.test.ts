import { describe, expect, test } from "vitest";
import { readPattern } from "../../server/src/fabric/pattern";
import { turnedText, turnStretch } from "../../server/src/features/turn-pattern";
import { turnTerms } from "../../server/src/reshape/terms/turn-terms";
import { withEdits } from "../../server/src/text/span";
import { stitchOf, stitchSpellings, type Terms } from "../../server/src/trade/stitches";
import { Checker } from "../../server/src/workspace/checker";
import { corpus } from "../property/pattern-texts";

function turned(text: string, to: Terms): string {
  return withEdits(text, turnTerms(readPattern(text), to).edits);
}

const byCountry =
  "funcrochetdesigns.com/crochet/tuesday-crochet-tip-crochet-terms-by-country; Crochet Terms Translation Chart (cdn.shopify.com/s/files/1/0659/6837/3974)";
const ukBook = "CICO Books UK edition abbreviations (cdn.shopify.com IW_CB960_SHAWLS_BOOK_001-128_UK)";
const grannyBook = "CICO Books UK edition abbreviations (cdn.shopify.com iw_CB1616_Granny_Square_Crochet)";
const sameHat = "patternsforcrochet.co.uk/beanie-hat-usa.html and beanie-hat.html";
const info = "hilandonubes.com/crochet/info.cgi?id=3008";
const memory = "from memory";

describe("published pairs, there and back", () => {
  test.each([
    ["sc", "dc", byCountry],
    ["single crochet", "double crochet", byCountry],
    ["hdc", "htr", byCountry],
    ["half double crochet", "half treble crochet", byCountry],
    ["dc", "tr", byCountry],
    ["double crochet", "treble crochet", byCountry],
    ["tr", "dtr", byCountry],
    ["treble crochet", "double treble crochet", byCountry],
    ["dtr", "ttr", byCountry],
    ["double treble crochet", "triple treble crochet", byCountry],
    ["sc2tog", "dc2tog", ukBook],
    ["dc2tog", "tr2tog", ukBook],
    ["dc3tog", "tr3tog", grannyBook],
    ["FPsc", "FPdc", grannyBook],
    ["FPdc", "FPtr", ukBook],
    ["yo", "yrh", ukBook],
    ["yarn over", "yarn round hook", ukBook],
    ["Gauge: 16 sts", "Tension: 16 sts", sameHat],
    ["sk next st", "miss next st", info],
    ["trtr", "qtr", memory],
    ["fsc", "fdc", memory],
    ["edc", "etr", memory],
    ["BPdc", "BPtr", memory],
    ["ch 3, sl st, BLO, picot, inc, dec, t-ch", "ch 3, sl st, BLO, picot, inc, dec, t-ch", ukBook],
  ])("%s is %s in UK terms (%s)", (us, uk) => {
    expect(turned(us, "UK")).toBe(uk);
    expect(turned(uk, "US")).toBe(us);
  });

  test.each([
    ["ss", "sl st", sameHat],
    ["trtr", "dtr", "woolandcrafts.co.uk/blogs/news/tip-of-the-week-mind-your-language"],
    ["RtrF", "FPdc", memory],
    ["raised treble back", "back post double crochet", memory],
  ])("UK %s is US %s (%s)", (uk, us) => {
    expect(turned(uk, "US")).toBe(us);
  });
});

test("every spelling of every stitch means the same stitch in the other terms", () => {
  const wrong = (["US", "UK"] as const).flatMap((from) => {
    const to = from === "US" ? "UK" : "US";
    return [...stitchSpellings].flatMap(([spelling, word]) => {
      const stitch = stitchOf(word, from);
      const now = turned(spelling, to).toLowerCase();
      const bare = now.replace(/ (?:st|stitch)(?:es|s)?$|'s$/, "");
      const known = stitchOf(stitchSpellings.get(now) ?? stitchSpellings.get(bare) ?? "", to);
      return stitch?.id === known?.id ? [] : [`${from} ${spelling}: ${turned(spelling, to)}`];
    });
  });
  expect(wrong).toEqual([]);
});

describe("by meaning", () => {
  test.each([
    ["Row 2: Sc (UK dc) in each st", "Row 2: Dc (US sc) in each st"],
    ["dc (UK tr)", "tr (US dc)"],
    ["UK tr", "US dc"],
    ["Terms: US", "Terms: UK"],
    ["Written in US terms. Hook: US H-8", "Written in UK terms. Hook: US H-8"],
    ["This pattern uses American terms", "This pattern uses British terms"],
    [
      "SC2TOG, Hdc, HALF DOUBLE CROCHET, Treble Crochet",
      "DC2TOG, Htr, HALF TREBLE CROCHET, Double Treble Crochet",
    ],
    ["(sc, 2dc, 3-tr cluster) in dcs, sc's", "(dc, 2tr, 3-dtr cluster) in trs, dc's"],
    ["sk = skip", "miss = skip"],
    ["If a stitch is missing, see www.tr.example/dc", "If a stitch is missing, see www.tr.example/dc"],
    ["Trim the disc; extra strap; escape", "Trim the disc; extra strap; escape"],
    ["s.c. in next d.c.,", "d.c. in next tr,"],
  ])("%s", (us, uk) => {
    expect(turned(us, "UK")).toBe(uk);
  });

  test("a name that the pattern gives another meaning is left alone and listed", () => {
    const text = "tr = magic ring\nRnd 1: 6 sc in tr (6)";
    const { left } = turnTerms(readPattern(text), "UK");
    expect(turned(text, "UK")).toBe("tr = magic ring\nRnd 1: 6 dc in tr (6)");
    expect(left.map(({ word, why }) => `${word}: ${why}`)).toContain(
      "tr: the pattern gives it a meaning of its own",
    );
  });

  test("names of the wanted terms and words that are not understood are listed", () => {
    const { left } = turnTerms(readPattern("Rnd 1: 6 sc in mr (6)\nRnd 2: htr, glorp, sc 4 (6)"), "UK");
    expect(left.map(({ word, why }) => `${word}: ${why}`)).toEqual([
      "htr: it is a UK name already",
      "glorp: it was not understood",
    ]);
  });
});

/** Spellings that come back in another way, or that stand in texts of both terms; the rest is the same to the letter. */
const choices: readonly (readonly [RegExp, string])[] = [
  // The UK treble is written without stops or spaces.
  [/\bd\.c\.|\bd c\b/g, "dc"],
  [/\bD\.c\./g, "Dc"],
  // US terms have no short name for the UK treble.
  [/(?<!half |double |triple )\btreble\b(?! crochet)/g, "treble crochet"],
  [/\b(?:ss|sl st)\b/gi, "sl st"],
  [/\b(?:skip|miss|sk)(?=\s)/gi, "sk"],
];

function settled(text: string): string {
  return choices.reduce((now, [form, to]) => now.replace(form, to), text);
}

describe("all samples and cases", () => {
  test("turned and turned back they are the same but for the choices above", () => {
    for (const text of corpus) {
      const { terms } = readPattern(text).context;
      const there = turned(text, terms === "US" ? "UK" : "US");
      expect.soft(settled(turned(there, terms))).toBe(settled(text));
    }
  });

  test("no count and no result changes", () => {
    for (const text of corpus) {
      const { terms } = readPattern(text).context;
      const to = terms === "US" ? "UK" : "US";
      // What tells the terms is put where nothing else does.
      const told = readPattern(turned(text, to)).context.terms === to ? text : `Terms: ${terms}\n\n${text}`;
      expect(numbers(turned(told, to)), text).toEqual(numbers(told));
    }
  });
});

function numbers(text: string): unknown {
  const { pieces, findings } = new Checker().check(text);
  const rows = pieces.flatMap((piece) =>
    piece.rows.map(({ result, needs, has, makes, stated, times }) => ({
      result,
      needs,
      has,
      makes,
      stated,
      times,
    })),
  );
  return { rows, loud: findings.filter(({ severity }) => severity === "error").map(({ rule }) => rule) };
}

describe("a whole pattern", () => {
  const open = (text: string) => new Checker().work(text).worked;

  test("that would not tell its terms any more gets a line that does", () => {
    expect(turnedText("Rnd 1: 6 sc in mr (6)", "UK")?.text).toBe("Terms: UK\n\nRnd 1: 6 dc in mr (6)");
  });

  test("that is in the wanted terms already is not touched", () => {
    expect(turnedText("Terms: UK\nRnd 1: 6 dc in mr (6)", "UK")).toBeNull();
  });

  test("that is in another language is not touched", () => {
    expect(turnedText("1. Runde: 6 fM in den Fadenring = 6 Maschen", "UK")).toBeNull();
  });

  test("a stretch is turned by itself", () => {
    const text = "Terms: UK\nRnd 1: 6 sc in mr (6)\nRnd 2: dc in each st (6)";
    const start = text.indexOf("Rnd 1");
    const { edits } = turnStretch(open(text), "UK", { start, end: text.indexOf("Rnd 2") });
    expect(withEdits(text, edits)).toBe("Terms: UK\nRnd 1: 6 dc in mr (6)\nRnd 2: dc in each st (6)");
  });
});
