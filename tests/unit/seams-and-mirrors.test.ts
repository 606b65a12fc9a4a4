import { describe, expect, test } from "vitest";
import { type Action, actionsAt, actionsOnRequest } from "../../server/src/features/actions/all-actions";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";
import { sceneOf } from "../mutants/promises";

/* Pieces that meet, and pieces that are a pair. Common practice, no source. */

function at(marked: string, list: typeof actionsAt): readonly Action[] {
  const start = marked.indexOf("|");
  return list(sceneOf(marked.replace("|", "")), { start, end: start });
}

function chosen(marked: string, title: string, list: typeof actionsAt): string {
  const all = at(marked, list);
  const action = all.find((one) => one.title === title);
  if (!action) throw new Error(`"${title}" is not offered, but ${all.map((one) => one.title).join(", ")}`);
  return withEdits(marked.replace("|", ""), action.edits());
}

describe("two openings that are sewn together", () => {
  const sewn = (head: string, body: string) => `Head
${head}
Fasten off.

Body
${body}
Fasten off.

Assembly
|Sew the head to the body, opening to opening.`;
  const even = (n: number) => `Rnd 1: ${n} sc in mr (${n})\nRnd 2: inc x${n} (${2 * n})`;

  test("are brought to one number, from either side", () => {
    const text = sewn(`${even(6)}\nRnd 3: sc around (12)`, `${even(7)}\nRnd 3: sc around (14)`);
    const titles = at(text, actionsAt).map(({ title }) => title);
    expect(titles.filter((title) => title.startsWith("Bring"))).toEqual([
      "Bring Head to the 14 sts of Body: rewrite Rnd 3",
      "Bring Body to the 12 sts of Head: rewrite Rnd 3",
    ]);
    const done = chosen(text, "Bring Head to the 14 sts of Body: rewrite Rnd 3", actionsAt);
    expect(done).toContain("(14)\nFasten off.\n\nBody");
    expect(new Checker().check(done).findings).toEqual([]);
  });

  test("are brought to one number in each size", () => {
    const text = `Sizes: S (M)

Head
Rnd 1: 12 (14) sc in magic ring. 12 (14) sc.
Rnd 2: Sc in each st around. 12 (14) sc.
Fasten off.

Body
Rnd 1: 12 (16) sc in magic ring. 12 (16) sc.
Rnd 2: Sc in each st around. 12 (16) sc.
Fasten off.

Assembly
|Sew the head to the body, opening to opening.`;
    const titles = at(text, actionsAt).map(({ title }) => title);
    const title = titles.find((one) => one.startsWith("Bring Head to the 12 (16) sts of Body")) ?? "";
    expect(titles).toContain(title);
    const done = chosen(text, title, actionsAt);
    expect(new Checker().check(done).findings.filter(({ rule }) => rule === "edges-differ")).toEqual([]);
    expect(done).toContain("Body\nRnd 1: 12 (16) sc in magic ring. 12 (16) sc.");
  });

  test("that agree are left alone", () => {
    const text = sewn(even(6), even(6));
    expect(at(text, actionsAt).filter(({ title }) => title.startsWith("Bring"))).toEqual([]);
  });
});

describe("the left piece of a pair", () => {
  const right = `Right Front
Ch 13.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (12)
Row 2: Ch 1, turn, sc in each st across. (12)
Row 3: Ch 1, turn, sc2tog, sc to end. (11)
Row 4: Ch 1, turn, sc in each st to last 2 sts, sc2tog. (10)
Row 5: Ch 1, turn, sc2tog, sc in next 6 sts, 2 sc in next st, sc in last st. (10)
Rows 6-8: Ch 1, turn, sc2tog, sc in each st to end. (7)
Row 9: Ch 1, turn, sc in first st, *ch 1, sk next st, sc in next st; rep from * across. (4 sc, 3 ch-1 sps)
Fasten off. Mark the right edge.`;
  const left = `Left Front
Ch 13.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (12)
Row 2: Ch 1, turn, sc in each st across. (12)
Row 3: Ch 1, turn, sc to last 2 sts, sc2tog. (11)
Row 4: Ch 1, turn, sc2tog, sc in each st to end. (10)
Row 5: Ch 1, turn, sc in first st, 2 sc in next st, sc in next 6 sts, sc2tog. (10)
Rows 6-8: Ch 1, turn, sc in each st to last 2 sts, sc2tog. (7)
Row 9: Ch 1, turn, sc in first st, *ch 1, sk next st, sc in next st; rep from * across. (4 sc, 3 ch-1 sps)
Fasten off. Mark the left edge.`;
  const title = "Write Left Front as the mirror image of Right Front";

  test("is written from the right one: every row from its other end, and what is the same from both stays", () => {
    const done = chosen(right.replace("Row 2", "|Row 2"), title, actionsOnRequest);
    expect(done).toBe(`${right}\n\n${left}`);
    expect(
      new Checker()
        .check(done)
        .pieces.flatMap(({ rows }) => rows)
        .every(({ result }) => result === "ok"),
    ).toBe(true);
  });

  test("has the right one as its own mirror image", () => {
    const done = chosen(
      left.replace("Row 2", "|Row 2"),
      "Write Right Front as the mirror image of Left Front",
      actionsOnRequest,
    );
    expect(done).toBe(`${left}\n\n${right}`);
  });

  test("is not offered where it is there, where a row has no mirror image, and of a piece without a fellow", () => {
    const titles = (text: string) => at(text, actionsOnRequest).map((one) => one.title);
    expect(titles(`${right.replace("Row 2", "|Row 2")}\n\n${left}`)).not.toContain(title);
    const uneven = right
      .replace("Row 2", "|Row 2")
      .replace("*ch 1, sk next st, sc in next st", "*sc in next st, ch 1, sk next st");
    expect(titles(uneven)).not.toContain(title);
    expect(titles(right.replace("Right Front", "Back").replace("Row 2", "|Row 2"))).not.toContain(title);
  });

  const titles = (text: string) => at(text, actionsOnRequest).map((one) => one.title);

  test("is written in several sizes too", () => {
    const sized = `Sizes: S (M)

Right Front
Ch 13 (15).
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. 12 (14) sc.
Row 2: Ch 1, turn, sc2tog, sc in next 4 (6) sts, 2 sc in next st, sc to end. 12 (14) sc.`;
    const done = chosen(sized.replace("Row 2", "|Row 2"), title, actionsOnRequest);
    expect(done.slice(sized.length)).toBe(`

Left Front
Ch 13 (15).
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. 12 (14) sc.
Row 2: Ch 1, turn, sc to last 7 (9) sts, 2 sc in next st, sc in next 4 (6) sts, sc2tog. 12 (14) sc.`);
    expect(new Checker().check(done).findings).toEqual([]);
  });

  test("is not offered where a row is too long or tells of one edge only", () => {
    const plain = right.slice(0, right.indexOf("Row 3")).replace("Row 2", "|Row 2");
    expect(titles(plain)).toContain(title);
    for (const row of [
      "Dec 1 st at neck edge. (11)",
      "Dec 1 st at beg of next row. (11)",
      "Dec 1 st at end of row. (11)",
    ])
      expect(titles(`${plain}Row 3: ${row}`), row).not.toContain(title);
    const long = `Row 3: Ch 1, turn, sc2tog, ${"sc in next st, ".repeat(9)}sc in last st. ${"Keep it loose. ".repeat(40)}(11)`;
    expect(titles(plain + long)).not.toContain(title);
  });

  test("keeps lines for rows that it has already, and what is the same at each end", () => {
    const rows = `Row 3: Ch 1, turn, sc2tog, sc to end. (11)
Rows 4-5: Rep Row 3. (9)
Dec 1 st at each end of next row. (7)
Work even for 4 rows. (7)`;
    const done = chosen(
      right.slice(0, right.indexOf("Row 3")).replace("Row 2", "|Row 2") + rows,
      title,
      actionsOnRequest,
    );
    expect(done.split("Left Front")[1]).toContain(
      rows.replace("sc2tog, sc to end", "sc to last 2 sts, sc2tog"),
    );
  });

  test("changes left and right where they are sides of the piece, and nowhere else", () => {
    const said = (text: string) => {
      const done = chosen(`${right.replace("Row 2", "|Row 2")}\n${text}`, title, actionsOnRequest);
      return done.slice(done.lastIndexOf("\n") + 1);
    };
    for (const [before, after] of [
      ["Sew the right shoulder.", "Sew the left shoulder."],
      ["Right Front is done.", "Left Front is done."],
      ["Mark the right-hand edge.", "Mark the left-hand edge."],
      ["Pin it to the right of the marker.", "Pin it to the left of the marker."],
    ])
      expect(said(before as string)).toBe(after);
    for (const same of [
      "You have 6 sts left.",
      "Weave in the yarn left over.",
      "Leave it with right-side facing, right sides together.",
      "The 3 sts left front no work.",
      "Two sts are left unworked at a right angle.",
    ])
      expect(said(same)).toBe(same);
  });
});
