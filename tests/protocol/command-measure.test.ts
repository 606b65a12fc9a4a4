import { readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { STANDARD_INPUT } from "../../server/src/cli/report-shape";
import { Checker } from "../../server/src/workspace/checker";
import { runInProcess } from "./in-process-command";
import { checkedMeasures } from "./report-schema";

/** Runs `loopledger measure` on a text from standard input. */
const measured = (text: string, ...args: readonly string[]) =>
  runInProcess(["measure", ...args], text, () => new Checker());

const mat = `Mat

Materials
DK cotton, 50 g / 125 m: 50 g in sand
4 mm hook
20 sc unravelled: 92 cm

Gauge: 20 sc and 22 rows = 10 cm

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Rows 2-22: Ch 1, turn, sc in each st across. (20)
`;

describe("loopledger measure", () => {
  test("writes a page: yarn with what it is worked out from, size, time", async () => {
    const { out, status } = await measured(mat, STANDARD_INPUT);
    expect(out).toMatchInlineSnapshot(`
      "# Materials and measures

      Worked out from your own measure, 20 sc unravelled: 92 cm.

      ## Yarn

      | yarn | metres | yards | grams | balls to buy |
      | --- | --- | --- | --- | --- |
      | sand, 50 g / 125 m | 24.8 | 27.1 | 9.9 | 1 |

      With 15 % to spare, tails included.

      ## Pieces

      | piece | measures | metres each | time each |
      | --- | --- | --- | --- |
      | Mat | 10 x 10 cm (4 x 4 in) | 21.5 | about 25 minutes |

      ## Time

      About 25 minutes at 20 stitches a minute. Sewing and finishing are not included.

      "
    `);
    expect(status).toBe(0);
  });

  const samples = readdirSync("samples").filter((name) => name.endsWith(".crochet"));
  test("writes data as the schema says, of every sample", async () => {
    const { out, status } = await measured("", "--format", "json", "samples");
    const report = checkedMeasures(out);
    expect(report.files).toHaveLength(samples.length);
    for (const { basis, yarns, pieces } of report.files) {
      expect(basis?.sort).toBe("gauge");
      expect(yarns.length).toBeGreaterThan(0);
      expect(pieces.length).toBeGreaterThan(0);
    }
    expect(status).toBe(0);
  });

  test("takes another margin and pace", async () => {
    const figures = async (...args: string[]) => {
      const { out } = await measured(mat, "--format", "json", ...args, STANDARD_INPUT);
      const [file] = checkedMeasures(out).files;
      return [file?.yarns[0]?.amounts[0]?.metres.likely ?? 0, file?.minutes[0] ?? 0];
    };
    const [metres, minutes] = await figures("--margin", "0");
    const [more, longer] = await figures("--margin", "100", "--pace", "10");
    expect((more ?? 0) / (metres ?? 1)).toBeCloseTo(2, 1);
    expect((longer ?? 0) / (minutes ?? 1)).toBeCloseTo(2, 1);
  });

  test.each([
    [["--margin", "much", "-"], "--margin is followed by the percent of yarn to spare: 15."],
    [["--pace", "0", "-"], "--pace is followed by the stitches worked in a minute: 20."],
    [["--format", "xml", "-"], "--format is followed by text or json."],
    [[], "Say which files to measure"],
  ])("says what is wrong with %j", async (args, says) => {
    const { err, status } = await measured("", ...args);
    expect(err).toContain(says);
    expect(status).toBe(2);
  });

  test("says what is missing, and goes on", async () => {
    const { out } = await measured("Rnd 1: 6 sc in mr (6)\nRnd 2: 3 zigzags\n", STANDARD_INPUT);
    expect(out).toContain("Nothing tells how much yarn a stitch takes.");
    expect(out).toContain("Not in these figures, since nothing tells their stitches: Rnd 2.");
    const odd = await measured(mat.replace("20 sc and 22 rows", "900 sts"), STANDARD_INPUT);
    expect(odd.out).toContain('"900 sts" over 10 cm cannot be');
  });

  test("a file that is not there is no page, and exit status 2", async () => {
    const { out, err, status } = await measured("", "no-such-file.crochet");
    expect([out, status]).toEqual(["", 2]);
    expect(err).toContain("no-such-file.crochet");
  });
});
