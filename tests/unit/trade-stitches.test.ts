import { describe, expect, test } from "vitest";
import { abbreviationOf, stitchOf, stitchSpellings } from "../../server/src/trade/stitches";

const usOf = (ukWord: string) => stitchOf(ukWord, "UK")?.us;
const ukOf = (usWord: string) => stitchOf(usWord, "US")?.uk;

describe("US and UK names", () => {
  const byCountry = "funcrochetdesigns.com/crochet/tuesday-crochet-tip-crochet-terms-by-country";
  const chart =
    "Crochet Terms Translation Chart (cdn.shopify.com/s/files/1/0659/6837/3974/files/Crochet_Terms_Translation_Chart.pdf)";
  const mindYourLanguage =
    "woolandcrafts.co.uk/blogs/news/tip-of-the-week-mind-your-language-understanding-the-difference-between-uk-and-us-crochet-terms";
  const shawlBook =
    "UK shawl book (cdn.shopify.com/s/files/1/1537/8529/files/IW_CB960_SHAWLS_BOOK_001-128_UK_5c_9.pdf)";
  const grannyBook =
    "UK granny square book (cdn.shopify.com/s/files/1/1537/8529/files/iw_CB1616_Granny_Square_Crochet_5c_9.pdf)";
  const memory = "from memory";

  test.each([
    ["ch", "ch", byCountry],
    ["sl st", "sl st", byCountry],
    ["sc", "dc", byCountry],
    ["hdc", "htr", byCountry],
    ["dc", "tr", byCountry],
    ["tr", "dtr", mindYourLanguage],
    ["dtr", "ttr", byCountry],
    ["dtr", "trtr", `${chart}; ${mindYourLanguage}`],
    ["trtr", "qtr", memory],
    ["sc2tog", "dc2tog", shawlBook],
    ["hdc2tog", "htr2tog", memory],
    ["dc2tog", "tr2tog", shawlBook],
    ["dc3tog", "tr3tog", grannyBook],
    ["tr2tog", "dtr2tog", memory],
    ["fpsc", "fpdc", grannyBook],
    ["fpdc", "fptr", shawlBook],
    ["fpdc", "rtrf", memory],
    ["bpdc", "bptr", memory],
    ["bpdc", "rtrb", memory],
    ["fptr", "fpdtr", memory],
    ["fptr", "rdtrf", memory],
    ["fsc", "fdc", memory],
    ["fhdc", "fhtr", memory],
    ["fdc", "ftr", memory],
    ["esc", "edc", memory],
  ])("US %s is UK %s (%s)", (us, uk) => {
    expect(stitchOf(uk, "UK")).toEqual(stitchOf(us, "US"));
    expect(stitchOf(us, "US")?.id).toBe(us);
  });

  test.each([
    ["single crochet", "double crochet"],
    ["half double crochet", "half treble crochet"],
    ["double crochet", "treble crochet"],
    ["treble crochet", "double treble crochet"],
    ["double treble crochet", "triple treble crochet"],
  ])(`US "%s" is UK "%s" (${chart})`, (usName, ukName) => {
    const stitch = stitchOf(stitchSpellings.get(usName) ?? "", "US");
    expect(stitch?.usName).toBe(usName);
    expect(stitch?.ukName).toBe(ukName);
    expect(stitchOf(stitchSpellings.get(ukName) ?? "", "UK")).toEqual(stitch);
  });

  test("the same letters are two stitches", () => {
    expect([usOf("dc"), usOf("tr"), usOf("dtr"), usOf("trtr")]).toEqual(["sc", "dc", "tr", "dtr"]);
    expect([ukOf("dc"), ukOf("tr"), ukOf("dtr"), ukOf("trtr")]).toEqual(["tr", "dtr", "ttr", "qtr"]);
    expect(stitchOf("fdc", "US")?.base).toBe("dc");
    expect(stitchOf("fdc", "UK")?.base).toBe("sc");
  });

  test("a sure word of the other terms keeps its meaning", () => {
    expect(stitchOf("htr", "US")?.id).toBe("hdc");
    expect(stitchOf("ttr", "US")?.id).toBe("dtr");
    expect(stitchOf("qtr", "US")?.id).toBe("trtr");
    expect(stitchOf("rtrf", "US")?.id).toBe("fpdc");
    expect(stitchOf("sc", "UK")?.id).toBe("sc");
    expect(stitchOf("hdc2tog", "UK")?.id).toBe("hdc2tog");
  });

  test("every printed abbreviation reads back as the same stitch in its own terms", () => {
    for (const word of new Set(stitchSpellings.values())) {
      const stitch = stitchOf(word, "US");
      expect(stitch, word).toBeDefined();
      for (const terms of ["US", "UK"] as const) {
        const printed = stitch ? abbreviationOf(stitch, terms).toLowerCase() : "";
        expect(stitchOf(stitchSpellings.get(printed) ?? printed, terms), `${word} ${printed}`).toEqual(
          stitch,
        );
      }
    }
  });
});

describe("places used and stitches made", () => {
  // Common practice, no source; sc3tog, dc2tog and tr5tog also in the survey of published patterns.
  test.each([
    ["sc", 1, 1],
    ["sl st", 1, 1],
    ["ch", 0, 1],
    ["inc", 1, 2],
    ["dec", 2, 1],
    ["invdec", 2, 1],
    ["scinc", 1, 2],
    ["hdcdec", 2, 1],
    ["sc2tog", 2, 1],
    ["sc3tog", 3, 1],
    ["tr5tog", 5, 1],
    ["fpdc2tog", 2, 1],
    ["dc12tog", 12, 1],
    ["fpdc", 1, 1],
    ["fsc", 0, 1],
    ["esc", 1, 1],
    ["csdc", 1, 1],
    ["puff", 1, 1],
    ["popcorn", 1, 1],
    ["bobble", 1, 1],
    ["cluster", 1, 1],
    ["shell", 1, 1],
    ["v-st", 1, 2],
    ["picot", 0, 0],
    ["revsc", 1, 1],
    ["spike st", 1, 1],
  ])("%s uses %i and makes %i", (word, uses, makes) => {
    expect(stitchOf(word, "US")).toMatchObject({ uses, makes });
  });

  test("a compound has the base and the height of its stitch in the terms in force", () => {
    expect(stitchOf("fpdc2tog", "US")).toMatchObject({ id: "fpdc2tog", base: "dc", turningChain: 3 });
    expect(stitchOf("fpdc2tog", "UK")).toMatchObject({ id: "fpsc2tog", base: "sc", turningChain: 1 });
    expect(stitchOf("dec", "US")).toMatchObject({ base: null, turningChain: 0 });
  });

  test.each(["", "sc1tog", "sc0tog", "sc02tog", "2tog", "inc2tog", "fsc2tog", "lotus", "scsc", "tss", "fp"])(
    "%j is no stitch",
    (word) => {
      expect(stitchOf(word, "US")).toBeUndefined();
      expect(stitchOf(word, "UK")).toBeUndefined();
    },
  );
});

describe("spellings", () => {
  // Met in the survey of published patterns, or common practice, no source.
  test.each([
    ["s c", "sc"],
    ["single crochets", "sc"],
    ["sc's", "sc"],
    ["scs", "sc"],
    ["half double crochet", "hdc"],
    ["half treble", "htr"],
    ["d c", "dc"],
    ["trebles", "tr"],
    ["triple crochet", "tr"],
    ["fp dc", "fpdc"],
    ["front post dc", "fpdc"],
    ["fp double crochet", "fpdc"],
    ["dcfp", "fpdc"],
    ["raised treble front", "rtrf"],
    ["slst", "sl st"],
    ["ss", "sl st"],
    ["slip stitches", "sl st"],
    ["chains", "ch"],
    ["inv dec", "invdec"],
    ["increases", "inc"],
    ["v-stitches", "v-st"],
    ["v sts", "v-st"],
    ["popcorn sts", "popcorn"],
    ["pc", "popcorn"],
    ["bobble st", "bobble"],
    ["mb", "bobble"],
    ["puff st", "puff"],
    ["clusters", "cluster"],
    ["cl", "cluster"],
    ["shl", "shell"],
    ["picots", "picot"],
    ["foundation single crochet", "fsc"],
    ["extended single crochet", "esc"],
    ["chained starting double crochet", "csdc"],
    ["chained starting dc", "csdc"],
    ["reverse single crochet", "revsc"],
    ["crab stitch", "crab st"],
    ["spike sc", "spikesc"],
  ])("%s is %s", (spelling, word) => {
    expect(stitchSpellings.get(spelling)).toBe(word);
  });

  // A single letter, a piece and a word of the row are no stitches.
  test.each(["p", "s", "st", "sts", "inc st", "dec sts", "pcs", "spike", "crab", "double", "single", "post"])(
    "%s is no stitch",
    (spelling) => expect(stitchSpellings.has(spelling)).toBe(false),
  );

  test("every spelling is lower case, with single spaces, and leads to a stitch in both terms", () => {
    for (const [spelling, word] of stitchSpellings) {
      expect(spelling).toMatch(/^[a-z'-]+( [a-z'-]+)*$/);
      expect(stitchOf(word, "US"), spelling).toBeDefined();
      expect(stitchOf(word, "UK"), spelling).toBeDefined();
    }
  });
});
