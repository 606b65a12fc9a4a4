import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { aligned } from "../../server/src/features/wake/alignment";
import { wakeOf } from "../../server/src/features/wake/wake";
import { WakeKeeper } from "../../server/src/features/wake/wake-keeper";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";

function left(before: string, after: string) {
  return wakeOf(new Checker().work(before).worked, new Checker().work(after));
}

/** What a change of one stretch into another leaves: sort, place, and what is said. */
function wake(text: string, old: string, put: string): string[] {
  expect(text).toContain(old);
  return left(text, text.replace(old, put)).map(({ sort, piece, name, says }) =>
    [sort, [piece, name].filter(Boolean).join(", "), says].join(": "),
  );
}

const cup = `Cup
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: (sc, inc) x6 (18)
Rnd 4: sc in each st around
Rnd 5: sc in each st around
Rnd 6: (sc, dec) x6 (12)
Fasten off.`;

describe("rows", () => {
  test("that do not fit any more, though nobody touched them", () => {
    expect(wake(cup, "Rnd 3: (sc, inc) x6 (18)", "Rnd 3: (3 sc, inc) x3 (15)")).toEqual(
      [
        "numbers: Cup, Rnd 4 to Rnd 5: They make 15 now; they made 18.",
        "fit: Cup, Rnd 6: Rnd 6 needs 18 stitches; Rnd 5 has 15: 3 short. It fits with x5 for x6, or with 2 sc for sc.",
      ].map((one) => expect.stringContaining(one.split(". It fits")[0] as string)),
    );
  });

  test("whose count was right and is not", () => {
    const text = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc in each st (12)\nRnd 3: *sc, inc; rep from * around (18)";
    const [only, ...others] = left(text, text.replace("6 sc in mr (6)", "8 sc in mr (8)"));
    expect(others).toEqual([]);
    expect(only).toMatchObject({ sort: "count", name: "Rnd 2", mend: null });
    expect(only?.says).toMatch(/makes 16 stitches .* the line says 12/);
  });

  test("that are touched themselves are not told", () => {
    expect(wake(cup, "Rnd 6: (sc, dec) x6 (12)", "Rnd 6: (sc, dec) x5 (12)")).toEqual([]);
  });

  test("that are only numbered anew are the same rows", () => {
    const text = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (2 sc, inc) x4 (16)";
    const after =
      "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)\nRnd 4: (2 sc, inc) x4 (16)";
    expect(left(text, after)).toMatchObject([{ sort: "fit", name: "Rnd 4" }]);
  });

  test("are not told of where a change mends what was wrong, or undoes itself", () => {
    const text = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)\nRnd 3: (sc, inc) x6 (18)";
    expect(left(text, text.replace("x5", "x6"))).toEqual([]);
    expect(left(cup, cup)).toEqual([]);
  });
});

const doll = `Doll

Body
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: sc in each st around (12)
Rnd 4: sc in each st around (12)
Insert eyes between Rnds 3 and 4, 3 sts apart.
Rnd 5: Rep Rnd 3. (12)
Fasten off.

Arm (make 2)
Rnd 1: 5 sc in mr (5)
Rnd 2: sc in each st around (5)
Fasten off.

Assembly
Sew the arms to the body over Rnd 4.`;

describe("sentences", () => {
  const moved = doll
    .replace("Rnd 2: inc x6 (12)\nRnd 3", "Rnd 2: inc x6 (12)\nRnd 3: 12 sc (12)\nRnd 4")
    .replace("\nRnd 4: sc in each st around (12)\nInsert", "\nRnd 5: sc in each st around (12)\nInsert")
    .replace("Rnd 5: Rep", "Rnd 6: Rep");

  test("that name rows which have another number now are mended with it", () => {
    const stale = left(doll, moved);
    expect(stale.map(({ sort, says, mend }) => [sort, says, mend?.title])).toEqual([
      ["placement", "Row 3 has become row 4. Row 4 has become row 5.", "Write 4 and 5"],
      ["reference", "Row 3 has become row 4.", "Write 4"],
      ["placement", "Row 4 has become row 5.", "Write 5"],
    ]);
    const edits = stale.flatMap(({ mend }) => mend?.edits() ?? []);
    const mended = withEdits(moved, edits);
    expect(mended).toContain("between Rnds 4 and 5, 3 sts apart");
    expect(mended).toContain("Rnd 6: Rep Rnd 4. (12)");
    expect(mended).toContain("over Rnd 5.");
    expect(left(doll, mended)).toEqual([]);
  });

  test("that place something on a row with other stitches", () => {
    const wider = doll.replace(
      "Rnd 2: inc x6 (12)\nRnd 3: sc in each st around (12)",
      "Rnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)",
    );
    const says = left(doll, wider)
      .filter(({ sort }) => sort === "placement")
      .map((one) => one.says);
    expect(says.join(" ")).toContain("Rnd 3 makes 18 now; it made 12.");
  });

  test("that name a row which is gone", () => {
    const shorter = doll
      .replace("Rnd 4: sc in each st around (12)\n", "")
      .replace("Rnd 5: Rep", "Rnd 4: Rep");
    const says = left(doll, shorter).map((one) => one.says);
    expect(says).toEqual(["Row 4 is another row now.", "Row 4 is another row now."]);
    const last = left(doll, doll.replace("Rnd 4: sc in each st around (12)\n", ""));
    expect(last.map((one) => one.says)).toEqual(["Row 4 is gone.", "Row 4 is gone."]);
  });

  test("that put a piece to use which ends with other stitches, is made more often or is renamed", () => {
    const says = (old: string, put: string) => wake(doll, old, put).filter((one) => one.startsWith("piece"));
    expect(
      says(
        "Rnd 1: 5 sc in mr (5)\nRnd 2: sc in each st around (5)",
        "Rnd 1: 6 sc in mr (6)\nRnd 2: sc in each st around (6)",
      ),
    ).toEqual([
      "piece: Arm, Sew the arms to the body over Rnd 4.: Arm ends with 6 stitches now; it ended with 5.",
    ]);
    expect(says("Arm (make 2)", "Arm (make 4)")).toEqual([
      "piece: Arm, Sew the arms to the body over Rnd 4.: Arm is made 4 times now, before 2 times.",
    ]);
    expect(says("Arm (make 2)", "Fin (make 2)")).toEqual([
      "piece: Arm, Sew the arms to the body over Rnd 4.: No piece is called Arm any more.",
    ]);
  });

  test("that are touched themselves are not told", () => {
    const after = moved.replace("between Rnds 3 and 4", "between Rnds 4 and 5");
    expect(left(doll, after).map(({ name }) => name)).not.toContain(
      "Insert eyes between Rnds 4 and 5, 3 sts apart.",
    );
  });
});

describe("what is left to look at", () => {
  const [right, wrong] = [cup, cup.replace("Rnd 3: (sc, inc) x6 (18)", "Rnd 3: (3 sc, inc) x3 (15)")];
  const work = (text: string) => new Checker().work(text);

  test("stays while other things are looked after, and goes as they are mended", () => {
    const keeper = new WakeKeeper();
    expect(keeper.left(work(right))).toEqual([]);
    expect(keeper.left(work(wrong)).map(({ name }) => name)).toEqual(["Rnd 4 to Rnd 5", "Rnd 6"]);
    const half = wrong.replace("Rnd 6: (sc, dec) x6 (12)", "Rnd 6: (sc, dec) x5 (10)");
    expect(keeper.left(work(half)).map(({ name }) => name)).toEqual(["Rnd 4 to Rnd 5"]);
    expect(keeper.left(work(right))).toEqual([]);
  });

  test("goes when it is left as it is, and does not come again with the next change", () => {
    const keeper = new WakeKeeper();
    keeper.left(work(right));
    const [numbers, fit] = keeper.left(work(wrong));
    keeper.accept([numbers?.key ?? ""]);
    expect(keeper.left(work(wrong)).map(({ key }) => key)).toEqual([fit?.key]);
    keeper.accept([fit?.key ?? ""]);
    expect(keeper.left(work(wrong))).toEqual([]);
    expect(keeper.left(work(`${wrong}\nStuff it.`))).toEqual([]);
    expect(keeper.left(work(`${wrong}\nStuff it.\n\nCord\nCh 40.`))).toEqual([]);
  });

  test("is counted from before a row was typed, however slowly that was", () => {
    const [before, behind] = [
      "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\n",
      ": 12 sc (12)\nInsert the eyes on Rnd 3.",
    ];
    const typed = "Rnd 3: sc in each st around (12)\nRnd 4";
    const keeper = new WakeKeeper();
    keeper.left(work(`${before}Rnd 3${behind}`));
    for (let n = "Rnd 3".length; n < typed.length; n++)
      keeper.left(work(`${before}${typed.slice(0, n)}${behind}`));
    expect(keeper.left(work(`${before}${typed}${behind}`))).toMatchObject([
      { sort: "placement", says: "Row 3 has become row 4." },
    ]);
  });

  test("is counted anew for a change elsewhere", () => {
    const text = `${right}\n\n${right.replace("Cup", "Lid")}`;
    const keeper = new WakeKeeper();
    const at = (old: string, put: string) =>
      keeper.left(work(text.replace(old, put))).map(({ piece }) => piece);
    keeper.left(work(text));
    expect(at("Cup\nRnd 1: 6 sc in mr (6)", "Cup\nRnd 1: Work 6 sc in mr (6)")).toEqual([]);
    expect(
      at("Lid\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)", "Lid\nRnd 1: 5 sc in mr (5)\nRnd 2: inc x5 (10)"),
    ).toContain("Lid");
  });
});

describe("the same lines in two texts", () => {
  const lines = fc.array(fc.constantFrom("a", "b", "c"), { maxLength: 12 });

  /** The length of the longest common part, found by trying all: the plain way to the same number. */
  function longest(a: readonly string[], b: readonly string[]): number {
    const [x, ...rest] = a;
    if (x === undefined || b.length === 0) return 0;
    const at = b.indexOf(x);
    const with_ = at < 0 ? 0 : 1 + longest(rest, b.slice(at + 1));
    return Math.max(with_, longest(rest, b));
  }

  test("are as many as can be, in order", () => {
    fc.assert(
      fc.property(lines, lines, (before, now) => {
        const pairs = aligned(before, now).flatMap((was, is) => (was === null ? [] : [[was, is] as const]));
        for (const [was, is] of pairs) expect(before[was]).toBe(now[is]);
        expect(pairs.every(([was], i) => i === 0 || (pairs[i - 1]?.[0] ?? -1) < was)).toBe(true);
        expect(pairs.length).toBe(longest(before, now));
      }),
    );
  });

  test("in a text that is all new are none, soon", () => {
    const many = (mark: string) => Array.from({ length: 5_000 }, (_, n) => `${mark}${n}`);
    expect(aligned(many("a"), many("b")).every((was) => was === null)).toBe(true);
  });
});
