import { describe, expect, test } from "vitest";
import { type ResizeAnswer, resizeAnswer } from "../../server/src/features/resize/resize-question";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";
import { sceneOf } from "../mutants/promises";

/*
 * Pieces in another size. The counts of the examples are arithmetic on what designers commonly work, no source; a law
 * that is published is named beside its test.
 */

function asked(text: string, typed: string | null): ResizeAnswer {
  return resizeAnswer(sceneOf(text), text.lastIndexOf("1:"), typed);
}

/** The text with the piece of its last "1:" in that size; it has no query that was not there before. */
function resized(text: string, typed: string): string {
  const answer = asked(text, typed);
  expect(answer.fits, answer.says).toBe(true);
  const done = withEdits(text, answer.edits);
  const before = sceneOf(text).findings.length;
  expect(new Checker().check(done).findings.length).toBeLessThanOrEqual(before);
  return done;
}

/** Rounds of a flat disc: 6, 12, 18… */
function ladder(by: number, rounds: number): string {
  const rows = [`Rnd 1: ${by} sc in magic ring (${by})`, `Rnd 2: inc x${by} (${2 * by})`];
  for (let n = 3; n <= rounds; n++) rows.push(`Rnd ${n}: (${n - 2} sc, inc) x${by} (${n * by})`);
  return rows.join("\n");
}

function down(by: number, from: number, first: number): string {
  const rows: string[] = [];
  for (let n = from; n > 2; n--)
    rows.push(`Rnd ${first + from - n}: (${n - 2} sc, dec) x${by} (${(n - 1) * by})`);
  return [...rows, `Rnd ${first + from - 2}: dec x${by} (${by})`].join("\n");
}

const head = (rungs: number, even: number, place: string) => `Head
${ladder(6, rungs)}
Rnds ${rungs + 1}-${rungs + even}: sc in each st around (${6 * rungs})
${place}
${down(6, rungs, rungs + even + 1)}`;

const pouch = (rounds: number, every: number, even = 10) => {
  const all = 6 * rounds;
  const eyelets = all / every;
  return `Pouch
${ladder(6, rounds)}
Rnds ${rounds + 1}-${rounds + even}: sc in each st around (${all})
Rnd ${rounds + even + 1}: *sc in next ${every - 1} sts, ch 1, sk next st; rep from * around (${all - eyelets} sc, ${eyelets} ch-1 sps)
Rnd ${rounds + even + 2}: sc in each st and in each ch-1 sp around (${all})`;
};

describe("a toy of 36 stitches, half as large again", () => {
  const text = head(6, 6, "Embroider eyes between Rnds 10 and 11, 6 sts apart.");

  test("has 54 stitches and 26 rounds for 17, and its eyes between Rnds 15 and 16", () => {
    expect(resized(text, "x1.5")).toBe(head(9, 9, "Embroider eyes between Rnds 15 and 16, 9 sts apart."));
  });

  test("is told with what no row tells: yarn and stuffing", () => {
    const answer = asked(`Materials\nFibre filling to stuff\n\n${text}`, "54");
    expect(answer.says).toBe("54 sts fit: 26 rounds for 17. 13 lines change.");
    expect(answer.notes.join(" ")).toContain("Stuffing: about 3.44 times as much.");
    expect(answer.notes.join(" ")).toMatch(/Yarn for this piece: about 2\.\d+ times as much/);
  });

  test("comes back from it as it was", () => {
    const there = resized(text, "54");
    expect(resized(there, "36")).toBe(text);
  });

  test("shows each round by itself, to be left out", () => {
    const labels = new Set(asked(text, "42").edits.map(({ note }) => note?.label));
    expect([...labels].slice(0, 3)).toEqual(["New: 7", "Rnds 7-12: now 8-14, told anew", "New: 15"]);
  });
});

test("a ball keeps half as many rounds as it has stitches at its widest (M. S., The ideal crochet sphere, mspremiseconclusion.wordpress.com, 14 March 2010)", () => {
  for (const rungs of [4, 5, 7, 8, 10, 12, 15]) {
    const done = new Checker().work(resized(head(6, 6, "Stuff."), `${6 * rungs}`)).worked;
    const rounds = (done.pieces[0]?.rows ?? []).reduce((sum, { times }) => sum + (times?.[0] ?? 0), 0);
    expect(Math.abs(rounds - (6 * rungs) / 2)).toBeLessThanOrEqual(1);
  }
});

describe("a pouch with eyelets", () => {
  test("every 3 stitches goes from 42 stitches to 60: three more rounds of increases, and 20 eyelets for 14", () => {
    expect(resized(pouch(7, 3), "60")).toBe(pouch(10, 3, 15));
  });

  test("every 4 stitches cannot have 42 or 54, and is told the neighbours", () => {
    const text = pouch(8, 4);
    expect(asked(text, "42")).toMatchObject({
      fits: false,
      edits: [],
      says: expect.stringMatching(
        /^Rnd 19 cannot follow: it is worked over a multiple of 4: 40 or 44, and there are 42\. The nearest that fit: 36 and 48 \(as it is now\)/,
      ),
    });
    expect(asked(text, "54").says).toContain("The nearest that fit: 48 (as it is now) and 60");
    for (const fits of ["36", "60"]) resized(text, fits);
  });

  test("brings the number of eyelets with it where the prose tells it", () => {
    const text = `${pouch(7, 3)}\nLace the cord through the 14 eyelets.`;
    expect(resized(text, "60")).toContain("Lace the cord through the 20 eyelets.");
    expect(asked(text, "45").notes[0]).toBe(
      "Rnd 18 has 15 spaces instead of 14. An even number lets both ends of the cord come out on the same side.",
    );
  });
});

describe("a hat", () => {
  const crown = ["hdc in next st", "hdc in next 2 sts", "hdc in next 3 sts", "hdc in next 4 sts"];
  const hat = `Gauge: 14 hdc and 11 rounds = 4 in
To fit head: 19 in

Hat
Rnd 1: Ch 2 (does not count), 8 hdc in magic ring, join. (8 hdc)
Rnd 2: Ch 2, 2 hdc in each st around, join. (16 hdc)
${crown.map((plain, i) => `Rnd ${i + 3}: Ch 2, *${plain}, 2 hdc in next st; rep from * around, join. (${8 * (i + 3)} hdc)`).join("\n")}
Rnd 7: Ch 2, *hdc in next 5 sts, 2 hdc in next st; rep from * around, join. (56 hdc)
Rnd 8: Ch 2, *hdc in next 6 sts, 2 hdc in next st; rep from * around, join. (64 hdc)
Rnds 9-18: Ch 2, hdc in each st around, join. (64 hdc)`;

  test("of 20 in at 3.5 stitches to the inch has 70: a round adds 6 to 64, four groups of 11 and two of 10", () => {
    const answer = asked(hat, "20 in");
    expect(answer.says).toBe(
      "70 sts (20 in around) fit: 20 rounds for 18. Rnd 9 adds 6, where the others add 8. 2 lines change.",
    );
    const round = /Rnd 9: (.*)/.exec(resized(hat, "20 in"))?.[1];
    expect(round).toBe(
      "Ch 2, *[hdc in next 10 sts, 2 hdc in next st] 2 times, hdc in next 9 sts, 2 hdc in next st; rep from * around, join. (70 hdc)",
    );
  });

  test("may be told by the head it is to fit: the ease stays", () => {
    expect(asked(hat, "fit 21 in").says).toMatch(/^71 sts \(20\.3 in around\) fit/);
    expect(asked(hat.replace(/To fit.*\n/, ""), "fit 21 in")).toMatchObject({
      fits: false,
      says: 'To keep the ease, the pattern has to say whom it fits now: add a line such as "To fit head: 54 cm".',
    });
  });

  test("gets higher by its plain rounds alone", () => {
    const done = resized(hat, "10 in high");
    expect(done).toMatch(/Rnds 9-\d+: Ch 2, hdc in each st around, join\. \(64 hdc\)/);
    expect(done.slice(0, done.indexOf("Rnds 9"))).toBe(hat.slice(0, hat.indexOf("Rnds 9")));
  });
});

describe("staggered rounds", () => {
  test("go on in turn", () => {
    const disc = `Disc
${ladder(6, 4)}
Rnd 5: 1 sc, inc, (3 sc, inc) x5, 2 sc (30)
Rnd 6: (4 sc, inc) x6 (36)
Rnd 7: 2 sc, inc, (5 sc, inc) x5, 3 sc (42)`;
    expect(resized(disc, "54")).toBe(`${disc}
Rnd 8: (6 sc, inc) x6 (48)
Rnd 9: 3 sc, inc, (7 sc, inc) x5, 4 sc (54)`);
  });
});

describe("work in rows", () => {
  const flag = `Flag
With navy, ch 9.
Row 1: sc in 2nd ch from hook and in each ch across [8]
Row 2: ch 1, turn, sc in each st [8]
Row 3: ch 1, turn, dec, sc to last 2 sts, dec [6]
Row 4: ch 1, turn, sc in each st [6]
Row 5: ch 1, turn, dec, sc to last 2 sts, dec [4]
Row 6: ch 1, turn, 4 sc [4]
Row 7: ch 1, turn, dec x2 [2]`;

  test("begins with a longer chain, and its decreases begin higher up", () => {
    expect(resized(flag, "10")).toBe(`Flag
With navy, ch 11.
Row 1: sc in 2nd ch from hook and in each ch across [10]
Row 2: ch 1, turn, sc in each st [10]
Row 3: ch 1, turn, dec, sc to last 2 sts, dec [8]
Row 4: ch 1, turn, 8 sc [8]
Row 5: ch 1, turn, dec, sc to last 2 sts, dec [6]
Row 6: ch 1, turn, sc in each st [6]
Row 7: ch 1, turn, dec, sc to last 2 sts, dec [4]
Row 8: ch 1, turn, 4 sc [4]
Row 9: ch 1, turn, dec x2 [2]`);
  });

  test("that repeats several rows is longer by whole repeats", () => {
    const strip = `Strip
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10)
Row 2: Ch 1, turn, sc in each st. (10)
Row 3: Ch 1, turn, hdc in each st. (10)
Rows 4-13: Rep Rows 2-3 five more times. (10)`;
    expect(resized(strip, "x2")).toBe(
      strip
        .replaceAll("(10)", "(20)")
        .replace("Ch 11", "Ch 21")
        .replace("4-13: Rep Rows 2-3 five", "4-25: Rep Rows 2-3 eleven"),
    );
  });

  test("worked about a chain gets a longer chain, and its ends stay as they are", () => {
    const oval = (n: number, all: number) => `Base
Ch ${n + 3}.
Rnd 1: Sc in 2nd ch from hook, sc in next ${n} ch, 3 sc in last ch; working on opposite side of chain, sc in next ${n} ch, 2 sc in last ch. (${all} sc)
Rnd 2: 2 sc in next st, sc in next ${n} sts, 2 sc in each of next 3 sts, sc in next ${n} sts, 2 sc in each of next 2 sts. (${all + 6} sc)`;
    expect(resized(oval(9, 24), "42")).toBe(oval(15, 36));
  });
});

describe("rows that others name", () => {
  test("have their new numbers there", () => {
    const text = `${ladder(6, 4)}
Rnd 5: BLO sc in each st around (24)
Rnd 6: sc in each st around (24)
Rnds 7-8: Rep Rnd 6. (24)`;
    expect(resized(text, "30")).toContain(`Rnd 5: (3 sc, inc) x6 (30)
Rnd 6: BLO sc in each st around (30)
Rnd 7: sc in each st around (30)
Rnds 8-10: Rep Rnd 7. (30)`);
  });
});

describe("from corner to corner", () => {
  const begin = "Ch 6, dc in 4th ch from hook and in next 2 ch";
  const block = "sl st in next ch-3 sp, ch 3, 3 dc in same sp";
  const fewer = `Sl st in first 3 dc and in ch-3 sp, ch 3, 3 dc in same sp, *${block}; rep from * to last block, sl st in ch-3 sp of last block, turn.`;
  const square = `Square
Row 1: ${begin}, turn. (1 block)
Row 2: ${begin}, sl st in ch-3 sp of block in row below, ch 3, 3 dc in same sp, turn. (2 blocks)
Row 3: ${begin}, *${block}; rep from * across, turn. (3 blocks)
Row 4: ${begin}, *${block}; rep from * across, turn. (4 blocks)
Row 5: ${fewer} (3 blocks)
Row 6: ${fewer} (2 blocks)
`;

  test("a square has as many rows up as it has blocks, and the rows down from there", () => {
    const answer = asked(square, "3");
    expect(answer.says).toMatch(/^3 blocks fit: 4 rows for 6\./);
    const done = withEdits(square, answer.edits).split("\n");
    expect(done.map((line) => /\((\d+ blocks?)\)/.exec(line)?.[1] ?? null)).toEqual([
      null,
      "1 block",
      "2 blocks",
      "3 blocks",
      "2 blocks",
      null,
    ]);
    expect(done[4]).toBe(`Row 4: ${fewer} (2 blocks)`);
  });

  test("a larger one is not had, and that is said", () => {
    expect(asked(square, "6")).toMatchObject({ fits: false, edits: [] });
  });
});

describe("what cannot be", () => {
  const text = head(6, 6, "Stuff.");

  test.each([
    ["", "Type a size, such as 60, x1.5 or 40 cm."],
    ["large", '"large" is no size. Type one such as 60, x1.5, 40 cm or 18 cm high.'],
    ["0", "A row has one stitch or more."],
    ["-6", "A row has one stitch or more."],
    ["4.5", "A number of stitches is whole."],
    ["36 (48)", "Type one size: the piece is rewritten for one."],
    ["100001", "No row has more than 100000 stitches."],
    ["99999", "More than 300 rows would have to be put in."],
    ["x0", "A piece is made larger or smaller by a number above 0."],
    ["x-1", '"x-1" is no size. Type one such as 60, x1.5, 40 cm or 18 cm high.'],
    ["x1000", "No piece is made more than 100 times as large."],
    ["3", "Its first row has 6 stitches already."],
    ["36", "It has that size already."],
  ])("%j is answered with what is wrong, and nothing is changed", (typed, says) => {
    const answer = asked(text, typed);
    expect(answer).toMatchObject({ fits: false, edits: [] });
    expect(answer.says.startsWith(says), answer.says).toBe(true);
  });

  test("a size without a gauge: a line for it is put in, with blanks and before the piece, and brings no query", () => {
    const answer = asked(text, "40 cm");
    expect(answer).toMatchObject({ fits: true });
    expect(answer.says).toMatch(/^A size needs the gauge\. Enter puts in a line for it/);
    const done = withEdits(text, answer.edits);
    expect(done).toBe(`Gauge: __ sts and __ rows = 10 cm\n\n${text}`);
    expect(new Checker().check(done).findings).toEqual(new Checker().check(text).findings);
    const filled = done.replace("__ sts", "18 sts").replace("__ rows", "20 rows");
    expect(asked(filled, "40 cm").says).toMatch(/ fit: /);
  });

  test("a height needs the rows of the gauge", () => {
    expect(asked(`Gauge: 18 sc = 10 cm\n\n${text}`, "20 cm high").says).toBe(
      'A height needs the rows of the gauge. Write them too, as in "Gauge: 18 sc and 20 rows = 10 cm".',
    );
  });

  test("a piece of several sizes, and one with a row that is not right, are told so", () => {
    const sizes = "Sizes: S (M)\n\nCap\nRnd 1: 6 (7) sc in magic ring. 6 (7) sc";
    expect(asked(sizes, null).says).toBe(
      "Cap cannot be resized: it is written for several sizes. Change them in the grading sheet, or add one there.",
    );
    const slip = text.replace("(4 sc, inc) x6 (36)", "(4 sc, inc) x5 (36)");
    expect(asked(slip, null).says).toBe(
      "Head cannot be resized: Rnd 6 is not right yet, or not understood. Mend it first.",
    );
  });

  test("where there is no piece, it is said", () => {
    expect(resizeAnswer(sceneOf("Just words.\n"), 3, null).says).toBe(
      "There is no piece at the caret. Put the caret on a row and try again.",
    );
  });
});

describe("all samples", () => {
  test("are resized without a new query, or it is said why not", async () => {
    const { readdirSync, readFileSync } = await import("node:fs");
    const folder = new URL("../../samples/", import.meta.url);
    let done = 0;
    for (const file of readdirSync(folder).filter((name) => name.endsWith(".crochet"))) {
      const text = readFileSync(new URL(file, folder), "utf8");
      const scene = sceneOf(text);
      for (const { rows } of scene.worked.pieces)
        for (const typed of ["x0.75", "x1.5", "x2"]) {
          const answer = resizeAnswer(scene, rows[0]?.line.start ?? 0, typed);
          expect(answer.says, file).not.toBe("");
          if (!answer.fits) expect(answer.edits).toEqual([]);
          else done++;
        }
    }
    expect(done).toBeGreaterThan(25);
  }, 120_000);
});

test("rounds that begin with a chain that counts go on so, and a shorter last one too (common practice, no source)", () => {
  const rounds = [
    "Rnd 1: Ch 3 (counts as dc here and throughout), 11 dc in magic ring, join. (12 dc)",
    "Rnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (24 dc)",
    "Rnd 3: Ch 3, 2 dc in next st, *dc in next st, 2 dc in next st; rep from * around, join. (36 dc)",
    "Rnd 4: Ch 3, dc in next st, 2 dc in next st, *dc in next 2 sts, 2 dc in next st; rep from * around, join. (48 dc)",
  ];
  expect(resized(rounds.join("\n"), "66")).toBe(
    [
      ...rounds,
      "Rnd 5: Ch 3, dc in next 2 sts, 2 dc in next st, *dc in next 3 sts, 2 dc in next st; rep from * around, join. (60 dc)",
      "Rnd 6: Ch 3, dc in next 8 sts, 2 dc in next st, *dc in next 9 sts, 2 dc in next st; rep from * around, join. (66 dc)",
    ].join("\n"),
  );
});

test("a line that tells how many rounds it is tells the new number", () => {
  const text = `${ladder(6, 4)}\nRnds 5-10 (6 rounds): sc in each st around (24)`;
  expect(resized(text, "36")).toContain("Rnds 7-15 (9 rounds): sc in each st around (36)");
});

describe("lines for several rows that grow (common practice, no source)", () => {
  const shawl = (to: number, even: number) => {
    const [up, wide] = [(to - 3) / 2, (to - 3) / 2 + 1 + even];
    return `Shawl
Ch 4.
Row 1: Sc in 2nd ch from hook and in each ch across. (3)
Rows 2-${1 + up}: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. (${to})
Rows ${2 + up}-${wide}: Ch 1, turn, sc in each st. (${to})
Rows ${wide + 1}-${wide + up}: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog. (3)`;
  };

  test("stand for more of them, on both slopes", () => {
    expect(resized(shawl(23, 9), "33")).toBe(shawl(33, 9));
    expect(resized(shawl(23, 9), "13")).toBe(shawl(13, 9));
  });

  test("come to every other width only", () => {
    expect(asked(shawl(23, 9), "24").says).toBe(
      "Rows 2-11 go by 2 stitches a row: 24 is between two. The nearest that fit: 23 (as it is now) and 25.",
    );
  });
});

test("a row of another piece that names one has its new number", () => {
  const text = `Head
${ladder(6, 4)}
Rnd 5: sc in each st around (24)
Rnds 6-9: BLO sc in each st around (24)

Ear
Rnd 1: 24 sc in magic ring (24)
Rnd 2: work as Rnd 5 of Head (24)`;
  const answer = resizeAnswer(sceneOf(text), text.indexOf("Rnd 1"), "30");
  expect(answer.fits, answer.says).toBe(true);
  expect(withEdits(text, answer.edits)).toContain("Rnd 2: work as Rnd 6 of Head (24)");
});

describe("prose that names pieces", () => {
  const ear = (place: string) => `Ear
${ladder(6, 4)}
Rnds 5-6: sc in each st around (24)

Tail
Rnd 1: 6 sc in magic ring (6)
${[2, 3, 4, 5, 6].map((n) => `Rnd ${n}: sc in each st around (6)`).join("\n")}
${place}`;
  const grown = (text: string) => {
    const answer = resizeAnswer(sceneOf(text), text.indexOf("Rnd 1"), "30");
    expect(answer.fits, answer.says).toBe(true);
    return { done: withEdits(text, answer.edits), notes: answer.notes.join(" ") };
  };

  test("means a piece by its whole name, not by letters of another word", () => {
    const near = "Weave in near Rnd 5, clear of the yearly tag.";
    expect(grown(ear(near)).done).toContain(near);
    expect(grown(ear("Pin the ears at Rnd 5 of the ear.")).done).toContain("at Rnd 6 of the ear.");
    expect(grown(ear("Sew the tail near the seam.")).notes).not.toContain("Sew the tail near the seam.");
    expect(grown(ear("Sew the tail to the ears.")).notes).toContain("Sew the tail to the ears.");
  });

  const pocket = `

Pocket
${ladder(6, 7)}
Rnd 8: *sc in next 2 sts, ch 1, sk next st; rep from * around (28 sc, 14 ch-1 sps)

Assembly
`;
  const laced = (sentence: string) => {
    const text = `${pouch(7, 3)}${pocket}${sentence}`;
    const answer = resizeAnswer(sceneOf(text), 10, "60");
    expect(answer.fits, answer.says).toBe(true);
    return { last: withEdits(text, answer.edits).split("\n").at(-1), notes: answer.notes.join(" ") };
  };

  test("has the new number of eyelets where they are of this piece", () => {
    expect(laced("Lace the cord through the 14 eyelets of the pouch.").last).toBe(
      "Lace the cord through the 20 eyelets of the pouch.",
    );
    const other = "Lace the cord through the 14 eyelets of the pocket.";
    expect(laced(other).last).toBe(other);
    const open = laced("Lace the cord through the 14 eyelets.");
    expect(open.last).toBe("Lace the cord through the 14 eyelets.");
    expect(open.notes).toContain(
      '"Lace the cord through the 14 eyelets." may mean another piece: look whether 14 is right.',
    );
  });

  test("of a cord goes with the piece that has the eyelets, of another piece stays", () => {
    const said = (sentence: string) => {
      const text = `${pouch(7, 3)}

Cord
Ch 101.
Row 1: Sl st in 2nd ch from hook and in each ch across. (100 sl sts)

Strip
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10)

Assembly
${sentence}`;
      const answer = resizeAnswer(sceneOf(text), 10, "60");
      return withEdits(text, answer.edits).split("\n").at(-1);
    };
    expect(said("Pull the cord through the 14 eyelets. Sew on the strip.")).toBe(
      "Pull the cord through the 20 eyelets. Sew on the strip.",
    );
    expect(said("Leave 14 holes along the strip.")).toBe("Leave 14 holes along the strip.");
  });
});

test("what comes to about once as much is not told", () => {
  const flag = `Stuff lightly.

Flag
Ch 1001.
Row 1: sc in 2nd ch from hook and in each ch across (1000)
Rows 2-3: ch 1, turn, sc in each st (1000)`;
  const told = (typed: string) => asked(flag, typed).notes.filter((note) => note.includes("as much"));
  expect(told("1001")).toEqual([]);
  expect(told("1010")).toContain("Stuffing: about 1.02 times as much.");
});
