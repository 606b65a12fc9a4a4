import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { completionsAt } from "../../server/src/features/completion/completion";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";
import type { RowReport } from "../../server/src/workspace/report";
import { chosen, entriesAt, labelsAt } from "./check-completion";
import { outdented } from "./marked-pattern";

/* The numbers of a flat circle, six more each round, are common practice, no source; the rest is arithmetic. */

describe("the next row", () => {
  test("of a circle has the next number, the next step and its count", () => {
    const circle = `
      Rnd 1: 6 sc in magic ring (6)
      Rnd 2: inc x6 (12)
      $0
    `;
    expect(labelsAt(circle, "row")).toEqual(["Rnd 3: (sc, inc) x6 (18)", "Rnd 3:"]);
  });

  test("goes on in the designer's own words", () => {
    const rows = `
      R1: 6 sc in MR [6]
      R2: 6 inc [12]
      R3: *sc in next st, 2 sc in next st; rep from * around. [18]
      R4: *sc in next 2 sts, 2 sc in next st; rep from * around. [24]
      $0
    `;
    expect(labelsAt(rows, "row")[0]).toBe("R5: *sc in next 3 sts, 2 sc in next st; rep from * around. [30]");
  });

  test("of a decrease goes down again", () => {
    const rows = `
      Rnd 1: fsc 36, join (36)
      Rnd 2: (4 sc, dec) x6 (30)
      Rnd 3: (3 sc, dec) x6 (24)
      $0
    `;
    expect(labelsAt(rows, "row")[0]).toBe("Rnd 4: (2 sc, dec) x6 (18)");
  });

  test("of plain rows is one more of them", () => {
    const rows = `
      Ch 11.
      Row 1: Sc in 2nd ch from hook and in each ch across. (10)
      Row 2: Ch 1, turn, sc in each st across. (10)
      Row 3: Ch 1, turn, sc in each st across. (10)
      $0
    `;
    expect(labelsAt(rows, "row")[0]).toBe("Row 4: Ch 1, turn, sc in each st across. (10)");
  });

  test("of rows that take turns follows the row two before", () => {
    const rows = `
      Rnd 1: fsc 12, join (12)
      Rnd 2: (sc, inc) x6 (18)
      Rnd 3: sc in each st around (18)
      Rnd 4: (2 sc, inc) x6 (24)
      Rnd 5: sc in each st around (24)
      $0
    `;
    expect(labelsAt(rows, "row")[0]).toBe("Rnd 6: (3 sc, inc) x6 (30)");
  });

  test("has a number for each size", () => {
    const rows = `
      Sizes: S (M)

      Rnd 1: fsc 16 (24), join. 16 (24) sts.
      Rnd 2: *sc in next 3 sts, inc; rep from * around. 20 (30) sts.
      Rnd 3: *sc in next 4 sts, inc; rep from * around. 24 (36) sts.
      $0
    `;
    expect(labelsAt(rows, "row")[0]).toBe("Rnd 4: *sc in next 5 sts, inc; rep from * around. 28 (42) sts.");
  });

  test("is only numbered where the rows before do not go on evenly, or are wrong", () => {
    const uneven = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: 12 sc (12)\n$0";
    expect(labelsAt(uneven, "row")).toEqual(["Rnd 4:"]);
    const wrong = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)\n$0";
    expect(labelsAt(wrong, "row")).toEqual(["Rnd 3:"]);
  });

  test("is numbered behind ranges and repeated rows", () => {
    expect(labelsAt("R1: 6 sc in MR [6]\nR2-R5: 6 sc [6]\n$0", "row")).toContain("R6:");
    const repeated = "Rnd 1: 6 sc in mr (6)\nRnd 2: sc around (6)\nRep last rnd 3 times.\n$0";
    expect(labelsAt(repeated, "row")).toEqual(["Rnd 6:"]);
  });

  test("takes the place of what is typed of its head", () => {
    const half = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRn$0";
    expect(chosen(half, "Rnd 3: (sc, inc) x6 (18)")).toBe(
      "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)",
    );
  });

  test("is offered behind a head that is there, and behind its first words", () => {
    const rows = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: ";
    expect(chosen(`${rows}$0`, "(sc, inc) x6 (18)")).toBe(`${rows}(sc, inc) x6 (18)`);
    expect(chosen(`${rows}(sc, $0`, "(sc, inc) x6 (18)")).toBe(`${rows}(sc, inc) x6 (18)`);
  });

  test("begins a piece that has no rows yet, as rows are announced here", () => {
    expect(labelsAt("BODY\nR1: 6 sc in MR [6]\n\nMAST\n$0", "row")).toEqual(["R1:"]);
    expect(labelsAt("BODY\nR1: 6 sc in MR [6]\n\nASSEMBLY\n$0", "row")).toEqual([]);
  });

  test("is what stands there in the samples, on every even ladder, and is never wrong", () => {
    const agreed: string[] = [];
    for (const sample of ["buoy-toy", "stall-hat", "rope-coaster", "cord-pouch"]) {
      const url = new URL(`../../samples/${sample}.crochet`, import.meta.url);
      agreed.push(...offeredIn(readFileSync(url, "utf8")));
    }
    expect(agreed).toContain("R4: (2 sc, inc) x6 [24]");
    expect(agreed).toContain("R25: (2 sc, dec) x6 [18]");
    expect(agreed).toContain("R27: dec x6 [6]");
    expect(agreed).toContain("Row 7: ch 1, turn, dec, sc to last 2 sts, dec [2]");
    // The designer staggers every other round, and so does what is offered.
    expect(agreed).toContain("Rnd 8: (6 sc, inc) x6 (48)");
    expect(agreed).toContain(
      "Rnd 5: Ch 2, *hdc in next 3 sts, 2 hdc in next st; rep from * around, join. 40 (40, 40, 40) hdc.",
    );
    expect(agreed).toContain(
      "Rnd 6: Ch 2, *hdc in next 4 sts, 2 hdc in next st; rep from * around, join. 48 (48, 48, 48) hdc.",
    );
  });
});

/** Four rows or more that go up or down by the same number, each worked once. */
function isOnLadder(rows: readonly RowReport[], at: number): boolean {
  const four = rows.slice(at - 3, at + 1);
  const made = four.map(({ makes }) => makes?.[0] ?? Number.NaN);
  const steps = made.slice(1).map((n, i) => n - (made[i] ?? Number.NaN));
  const isEven = steps.length === 3 && steps.every((step) => step !== 0 && step === steps[0]);
  return isEven && four.every(({ times, makes }) => makes !== null && times?.every((n) => n === 1));
}

describe("every regular ladder of the samples", () => {
  const samples = readdirSync(new URL("../../samples/", import.meta.url));
  const onLadders = samples.flatMap((file) => {
    const text = readFileSync(new URL(`../../samples/${file}`, import.meta.url), "utf8");
    return new Checker().check(text).pieces.flatMap(({ rows }) =>
      // Squares grow by their corners; they are no ladders of a stitch repeat.
      rows
        .filter(
          (row, i) =>
            i >= 3 &&
            isOnLadder(rows, i) &&
            !/\bch-\d sp/.test(row.statedKinds ? Object.keys(row.statedKinds).join() : ""),
        )
        .map((row) => ({ file, text, row })),
    );
  });

  test("has its next row offered, with the count that the designer gives it", () => {
    expect(onLadders.length).toBeGreaterThan(15);
    for (const { file, text, row } of onLadders) {
      const before = text.slice(0, row.span.start);
      const [offer] = completionsAt(new Checker().work(before).worked, before.length, "\n");
      expect.soft(offer?.rank, `${file}: ${row.head}`).toBe(0);
      const last = new Checker()
        .check(withEdits(before, offer ? [offer] : []))
        .pieces.at(-1)
        ?.rows.at(-1);
      expect.soft([last?.makes, last?.result], `${file}: ${row.head}`).toEqual([row.makes, "ok"]);
    }
  });
});

/** Each row of a pattern taken out in turn, with what is offered in its place; every offer is checked. */
function offeredIn(text: string): string[] {
  const checker = new Checker();
  const { worked } = checker.work(text);
  return worked.pieces.flatMap(({ rows }) =>
    rows.flatMap(({ line: { span } }) => {
      const before = text.slice(0, span.start);
      const lineOut = checker.work(before).worked;
      const offer = completionsAt(lineOut, before.length, "\n").find(({ rank }) => rank === 0);
      if (!offer) return [];
      const after = checker.check(withEdits(before, [offer]));
      const own = (rule: string) => /does-not-fit|wrong-count|not-understood|ambiguous/.test(rule);
      expect(after.findings.filter(({ rule, span: at }) => own(rule) && at.start >= span.start)).toEqual([]);
      return [offer.newText];
    }),
  );
}

describe("the count", () => {
  test("is offered behind its bracket and takes the place of the one that closes by itself", () => {
    const row = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 ($0)";
    expect(chosen(row, "(12)")).toBe("Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)");
    expect(chosen("R1: 6 sc in MR [6]\nR2: inc x6 ($0)", "[12]")).toBe("R1: 6 sc in MR [6]\nR2: inc x6 [12]");
  });

  test("is offered of a first row", () => {
    expect(labelsAt("Rnd 1: 6 sc in mr ($0)", "count")).toEqual(["(6)"]);
  });

  test("is not offered where a repeat begins, or of a row that does not fit", () => {
    expect(labelsAt("Rnd 1: 6 sc in mr (6)\nRnd 2: ($0)", "count")).toEqual([]);
    expect(labelsAt("Rnd 1: 6 sc in mr (6)\nRnd 2: sc, ($0)", "count")).toEqual([]);
    expect(labelsAt("Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 ($0)", "count")).toEqual([]);
  });
});

describe("words of a row", () => {
  /* Source of the pairs: the table of stitches (server/src/trade/stitch-table.ts) names its own. */
  test("are stitches in the terms in force", () => {
    const us = labelsAt("Terms: US\nRnd 1: 6 sc in ring (6)\nRnd 2: $0", "stitch");
    expect(us).toEqual(expect.arrayContaining(["sc", "hdc", "dc", "sc2tog", "FPdc"]));
    const uk = labelsAt("Terms: UK\nRound 1: 6dc in ring. 6dc.\nRound 2: $0", "stitch");
    expect(uk).toEqual(expect.arrayContaining(["dc", "htr", "tr", "dc2tog", "sl st"]));
    expect(uk).not.toContain("sc");
    expect(uk).not.toContain("hdc");
  });

  test("begin with those in use", () => {
    const rows = "Terms: US\nRnd 1: 6 hdc in ring (6)\nRnd 2: $0";
    expect(labelsAt(rows, "stitch")[0]).toBe("hdc");
  });

  test("are stitches that the pattern explains", () => {
    const pattern =
      "Special stitches\nShell: 5 dc in one st.\nV-st: (dc, ch 1, dc) in one st.\n\nRnd 1: 6 sc in ring (6)\nRnd 2: sh$0";
    expect(labelsAt(pattern, "own stitch")).toEqual(expect.arrayContaining(["shell", "V-st"]));
    expect(chosen(pattern, "shell")).toContain("\nRnd 2: shell");
  });

  test("are places that the row below has, and no others", () => {
    const rows =
      "Rnd 1: fsc 12, join (12)\nRnd 2: *hdc in next 2 sts, ch 2, sk next st; rep from * around. (8 hdc, 4 ch-2 sps)\nRnd 3: sc in $0";
    expect(labelsAt(rows, "place")).toEqual(["next hdc", "each hdc", "next ch-2 sp", "each ch-2 sp"]);
  });

  test("are the yarns of the list, where one is taken up", () => {
    const pattern =
      "Materials\nCotton: 20 g sand (A), 10 g navy (B)\n\nRnd 1: 6 sc in ring (6)\nChange to $0";
    expect(labelsAt(pattern, "yarn")).toEqual(["A", "B"]);
    expect(labelsAt(pattern.replace("Change to ", "Rnd 2: inc "), "yarn")).toEqual([]);
  });

  test("are phrases, and take the place of as much of them as is typed", () => {
    const row = "Rnd 1: 6 sc in ring (6)\nRnd 2: 2 sc in ea$0";
    expect(chosen(row, "in each st around")).toBe("Rnd 1: 6 sc in ring (6)\nRnd 2: 2 sc in each st around");
  });
});

describe("lines above the rows", () => {
  test("are offered where they are not there yet", () => {
    const labels = labelsAt("Cord Pouch\n\nTerms: US\n$0\n\nRnd 1: 6 sc in ring (6)", "header");
    expect(labels).toContain("Materials");
    expect(labels).not.toContain("Terms: UK");
  });

  test("are not offered among rows", () => {
    expect(labelsAt("Rnd 1: 6 sc in ring (6)\n$0\nRnd 2: inc x6 (12)", "header")).toEqual([]);
  });
});

test("behind a line end or a bracket only rows and counts are offered", () => {
  const kinds = (text: string, mark: string) => entriesAt(text, mark).map(({ kind }) => kind);
  expect(kinds("Rnd 1: 6 sc in mr (6)\n$0", "\n")).toEqual(["row"]);
  expect(kinds("A note about ($0)", "(")).toEqual([]);
});

test("whatever is offered is told of, and what is replaced ends at the caret or behind it on its line", () => {
  for (const entry of entriesAt(outdented("Rnd 1: 6 sc in mr (6)\nRnd 2: i$0"))) {
    expect(entry.label).not.toBe("");
    expect(entry.blocks().length).toBeGreaterThan(0);
  }
});

test.each(["", "\n", "(", "Rnd", "Rnd 1:", "Rnd 1: (", "\r\n\r\n", "\t", "Rnd 99999999999999999999: sc"])(
  "in half a text (%j) nothing fails",
  (text) => {
    for (let at = 0; at <= text.length; at++) {
      const { worked } = new Checker().work(text);
      expect(Array.isArray(completionsAt(worked, at))).toBe(true);
    }
  },
);

test("behind the number that tells how often, no stitch is offered; behind a blank it is", () => {
  const row = "Rnd 1: 6 sc in mr (6)\nRnd 2: (sc, inc) x3";
  expect(labelsAt(`${row}$0`, "stitch", "phrase", "own stitch")).toEqual([]);
  expect(labelsAt(`${row} $0`, "stitch")).toContain("sc");
  expect(labelsAt("Rnd 1: 6 sc in mr (6)\nRnd 2: sc2$0", "stitch")).toContain("sc2tog");
});
