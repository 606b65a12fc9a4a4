import { describe, expect, test } from "vitest";
import { hoverAt } from "../../server/src/features/hover/hover";
import { toPlainText } from "../../server/src/features/shown/plain-text";
import { checkHover } from "./check-hover";
import { marked } from "./marked-pattern";

/** The first line of what is shown at the `$0`. */
function titleAt(pattern: string): string | undefined {
  const { worked, offset } = marked(pattern);
  return toPlainText(hoverAt(worked, offset)?.blocks ?? []).split("\n")[0];
}

/*
 * Source: Crochet Terms Translation Chart
 * (cdn.shopify.com/s/files/1/0659/6837/3974/files/Crochet_Terms_Translation_Chart.pdf) and
 * funcrochetdesigns.com/crochet/tuesday-crochet-tip-crochet-terms-by-country: each row is one stitch.
 */
const chart = [
  { us: "sc", uk: "dc", inUs: "single crochet", inUk: "double crochet" },
  { us: "hdc", uk: "htr", inUs: "half double crochet", inUk: "half treble crochet" },
  { us: "dc", uk: "tr", inUs: "double crochet", inUk: "treble crochet" },
  { us: "tr", uk: "dtr", inUs: "treble crochet", inUk: "double treble crochet" },
];

describe.each(chart)("US $us is UK $uk", ({ us, uk, inUs, inUk }) => {
  test("in a pattern in US terms", () => {
    expect(titleAt(`Terms: US\nRnd 1: 6 $0${us} in ring (6)`)).toBe(`${us}: ${inUs} (UK: ${inUk})`);
  });

  test("in a pattern in UK terms", () => {
    expect(titleAt(`Terms: UK\nRound 1: 6 $0${uk} in ring. 6 ${uk}.`)).toBe(`${uk}: ${inUk} (US: ${inUs})`);
  });
});

test("a stitch that both countries call the same has one name", () => {
  expect(titleAt("Terms: UK\nRound 1: 6dc in ring, join with $0ss to first dc. 6dc.")).toBe(
    "ss: slip stitch",
  );
  expect(titleAt("Terms: US\nWith A, $0ch 9.")).toBe("ch: chain");
});

describe("the height of a stitch", () => {
  // Chains to turn and whether they count: dummies.com/how-to/content/how-to-crochet-a-turning-chain.html; Crochet Guild
  // of America lesson, 1997 (careyscraftycorner.tripod.com/id15_m.htm): sc 1, no stitch; dc 3, a stitch; tr 4, a stitch.
  test.each([
    ["sc", "As high as 1 chain. A row of it usually begins with ch 1, which does not count as a stitch."],
    ["dc", "As high as 3 chains. A row of it usually begins with ch 3, which counts as a stitch."],
    ["tr", "As high as 4 chains. A row of it usually begins with ch 4, which counts as a stitch."],
    // The guild and the other published tables differ on the ch 2 of a half double crochet.
    [
      "hdc",
      "As high as 2 chains. A row of it usually begins with ch 2; makers differ on whether that counts as a stitch.",
    ],
  ])("%s", (word, says) => {
    const { worked, offset } = marked(`Terms: US\nRnd 1: 6 $0${word} in ring (6)`);
    expect(toPlainText(hoverAt(worked, offset)?.blocks ?? [])).toContain(`- ${says}`);
  });

  test("is told with what the pattern says of its opening chain", () => {
    const { worked, offset } = marked(
      "Terms: US\nNotes\nCh 3 does not count as a stitch.\n\nRnd 1: 12 $0dc in ring (12)",
    );
    expect(toPlainText(hoverAt(worked, offset)?.blocks ?? [])).toContain(
      "In this pattern ch 3 at the start does not count as a stitch.",
    );
  });
});

describe("a stitch word", () => {
  test("tells what of its row it accounts for", () => {
    checkHover(
      `
      Rnd 1: fsc 18, join (18)
      Rnd 2: (2 sc, $0dec) x4, 2 sc (14)
      `,
      `
      dec
      dec: decrease
      - One of it is worked over 2 sts and makes 1.
      In the whole row
      uses sts: 8 of 18
      makes: 4 sts
      `,
    );
  });

  test("that is only worked into accounts for nothing", () => {
    checkHover(
      `
      Rnd 1: 6 sc in ring (6)
      Rnd 2: 2 dc in each $0sc around. (12)
      `,
      `
      sc
      sc: single crochet (UK: double crochet)
      - In UK terms it is written dc.
      - As high as 1 chain. A row of it usually begins with ch 1, which does not count as a stitch.
      `,
    );
  });

  test("that the designer defines is told in the designer's words, in rows and in prose", () => {
    const pattern = (row: string, prose = "") => `
      Special stitches
      Shell: 5 dc in one st.

      Edging
      Rnd 1: fsc 12, join (12)
      Rnd 2: *sk 2 sts, ${row} in next st, sk 2 sts, sc in next st; rep from * around. (2 shells, 2 sc)
      Fasten off behind the last ${prose}shell.`;
    checkHover(
      pattern("$0shell"),
      `
      shell
      shell
      - In this pattern: 5 dc in one st.
      In the whole row
      uses sts: 2 of 12
      makes: 10 sts
      `,
    );
    checkHover(pattern("shell", "$0"), "shell\nshell\n- In this pattern: 5 dc in one st.");
  });

  test("that nobody explained says so", () => {
    checkHover(
      "Rnd 1: fsc 12, join (12)\nRnd 2: $0shell in each st around",
      "shell\nshell\n- Nothing in this pattern says how many stitches it has.",
    );
  });
});

describe("an abbreviation", () => {
  // Meanings: danceswithwools.net/2022/09/16/understanding-crochet-abbreviations and
  // stitch4ever.com/2012/01/30/abbreviations-in-crochet-patterns.
  test.each([
    ["$0sk next st", "sk: skip"],
    ["sc in next $0sts", "sts: stitches"],
    ["$0blo sc in each st", "blo: back loop, back loop only"],
    ["sc in next $0sp", "sp: space"],
    ["rep from * around $0rnd", "rnd: round"],
  ])("%s", (row, says) => {
    expect(titleAt(`Terms: US\nRnd 1: fsc 6, join (6)\nRnd 2: ${row}`)).toBe(says);
  });

  test("that the pattern explains is told as the pattern has it", () => {
    checkHover(
      "Abbreviations\nMR = magic ring, pulled tight\nsc = single crochet\n\nRnd 1: 6 sc in $0MR (6)",
      "MR\nMR: magic ring, pulled tight\nAs this pattern explains it.",
    );
  });

  test("of a chain space tells its chains", () => {
    expect(titleAt("Rnd 1: fsc 6, join (6)\nRnd 2: 2 sc in next $0ch-2 sp")).toBe(
      "ch-2 sp: the space under 2 chains",
    );
  });

  test("is looked for in no names of sizes", () => {
    checkHover("Sizes: S ($0M, L)\nRnd 1: fsc 36 (42, 48)", "nothing");
  });
});

describe("a yarn letter", () => {
  const materials =
    "Materials\nWorsted wool: 200 g each of sand (A), foam white (B) and tide blue (C)\n5 mm hook\n\n";

  test.each([
    ["With $0A, ch 11.", "Yarn A: sand"],
    ["Rnd 1: 6 sc in ring (6)\nChange to $0B.", "Yarn B: foam white"],
    [
      "Rnd 1: 6 sc in ring (6)\nRnd 2: Join $0C with sl st in first st, sc in each st around (6)",
      "Yarn C: tide blue",
    ],
  ])("%s", (rows, says) => {
    expect(titleAt(materials + rows)).toBe(says);
  });

  test("without a yarn says so", () => {
    checkHover(
      "Rnd 1: 6 sc in ring (6)\nChange to $0B.",
      "B\nYarn B\nNothing in this pattern says which yarn that is. Write it with the materials: 20 g blue (B).",
    );
  });
});

describe("a count", () => {
  test("tells what is counted, and what the row makes of it", () => {
    checkHover(
      `
      Rnd 1: fsc 12, join (12)
      Rnd 2: *hdc in next 2 sts, ch 1, sk next st; rep from * around. ($09 hdc, 4 ch-1 sps)
      `,
      `
      (9 hdc, 4 ch-1 sps)
      (9 hdc, 4 ch-1 sps)
      hdc, the line says: 9
      hdc, the row makes: 8
      ch-1 sp, the line says: 4
      ch-1 sp, the row makes: 4
      - Counted: hdc (half double crochet).
      - Counted: spaces of 1 chain.
      `,
    );
  });

  test("without a name counts stitches, and says where chains are in it", () => {
    checkHover(
      "Rnd 1: 6 sc in ring ($06)",
      "(6)\n(6)\nthe line says: 6\nthe row makes: 6\n- Counted: every stitch.",
    );
    checkHover(
      `
      Ch 18.
      Row 1: Sc in 2nd ch from hook and in each ch across. (17)
      Row 2: Ch 1, turn, sc in first st, *ch 1, sk 1, sc in next st; rep from * to end. ($017 sts)
      `,
      `
      (17 sts)
      (17 sts)
      sts, the line says: 17
      sts, the row makes: 17
      - Counted: every stitch, whatever its kind; chain spaces apart.
      - The chains or chain spaces are in this count.
      `,
    );
  });

  test("has a number for each size", () => {
    checkHover(
      "Sizes: S (M)\nRnd 1: fsc 36 (42), join. $036 (43) sts.",
      "36 (43) sts\n36 (43) sts\n| S | M\nsts, the line says: 36 | 43\nsts, the row makes: 36 | 42\n- Counted: every stitch.".replace(
        "| S",
        "– | S",
      ),
    );
  });

  test("of a row that is not checked is what the next row goes on from", () => {
    checkHover(
      "R1: 6 sc in mr (6)\nR2: lotus x6 ($06)",
      "(6)\n(6)\nthe line says: 6\n- Counted: every stitch.\n- The row is not checked; the rows that follow are checked against this count.",
    );
  });
});

describe("a repeat", () => {
  test("tells how often it is worked, what is done each time, and what it uses and makes in all", () => {
    // 6 × (2 + 1) = 18 places, 6 × (2 + 2) = 24 stitches.
    checkHover(
      "Rnd 1: fsc 18, join (18)\nRnd 2: (2 sc, inc) $0x6 (24)",
      `
      (2 sc, inc) x6
      (2 sc, inc) x6
      worked: 6 times
      each time: sts 1–2: sc in each; st 3: 2 sc in one st
      uses sts: 18 of 18
      makes: 24 sts
      `,
    );
  });

  test("to the end is counted out, also inside another row", () => {
    // 51 stitches less 8 at the end are 43, 43 less 3 at the start are 40: 10 times 4.
    checkHover(
      `
      Rnd 1: fsc 51, join (51)
      Rnd 2: Sc in next 3 sts, *ch 2, sk 2 sts, dc in next 2 sts; $0rep from * to last 8 sts, sc in last 8 sts.
      `,
      `
      *ch 2, sk 2 sts, dc in next 2 sts; rep from * to last 8 sts
      *ch 2, sk 2 sts, dc in next 2 sts; rep from * to last 8 sts
      worked: 10 times
      each time: ch 2; sts 1–2: skip; sts 3–4: dc in each
      uses sts: 40 of 51
      makes: 20 sts
      `,
    );
  });

  test("has a number for each size", () => {
    checkHover(
      "Sizes: S (M)\nRnd 1: fsc 36 (42), join. 36 (42) sts.\nRnd 2: *5 sc, inc; $0rep from * around. 42 (49) sts.",
      `
      *5 sc, inc; rep from * around
      *5 sc, inc; rep from * around
      – | S | M
      worked: 6 times | 7 times
      each time: sts 1–5: sc in each; st 6: 2 sc in one st | sts 1–5: sc in each; st 6: 2 sc in one st
      uses sts: 36 of 36 | 42 of 42
      makes: 42 sts | 49 sts
      `,
    );
  });

  test("inside a repeat is told for the whole row", () => {
    checkHover(
      "Rnd 1: fsc 24, join (24)\nRnd 2: [(sc, inc) $0twice, 4 sc] 3 times (30)",
      `
      (sc, inc) twice
      (sc, inc) twice
      worked: 6 times
      each time: st 1: sc; st 2: 2 sc in one st
      uses sts: 12 of 24
      makes: 18 sts
      All repeats counted.
      `,
    );
  });

  test("part of a row is told by what it uses and makes", () => {
    checkHover(
      "Rnd 1: fsc 18, join (18)\nRnd 2: 2 sc in $0next st, sc in each st around. (19)",
      "2 sc in next st\n2 sc in next st\nuses sts: 1 of 18\nmakes: 2 sts",
    );
  });
});

describe("a row that is named", () => {
  const body = "Body\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnds 3-4: sc in each st around (12)\n";

  test.each([
    ["Rnd 5: Rep $0Rnd 2. (24)", "Rnd 2\nRnd 2\n– | says | makes\nRnd 2 | inc x6 | 12 sc"],
    [
      "Work the eyes between $0Rnds 2 and 3.",
      "Rnds 2 and 3\nRnds 2 and 3\n– | says | makes\nRnd 2 | inc x6 | 12 sc\nRnds 3-4 | sc in each st around | 12 sc",
    ],
    [
      "Rep last $0rnd once. (12)",
      "last rnd\nlast rnd\n– | says | makes\nRnds 3-4 | sc in each st around | 12 sc",
    ],
    ["Sew it to $0Rnd 9.", "Rnd 9\nRnd 9\nNo row of this pattern has that number."],
  ])("%s", (line, says) => {
    checkHover(`${body}${line}`, says);
  });

  const mast = "\nMast\nRnd 1: 5 sc in mr (5)\nRnd 2: 5 sc (5)\n\nAssembly\n";

  test("is looked for in the piece that the line names, else in all", () => {
    checkHover(
      `${body}${mast}Sew the mast over $0Rnd 2.`,
      "Rnd 2\nRnd 2\n– | says | makes\nRnd 2 | 5 sc | 5 sc",
    );
    checkHover(
      `${body}${mast}Sew the pennant over $0Rnd 2.`,
      "Rnd 2\nRnd 2\n– | says | makes\nRnd 2 of Body | inc x6 | 12 sc\nRnd 2 of Mast | 5 sc | 5 sc",
    );
  });
});
