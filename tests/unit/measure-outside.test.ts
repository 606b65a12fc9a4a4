import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { flatRate } from "../../server/src/measure/curvature";
import { metresListed } from "../../server/src/measure/listed-amounts";
import { materialsOf, usualOptions } from "../../server/src/measure/materials";
import { type PieceSize, sizeOf } from "../../server/src/measure/size";
import { durationInWords, minutesOf } from "../../server/src/measure/time";
import { yarnUseOf } from "../../server/src/measure/yarn-used";
import { readLabel } from "../../server/src/notation/front-matter/labels";
import { stretchAt } from "../../server/src/notation/front-matter/stretch";
import { gaugePairs } from "../../server/src/trade/gauge-pairs";
import { convertLength } from "../../server/src/trade/units";
import { Checker } from "../../server/src/workspace/checker";

/* Worked examples and rules of thumb from outside the project; the source stands with each. */

function sizeIn(text: string): PieceSize {
  const { worked } = new Checker().work(text);
  const { basis, paths } = yarnUseOf(worked).ground;
  const [piece] = worked.pieces;
  const size = basis && piece ? sizeOf(piece, 0, basis, paths) : null;
  if (!size) throw new Error("nothing tells the size");
  return size;
}

function roundSizeIn(text: string): Extract<PieceSize, { around: number }> {
  const size = sizeIn(text);
  if (!("around" in size)) throw new Error("flat");
  return size;
}

function inches(millimetres: number): number {
  return convertLength(millimetres, "mm", "in");
}

describe("weighing", () => {
  /**
   * "Swatch grams / stitches x total stitches": 13 sts per 4 in, 50 in wide is 162 sts; 7.5 rows per 4 in, 60 in
   * high is 112 rows; 162 x 112 = 18,144 (sdrta.net/how-much-yarn-to-crochet-a-blanket; it drops the halves).
   */
  test("a blanket of 162 by 112 stitches weighs 18,144 times one stitch", () => {
    const text = `Throw\n\nMaterials\nWorsted wool, 100 g / 200 m\n5 mm hook\nSwatch: 30 dc x 10 rows, 9 g\n\nGauge: 13 dc and 7.5 rows = 4 in\n\nCh 164.\nRow 1: Dc in 4th ch from hook and in each ch across. (162)\nRows 2-112: Ch 3 (counts as dc), turn, dc in next 161 sts. (162)\nFasten off.\n`;
    const { worked } = new Checker().work(text);
    const stitches = worked.pieces[0]?.rows.reduce((sum, { outcome }) => sum + (outcome?.inAll[0] ?? 0), 0);
    expect(stitches).toBe(18_144);
    const [yarn] = materialsOf(worked, { ...usualOptions, marginPercent: 0 }).yarns;
    // The turning chains of 3 take a little less yarn than the stitches they stand for.
    expect(Math.abs((yarn?.amounts[0]?.grams?.likely ?? 0) / ((18_144 * 9) / 300) - 1)).toBeLessThan(0.02);
    const size = sizeIn(text);
    if (size.shape !== "flat") throw new Error("not flat");
    expect([inches(size.width), inches(size.height)].map(Math.round)).toEqual([50, 60]);
  });

  /** 1.5 oz of a yarn of 220 yd per 3.5 oz: printed as 94.5 yd (63 yd to the ounce); 94.3 unrounded. Trade method, no source. */
  test("1.5 oz at 220 yd to 3.5 oz are 94.5 yd", () => {
    const text =
      "Cap\n\nMaterials\nWorsted wool, 3.5 oz / 220 yd: 1.5 oz in grey\n5 mm hook\n\nRnd 1: 6 sc in mr (6)\n";
    const { ground } = yarnUseOf(new Checker().work(text).worked);
    const [yarn] = ground.list.yarns;
    if (!yarn || !ground.basis) throw new Error("no yarn");
    const has = metresListed(yarn, 0, ground.basis);
    expect(convertLength(has?.most ?? 0, "m", "yd")).toBeCloseTo(94.3, 1);
    expect(Math.abs(94.5 - convertLength(has?.least ?? 0, "m", "yd"))).toBeLessThan(0.25);
  });

  /** Labels as the pattern sheets print them (tests/yarn/published.ts). */
  test.each([
    ["Bernat Plush 250 g/146 yd", 250, 133.5],
    ["King Cole Cottonsmooth DK 100 g/218 yd", 100, 199.3],
    ["Red Heart Super Saver 198 g/364 yd", 198, 332.8],
    ["1000 g/1061 yd", 1000, 970.2],
  ])("%s", (text, grams, metres) => {
    const label = readLabel(stretchAt(text, 0));
    expect(label?.grams).toBe(grams);
    expect(label?.metres).toBeCloseTo(metres, 1);
  });
});

describe("circles", () => {
  /**
   * What a flat disc adds each round by geometry, at published gauges, beside the rules of thumb: sc 6
   * (craftymaria.blogspot.com/2009/06/getting-your-circles-flat.html and others), hdc 8 (same) to 10 (from
   * memory), dc 10 to 12 (mkcarroll.com/blog/2009/5/14/how-not-to-crochet-a-flat-circle), tr 12 to 18 (same, and
   * from memory). Geometry asks a little less than 6 of single crochet, and more than 12 of a square dc gauge.
   */
  test.each([
    ["CAC0503-007249M", 5.59, 6, 6],
    ["PAC0116-030195M", 5.76, 6, 6],
    ["CAC0502-029057M", 5.59, 6, 6],
    ["portacraft.com.au/beanie-crochet-pattern", 9.57, 8, 10],
    ["CAC0135-001742M", 10.21, 10, 12],
    ["RHC0101-021719M", 12.57, 10, 12],
    ["PAC0125-002711M", 15.71, 12, 18],
  ])("gauge of %s: %d by geometry, %d to %d by rule", (source, geometry, least, most) => {
    const pair = gaugePairs.find((one) => one.source === source);
    const rate = flatRate(1 / (pair?.rows ?? 1), 1 / (pair?.stitches ?? 1));
    expect(rate).toBeCloseTo(geometry, 2);
    // The rule is within a fifth of the geometry: what tension and blocking forgive.
    expect(rate * 1.2).toBeGreaterThanOrEqual(least);
    expect(rate * 0.8).toBeLessThanOrEqual(most);
  });

  /** A hat of 3.5 hdc and 2.75 rounds to the inch is begun on the ladder of 8. Trade practice, no source. */
  test("3.5 stitches and 2.75 rounds to the inch ask for 8", () => {
    expect(flatRate(1 / 2.75, 1 / 3.5)).toBeCloseTo(8, 2);
  });
});

const crown = (rounds: number, even: number) =>
  `Cap\n\nMaterials\n4 mm hook\n\nGauge: 16 hdc and 10.5 rounds = 10 cm\n\nRnd 1: 8 hdc in magic ring (8)\n${Array.from({ length: rounds - 1 }, (_, i) => `Rnd ${i + 2}: *${i > 0 ? `hdc in next ${i} sts, ` : ""}2 hdc in next st; rep from * around (${8 * (i + 2)})`).join("\n")}\nRnds ${rounds + 1}-${rounds + even}: hdc in each st around (${8 * rounds})\nFasten off.\n`;

describe("hats, balls and tubes", () => {
  /** 64 hdc at 16 to 10 cm are 40 cm around: portacraft.com.au/beanie-crochet-pattern, size 2. */
  test("a crown of 64 is 40 cm around", () => {
    const size = roundSizeIn(crown(8, 10));
    expect(size.shape).toBe("cup");
    expect(size.around).toBeCloseTo(400, 6);
  });

  /** Crown diameter = circumference / 3.14: hookthatyarn.wordpress.com/2016/06/09/how-to-size-a-hat. */
  test.each([
    [23, 7.32],
    [13.5, 4.3],
    [12, 3.8],
  ])("%d in around is %d in across", (around, across) => {
    const stitches = Math.round(around * 6);
    const size = sizeIn(
      `Tube\n\nGauge: 6 sc and 7 rounds = 1 in\n\nCh ${stitches}, join to form a ring.\nRnd 1: Sc in each ch around. (${stitches})\nRnds 2-20: Sc in each st around. (${stitches})\n`,
    );
    if (size.shape !== "tube") throw new Error("no tube");
    expect(Math.abs(inches(size.across) - across)).toBeLessThan(0.05);
    expect(inches(size.height)).toBeCloseTo(20 / 7, 6);
  });

  /** 42 stitches at 6 to the inch lie 3.5 in flat, 60 lie 5 in. Trade arithmetic, no source. */
  test.each([
    [42, 3.5],
    [60, 5],
  ])("%d stitches at 6 to the inch lie %d in flat", (stitches, flat) => {
    const size = roundSizeIn(
      `Pouch\n\nGauge: 6 sc and 7 rounds = 1 in\n\nCh ${stitches}, join to form a ring.\nRnd 1: Sc in each ch around. (${stitches})\nRnds 2-20: Sc in each st around. (${stitches})\n`,
    );
    expect(inches(size.around) / 2).toBeCloseTo(flat, 6);
  });

  /** 6, 12, 18, 24, 24, 24, 24, 18, 12, then closed: elrincondemaryjoe.blogspot.com/2015/01/como-leer-un-patron-de-ganchillo-o.html. */
  test("a ball is closed, and as wide as its widest round", () => {
    const size = sizeIn(
      "Ball\n\nGauge: 20 sc and 20 rounds = 10 cm\n\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)\nRnd 4: (2 sc, inc) x6 (24)\nRnds 5-7: sc in each st around (24)\nRnd 8: (2 sc, dec) x6 (18)\nRnd 9: (sc, dec) x6 (12)\nRnd 10: dec x6 (6)\n",
    );
    if (size.shape !== "ball") throw new Error(`a ${size.shape}`);
    expect(size.across).toBeCloseTo((24 * 5) / Math.PI, 6);
    expect(size.opening).toBeCloseTo(30, 6);
  });
});

describe("balls that are stuffed", () => {
  /**
   * k rounds that grow by 6, k even, k that shrink make a ball of square stitches: pi R of fabric from pole to pole,
   * 6k stitches around (mspremiseconclusion.wordpress.com/2010/03/14/the-ideal-crochet-sphere; k + k + k derived).
   */
  test.each([4, 6, 9])("of %i rounds up, even and down are as high as they are across", (k) => {
    const up = Array.from(
      { length: k - 1 },
      (_, i) => `Rnd ${i + 2}: (${i > 0 ? `${i} sc, ` : ""}inc) x6 (${6 * (i + 2)})`,
    );
    const down = Array.from({ length: k - 1 }, (_, i) => {
      const left = 6 * (k - 1 - i);
      return `Rnd ${2 * k + 1 + i}: (${k - 2 - i > 0 ? `${k - 2 - i} sc, ` : ""}dec) x6 (${left})`;
    });
    const size = sizeIn(
      `Ball\n\nGauge: 20 sc and 20 rounds = 10 cm\n\nRnd 1: 6 sc in mr (6)\n${up.join("\n")}\nRnds ${k + 1}-${2 * k}: sc in each st around (${6 * k})\n${down.join("\n")}\n`,
    );
    if (size.shape !== "ball") throw new Error(`a ${size.shape}`);
    expect(Math.abs(size.height / size.across - 1)).toBeLessThan(0.07);
  });
});

describe("samples", () => {
  const notesOf = (name: string) =>
    materialsOf(new Checker().work(readFileSync(`samples/${name}`, "utf8")).worked, usualOptions).notes;

  test("the hat has the ease that its pattern states, 2 to 3 cm less than the head", () => {
    expect(notesOf("stall-hat.crochet")).toContain(
      "Ease, the piece less the body it is to fit: −2 (−2.5, −2.5, −3) cm.",
    );
  });

  test("a back and a front together have the ease that their pattern states, 4 cm more than the body", () => {
    const panel =
      "Ch 66.\nRow 1: Hdc in 3rd ch from hook and in each ch across. (64)\nRows 2-40: Ch 2 (does not count as a stitch), turn, hdc in each st across. (64)\nFasten off.\n";
    const text = `Vest\n\nTerms: US\nTo fit bust: 81 cm\nFinished bust: 85 cm\n\nGauge: 15 hdc and 11 rows = 10 cm\n\nBack\n${panel}\nFront\n${panel}`;
    expect(materialsOf(new Checker().work(text).worked, usualOptions).notes).toContain(
      "Ease, back and front together less the body it is to fit: +4.5 cm.",
    );
  });

  test("the cord of the pouch goes through its eyelets, with ends to tie", () => {
    expect(notesOf("cord-pouch.crochet")).toContainEqual(
      expect.stringMatching(/^Cord is 55\.5 cm .* laced through once, 14\.5 cm .* to tie\.$/),
    );
  });
});

describe("time", () => {
  /** Ordinary hands 18 to 22 stitches a minute, beginners half: a row of 30 is about 1½ minutes. Trade practice, no source. */
  test("a row of 30 takes about 1½ minutes, a beginner 3", () => {
    const text = "Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30)\n";
    const row = new Checker().work(text).worked.pieces[0]?.rows.at(-1);
    if (!row) throw new Error("no row");
    expect(durationInWords(minutesOf(row, 20)[0] ?? 0)).toBe("about 1½ minutes");
    expect(durationInWords(minutesOf(row, 10)[0] ?? 0)).toBe("about 3 minutes");
  });

  test.each([
    [0.2, "less than a minute"],
    [1, "about 1 minute"],
    [42, "about 40 minutes"],
    [58, "about 1 hour"],
    [150, "about 2½ hours"],
    [6000, "about 100 hours"],
  ])("%d minutes", (minutes, words) => {
    expect(durationInWords(minutes)).toBe(words);
  });
});

describe("pieces from a ring, back and forth", () => {
  const shawl = (rows: string) =>
    `Shawl\n\nGauge: 18 dc and 9 rows = 10 cm\n\nRow 1: Ch 3 (counts as dc), 2 dc in magic ring, ch 2, 3 dc in ring. (6 dc, 1 ch-2 sp)\n${rows}`;
  const rowOf = (n: number) =>
    `Row ${n}: Ch 3 (counts as dc), turn, 2 dc in first st, dc in next ${4 * n - 6} dc, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in next ${4 * n - 6} dc, 3 dc in last st. (${8 * n - 2} dc, 1 ch-2 sp)\n`;

  /** Eight stitches more in each row, one corner: a triangle twice as wide as deep. Common practice, no source. */
  test("a shawl worked out from the middle of its edge is twice as wide as deep", () => {
    const rows = [...Array(19).keys()].map((i) => rowOf(i + 2)).join("");
    const size = sizeIn(shawl(rows));
    if (size.shape !== "half square") throw new Error(`a ${size.shape}`);
    expect(Math.abs(size.width / size.height / 2 - 1)).toBeLessThan(0.1);
  });

  /** Half a circle is as deep as its radius: geometry. */
  test("a fan of 6, 12, 18 dc is half a circle", () => {
    const size = sizeIn(
      "Fan\n\nGauge: 16 dc and 8 rows = 10 cm\n\nRow 1: Ch 3 (counts as dc), 5 dc in magic ring. (6 dc)\nRow 2: Ch 3 (counts as dc), turn, dc in first st, 2 dc in next 5 sts. (12 dc)\nRow 3: Ch 3 (counts as dc), turn, 2 dc in next st, (dc in next st, 2 dc in next st) 5 times. (18 dc)\n",
    );
    if (size.shape !== "half disc") throw new Error(`a ${size.shape}`);
    // Three rows of 12.5 mm.
    expect([size.width, size.height]).toEqual([75, 37.5]);
  });

  /** Three, four corners: perimeter 6 times the root of 3, and 8, by the distance of a side from the middle. Geometry. */
  test("a triangle of three corners, and a solid square", () => {
    const polygon = (corners: number, side: number) =>
      `Motif\n\nGauge: 20 sc and 20 rounds = 10 cm\n\nRnd 1: (${side} sc, ch 2) in magic ring ${corners} times. (${corners * side} sc, ${corners} ch-2 sps)\n${[2, 3, 4, 5, 6].map((n) => `Rnd ${n}: *sc in next ${side + (n - 2) * 4} sc, (2 sc, ch 2, 2 sc) in next ch-2 sp; rep from * ${corners - 1} more times. (${corners * (side + (n - 1) * 4)} sc, ${corners} ch-2 sps)`).join("\n")}\n`;
    expect(roundSizeIn(polygon(4, 2)).shape).toBe("square");
    expect(roundSizeIn(polygon(3, 2)).shape).toBe("triangle");
  });
});

describe("lace and slits", () => {
  test("arches that grow from the middle lie flat, those that stop growing stand up", () => {
    const net = (rounds: readonly number[]) =>
      `Mat\n\nGauge: 20 sc and 22 rounds = 10 cm\n\nRnd 1: 12 dc in magic ring, join. (12 dc)\nRnd 2: Ch 1, *sc in next st, ch ${rounds[0]}; rep from * around, join. (12 sc, 12 ch-${rounds[0]} sps)\n${rounds
        .slice(1)
        .map(
          (n, i) =>
            `Rnd ${i + 3}: *Sc in next ch-${rounds[i]} sp, ch ${n}; rep from * around. (12 sc, 12 ch-${n} sps)`,
        )
        .join("\n")}\n`;
    expect(roundSizeIn(net([4, 5, 6, 7, 8])).shape).toBe("disc");
    expect(roundSizeIn(net([4, 4, 4, 4, 4, 4, 4])).shape).toBe("cup");
  });

  test("two slits of eight chains are told as openings", () => {
    const text = readFileSync("samples/rope-basket.crochet", "utf8");
    const [basket] = materialsOf(new Checker().work(text).worked, usualOptions).pieces;
    expect(basket?.sizes[0]).toContain("; openings in Rnd 15: 2 of about 9 cm (3½ in)");
    // The pattern says 13 cm tall.
    expect(Math.abs((basket?.lengths[0]?.height ?? 0) / 13 - 1)).toBeLessThan(0.1);
  });
});
