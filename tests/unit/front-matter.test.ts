import { describe, expect, test } from "vitest";
import { withoutAsMeant } from "../../server/src/notation/as-meant";
import { addAbbreviation, removeAbbreviation } from "../../server/src/notation/front-matter/abbreviations";
import { type FrontMatter, frontMatterOf } from "../../server/src/notation/front-matter/front-matter";
import { readLengthPairs, readLengths } from "../../server/src/notation/front-matter/lengths";
import { readPieces } from "../../server/src/notation/front-matter/pieces";
import { stretchAt } from "../../server/src/notation/front-matter/stretch";
import { LineReader, readLines } from "../../server/src/notation/lines";
import { paragraphsOf } from "../../server/src/notation/paragraphs";
import { withEdits } from "../../server/src/text/span";

function frontOf(text: string): FrontMatter {
  return frontMatterOf(readLines(text));
}

describe("abbreviations", () => {
  /** Forms of lists: the survey of published patterns behind this project; the texts are invented. */
  test.each([
    ["a line each, with a dash", "Abbreviations\nch - chain\nsc - single crochet"],
    ["with a long dash", "ABBREVIATIONS\nch – chain\nsc — single crochet"],
    ["with an equals sign", "Abbreviations:\nch = chain\nsc = single crochet"],
    ["with a colon and bullets", "## Abbreviations (US terms)\n- ch: chain\n- sc: single crochet"],
    ["run on with semicolons", "Abbreviations: ch - chain; sc - single crochet"],
    ["run on with commas", "Abbreviations: ch = chain, sc = single crochet"],
    ["without blanks", "Abbreviations: ch-chain, sc-single crochet"],
    ["with a comma for a sign", "Abbreviations: ch, chain; sc, single crochet"],
    ["without a sign", "Abb.\nch chain\nsc single crochet"],
    ["without a sign, run on", "ABBREVIATIONS\nch chain; sc single crochet"],
  ])("%s", (_, text) => {
    const [list] = frontOf(`Pouch\n\n${text}\n\nBody\nRnd 1: 6 sc in mr (6)`).abbreviations;
    expect(list?.entries.map(({ name, meaning }) => [name.text, meaning?.text])).toEqual([
      ["ch", "chain"],
      ["sc", "single crochet"],
    ]);
  });

  test("each part stands where its span says", () => {
    const text =
      "Pouch\n\nAbbreviations:  st(s) - stitch(es); V-stitch (V-st) = dc, ch 1, dc in one st;\nyo/yrh: yarn over";
    const entries = frontOf(text).abbreviations.flatMap((list) => list.entries);
    for (const { name, meaning } of entries) {
      expect(text.slice(name.start, name.end)).toBe(name.text);
      expect(text.slice(meaning?.start, meaning?.end)).toBe(meaning?.text);
    }
    expect(entries.map(({ names }) => names)).toEqual([
      ["st", "sts"],
      ["v-stitch", "v-st"],
      ["yo", "yrh"],
    ]);
    expect(entries[1]?.meaning?.text).toBe("dc, ch 1, dc in one st");
  });

  test("a list of mere names has no meanings, and a word on where to look is no list", () => {
    const [named] = frontOf("Cowl\nStitches used: ch, sc, sp, sk\n").abbreviations;
    expect(named?.isWhole).toBe(false);
    expect(named?.entries.map(({ names, meaning }) => [names[0], meaning])).toEqual(
      ["ch", "sc", "sp", "sk"].map((name) => [name, null]),
    );
    expect(frontOf("Mitts\nABBREVIATIONS see page 98\n").abbreviations).toEqual([]);
  });

  test.each([
    [
      "Abbreviations\n- ch: chain [as meant: unused-abbreviation]\n- sc: single crochet [as meant: unused-abbreviation]\n",
      "Abbreviations\n- ch: chain [as meant: unused-abbreviation]\n- sc: single crochet [as meant: unused-abbreviation]\n- hdc: half double crochet\n",
    ],
    [
      "Abbreviations\nch - chain\nsc - single crochet\n\nBody",
      "Abbreviations\nch - chain\nsc - single crochet\nhdc - half double crochet\n\nBody",
    ],
    [
      "Abbreviations: ch = chain; sc = single crochet",
      "Abbreviations: ch = chain; sc = single crochet; hdc = half double crochet",
    ],
  ])("one is added in the form of the others", (text, expected) => {
    const [list] = frontOf(withoutAsMeant(text)).abbreviations;
    if (!list) throw new Error("no list");
    expect(withEdits(text, addAbbreviation(text, list, "hdc", "half double crochet"))).toBe(expected);
  });

  test.each([
    [
      "Abbreviations\nch - chain\nsk - skip\nsc - single crochet\n",
      1,
      "Abbreviations\nch - chain\nsc - single crochet\n",
    ],
    [
      "Abbreviations\nch - chain\nsk - skip\nsc - single crochet\n",
      2,
      "Abbreviations\nch - chain\nsk - skip\n",
    ],
    [
      "Abbreviations: ch = chain, sk = skip, sc = single crochet",
      0,
      "Abbreviations: sk = skip, sc = single crochet",
    ],
    ["Abbreviations: ch = chain, sk = skip, sc = single crochet", 2, "Abbreviations: ch = chain, sk = skip"],
  ])("one is taken out with its sign and line", (text, at, expected) => {
    const entries = frontOf(text).abbreviations[0]?.entries ?? [];
    expect(withEdits(text, removeAbbreviation(text, entries, entries[at] as (typeof entries)[number]))).toBe(
      expected,
    );
  });
});

test("special stitches, under a title or on a line of their own; a title of the pattern is none", () => {
  const text = `Tide Square: a motif

Special stitches
Shell: 5 dc in one st.
Picot - ch 3, sl st in 3rd ch from hook

Bobble = (yo, insert hook, yo and draw up a loop) 5 times in same st
Set-up: Ch 4, join with sl st to form ring.
`;
  expect(frontOf(text).specialStitches.map(({ names }) => names[0])).toEqual(["shell", "picot", "bobble"]);
});

describe("yarns", () => {
  function yarnsOf(materials: string) {
    return frontOf(`Pouch\n\nMaterials\n${materials}\n\nBody\n`).yarns.map(
      ({ letter, colour, amounts, weight }) => ({
        letter: letter?.text ?? null,
        colour: colour?.text ?? null,
        amount: amounts.map(({ values, unit }) => `${values.join("/")} ${unit}`).join(),
        weight,
      }),
    );
  }

  test("colours with their amounts", () => {
    expect(yarnsOf("DK cotton: 45 g in sand, 20 g in tide blue")).toEqual([
      { letter: null, colour: "sand", amount: "45 g", weight: "DK" },
      { letter: null, colour: "tide blue", amount: "20 g", weight: "DK" },
    ]);
  });

  test("letters with their colours", () => {
    expect(yarnsOf("Worsted wool: 200 g each of sand (A), foam white (B) and deep blue (C)")).toMatchObject([
      { letter: "A", colour: "sand" },
      { letter: "B", colour: "foam white" },
      { letter: "C", colour: "deep blue" },
    ]);
    expect(yarnsOf("Soft DK (100% acrylic, 100g/295m): A white x 2; B mint x 1")).toMatchObject([
      { letter: "A", colour: "white" },
      { letter: "B", colour: "mint" },
    ]);
    expect(yarnsOf("4 x 50g balls of cotton DK in Cream (A), 2 balls in Teal (B)")).toMatchObject([
      { letter: "A", colour: "Cream" },
      { letter: "B", colour: "Teal", amount: "2 ball" },
    ]);
  });

  test("an amount for each size", () => {
    expect(yarnsOf("Aran wool: 60 (75, 95, 115) g")).toMatchObject([
      { amount: "60/75/95/115 g", colour: null },
    ]);
    expect(yarnsOf("1[1:2] x 100g ball aran yarn")).toMatchObject([{ amount: "1/1/2 ball", colour: null }]);
  });

  test("what is no yarn: hooks, stuffing, thread for a face, the name of a maker", () => {
    expect(yarnsOf("3.5 mm hook\nFibre filling 40 g\nBlack embroidery thread\n8 mm safety eyes")).toEqual([]);
    expect(yarnsOf("50 g Harbour Mist Merino")).toMatchObject([{ colour: null }]);
  });

  test("lists titled by colour", () => {
    const { yarns } = frontOf("Blanket\nColours: A (navy), B (cream)\nCh 9");
    expect(yarns.map(({ letter, colour }) => [letter?.text, colour?.text])).toEqual([
      ["A", "navy"],
      ["B", "cream"],
    ]);
  });
});

describe("hooks", () => {
  function hooksOf(line: string): string[] {
    return frontOf(`Pouch\n\nMaterials\n${line}\n\nBody\n`).hooks.map(
      ({ mm, labels }) => `${mm} ${labels.map(({ system, size }) => `${system ?? "?"} ${size}`).join(", ")}`,
    );
  }

  test.each([
    ["3.5 mm (E/4) hook", ["3.5 ? E/4"]],
    ["Hook: H/8 - 5.00 mm", ["5 ? H/8"]],
    ["US H-8 (5.0 mm) hook", ["5 us H-8"]],
    ["Hook 4mm", ["4 "]],
    ["Hook: 4.5 mm (US 7)", ["4.5 us 7"]],
    ["4 mm (UK 8, US G/6) crochet hook", ["4 uk 8, us G/6"]],
    ["5mm [US I-9] hook", ["5 us I-9"]],
    ["6.5 mm (K/10 1/2) hook", ["6.5 ? K/10 1/2"]],
    ["1.75 mm steel hook", ["1.75 "]],
    ["steel hook No. 9", ["null steel 9"]],
    ["size G hook", ["null ? G"]],
    ["4 mm (G/6) and 5 mm (H/8) hooks", ["4 ? G/6", "5 ? H/8"]],
    ["hook 2,5 mm, stuffing, safety eyes 9 mm", ["2.5 "]],
    ["hook 2.5", ["2.5 "]],
    ["Recycled cotton cord, 5 mm thick: 250 g", []],
  ])("%s", (line, expected) => {
    expect(hooksOf(line)).toEqual(expected);
  });
});

describe("lengths", () => {
  function lengthsOf(text: string): string[] {
    return readLengths(stretchAt(text, 0)).map(
      ({ values, unit, step }) => `${values.join("/")} ${unit} by ${step}`,
    );
  }

  test.each([
    ['about 9 cm (3 1/2") across', ["9 cm by 1", "3.5 in by 0.5"]],
    ["40 (46.5, 51) cm", ["40/46.5/51 cm by 0.5"]],
    ["48[52:56]cm", ["48/52/56 cm by 1"]],
    ["36 x 40 inches", ["36 in by 1", "40 in by 1"]],
    ['3½ in. and ¾"', ["3.5 in by 0.5", "0.75 in by 0.25"]],
    ['20-22"', ["20/22 in by 1"]],
    ["6.25in", ["6.25 in by 0.01"]],
    ["12 sts and 30 rows", []],
  ])("%s", (text, expected) => {
    expect(lengthsOf(text)).toEqual(expected);
  });

  test("pairs are those that stand in brackets or behind a stroke", () => {
    const pairsOf = (text: string) =>
      readLengthPairs(stretchAt(text, 0)).map(({ first, second }) => `${first.text} ~ ${second.text}`);
    expect(pairsOf('22 cm x 11 cm (8 3/4" x 4 1/4") and 13 cm (5") tall')).toEqual([
      '22 cm ~ 8 3/4"',
      '11 cm ~ 4 1/4"',
      '13 cm ~ 5"',
    ]);
    expect(pairsOf('8 sc and 9 rounds = 4" / 10 cm')).toEqual(['4" ~ 10 cm']);
    expect(pairsOf("40 (46, 51) cm [16 (18, 20) in]")).toEqual(["40 (46, 51) cm ~ 16 (18, 20) in"]);
    expect(pairsOf('a 20 cm tail, then a 6" chain')).toEqual([]);
  });
});

test("gauge, sizes, measurements, notions, terms and pieces stand where their spans say", () => {
  const text = `Stall Hat

Terms: UK
Sizes: S (M, L)
Finished circumference: 40 (46, 51) cm
Materials: Aran wool, 60 g; 5.5 mm hook; stitch marker
Gauge: 14 hdc and 11 rounds = 10 cm

Hat (make 2)
Rnd 1: 8 dc in mr (8)
`;
  const front = frontOf(text);
  const pieces = readPieces(readLines(text));
  const parts = [...front.gauge, ...front.sizes, ...front.notions, ...pieces.map(({ line }) => line)];
  expect(parts.map(({ start, end }) => text.slice(start, end))).toEqual([
    "14 hdc and 11 rounds = 10 cm",
    "S",
    "M",
    "L",
    "stitch marker",
    "Stall Hat",
    "Hat (make 2)",
  ]);
  expect(front.terms?.terms).toBe("UK");
  expect(pieces.at(-1)).toMatchObject({ name: "Hat", make: 2 });
  expect(front.measurements.map(({ title, lengths }) => [title?.text, lengths[0]?.values])).toEqual([
    ["Finished circumference", [40, 46, 51]],
  ]);
});

test("an edit below the front matter leaves it the same object, one in it does not", () => {
  const reader = new LineReader();
  const text = "Pouch\n\nHook: 4 mm\n\nBody\nRnd 1: 6 sc in mr (6)\n";
  const first = frontMatterOf(reader.read(text));
  expect(frontMatterOf(reader.read(`${text}Rnd 2: inc x6 (12)\n`))).toBe(first);
  const other = frontMatterOf(reader.read(text.replace("4 mm", "5 mm")));
  expect(other.hooks.map(({ mm }) => mm)).toEqual([5]);
  const moved = frontMatterOf(reader.read(`A ${text}`));
  expect(moved.hooks.map(({ start }) => start)).toEqual(first.hooks.map(({ start }) => start + 2));
});

test("what was found out about paragraphs stays with them when another one is edited or they move", () => {
  const reader = new LineReader();
  const text = `Body\n${"Rnd 1: 6 sc in mr (6)\n".repeat(100)}\nEar\nRnd 1: 5 sc in mr (5)\n\nTail\nCh 9.\n`;
  const contentsOf = (version: string) => paragraphsOf(reader.read(version)).map(({ content }) => content);
  const before = contentsOf(text);
  expect(before.map(({ lines }) => lines.length)).toEqual([64, 37, 2, 2]);
  const after = contentsOf(text.replace("Ear\nRnd 1: 5 sc", "Ear\nRnd 1: 50 sc"));
  expect(after.map((content, i) => content === before[i])).toEqual([true, true, false, true]);
});

test("lines as no designer writes them are read to their end", () => {
  for (const line of [
    "(".repeat(4000),
    "1 ".repeat(2000),
    "a-".repeat(2000),
    `Materials: ${"1 (1, ".repeat(700)}`,
  ]) {
    const { abbreviations, yarns, hooks, measurements, notions } = frontOf(
      `Abbreviations\n${line}\nMaterials\n${line}\n`,
    );
    for (const found of [abbreviations, yarns, hooks, measurements, notions])
      expect(Array.isArray(found)).toBe(true);
  }
});

describe("titles of lists, as houses word them", () => {
  const notionsOf = (title: string): string[] =>
    frontMatterOf(
      readLines(`${title}\n- 50 g cotton\n- 4 mm hook\n- yarn needle\n\nRnd 1: 6 sc in mr (6)\n`),
    ).notions.map(({ text }) => text);

  test.each([
    "Materials needed",
    "What you'll need",
    "Things you need",
    "You need:",
    "Shopping list",
    "Yarn and notions",
    "Tools & materials",
  ])("%s", (title) => expect(notionsOf(title)).toEqual(["yarn needle"]));

  test("Other: what is needed beside yarn and hook", () => {
    const front = frontMatterOf(
      readLines("Yarn: cotton\nHook: 4 mm\nOther: 1 button, needle\n\nRnd 1: 6 sc in mr (6)\n"),
    );
    expect(front.notions.map(({ text }) => text)).toEqual(["1 button", "needle"]);
  });

  test.each([
    "Abbreviations in this pattern",
    "List of abbreviations",
    "Terminology and abbreviations",
    "Abbreviation key",
  ])("%s", (title) => {
    const [list] = frontMatterOf(
      readLines(`${title}\nsc = single crochet\nst = stitch\nch = chain\n\nRnd 1: 6 sc in mr (6)\n`),
    ).abbreviations;
    expect(list?.entries.map(({ names }) => names[0])).toEqual(["sc", "st", "ch"]);
    expect(list?.isWhole).toBe(true);
  });
});

test.each([
  "Abbreviations - US. sc, single crochet; ch, chain; st, stitch",
  "American terminology. Abbreviations: sc single crochet, ch chain, st stitch",
])("terms and abbreviations on one line: %s", (line) => {
  const [list] = frontOf(`${line}\n\nRnd 1: 6 sc in mr (6)\n`).abbreviations;
  expect(list?.entries.map(({ names }) => names[0])).toEqual(["sc", "ch", "st"]);
});
