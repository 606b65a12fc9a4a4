import { actionsOnRequest } from "../../server/src/features/actions/all-actions";
import { resizeAnswer } from "../../server/src/features/resize/resize-question";
import { rewriteAnswer } from "../../server/src/features/rewrite-question";
import { Checker } from "../../server/src/workspace/checker";
import { sceneOf } from "../mutants/promises";
import type { Figure } from "./figure";
import { longPattern } from "./long-pattern";
import { median, quantile, type Times, timed } from "./measure";
import { Random } from "./random";

const rows = 300;
const runs = 40;

/** Milliseconds: what each is to take at most, beside one check of the same text. */
const goals = { list: 15, rewrite: 50, resize: 100 } as const;

/** What a row and a piece of 300 rows take to be rewritten, and how often the text could be checked afresh meanwhile. */
export function reshaping(seed: number): { table: string; figures: Figure[] } {
  const random = new Random(seed);
  const many = longPattern(rows, seed);
  const one = sack();
  const lists: Times = [];
  const rewrites: Times = [];
  const resizes: Times = [];
  for (let run = 0; run < runs; run++) {
    // A version that nothing was asked of yet, as after each edit.
    const scene = sceneOf(many);
    const pieces = scene.worked.pieces.filter(({ rows: all }) => all.length > 2);
    const all = pieces.flatMap((piece) => piece.rows.filter(({ result }) => result === "ok"));
    const row = all[random.between(0, all.length - 1)];
    if (!row) continue;
    lists.push(timed(() => actionsOnRequest(scene, row.line.span)));
    const again = sceneOf(many);
    const makes = (row.outcome?.makes[0] ?? 0) + random.between(1, 6);
    rewrites.push(timed(() => rewriteAnswer(again, row.line.start, `${makes}`)));
    if (run % 4 > 0) continue;
    const sackScene = sceneOf(one);
    const width = 6 * random.between(45, 60);
    resizes.push(
      timed(() => resizeAnswer(sackScene, sackScene.worked.pieces[0]?.rows[0]?.line.start ?? 0, `${width}`)),
    );
  }
  const measured = [
    { what: "list of actions at a row", times: lists, goal: goals.list, text: many },
    { what: "one row for another count, as it is typed", times: rewrites, goal: goals.rewrite, text: many },
    { what: `a piece of ${rows} rows in another size`, times: resizes, goal: goals.resize, text: one },
  ];
  const table = [
    "| what | ms: median, p95 | goal, ms | one check afresh, ms | ratio |",
    "|---|---|---|---|---|",
    ...measured.map(line),
  ].join("\n");
  const figures = measured.map(
    ({ what, times, goal }): Figure => ({
      what: `rewriting: ${what}`,
      value: median(times),
      unit: "ms",
      goal,
    }),
  );
  return { table, figures };
}

interface Asked {
  readonly what: string;
  readonly times: Times;
  readonly goal: number;
  readonly text: string;
}

function line({ what, times, goal, text }: Asked): string {
  const checks = Array.from({ length: 8 }, () => timed(() => new Checker().check(text)));
  const p95 = times.length < 20 ? "–" : quantile(times, 0.95).toFixed(0);
  const [own, check] = [median(times), median(checks)];
  return `| ${what} | ${own.toFixed(0)}, ${p95} (${times.length} runs) | ${goal} | ${check.toFixed(0)} | ${(own / check).toFixed(2)} × |`;
}

/** A piece in the round of 300 lines: 50 rounds of increases, 200 plain ones and 50 of decreases. Arithmetic, no source. */
function sack(): string {
  const up = Array.from({ length: 50 }, (_, i) => {
    if (i === 0) return "6 sc in magic ring (6)";
    return i === 1 ? "inc x6 (12)" : `(${i - 1} sc, inc) x6 (${6 * (i + 1)})`;
  });
  const wide = Array.from({ length: 200 }, () => "sc in each st around (300)");
  const down = Array.from({ length: 49 }, (_, i) => {
    const plain = 48 - i;
    return plain > 0 ? `(${plain} sc, dec) x6 (${6 * (plain + 1)})` : "dec x6 (6)";
  });
  const all = [...up, ...wide, ...down, "sc in each st around (6)"];
  return `Sack\n${all.map((row, i) => `Rnd ${i + 1}: ${row}`).join("\n")}\n`;
}
