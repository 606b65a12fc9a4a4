import { Checker } from "../../server/src/workspace/checker";
import { longPattern } from "./long-pattern";
import { median } from "./measure";
import { Random } from "./random";

/** Texts that grow in one way only; `n` is how much there is of it. */
const shapes: Readonly<Record<string, (n: number, seed: number) => string>> = {
  "rows of many pieces": (n, seed) => longPattern(40 * n, seed),
  "rows of one piece": (n, seed) =>
    rows(40 * n, (row) => `Rnd ${row}: sc in next ${1 + ((row + seed) % 5)} sts, inc, sc around`),
  "items in a row": (n, seed) => inRound(`${items(20 * n, seed)} (6)`),
  "repeats in a row": (n, seed) =>
    inRound(list(8 * n, (i) => `(${1 + ((i + seed) % 3)} sc, inc) x${2 + (i % 4)}`)),
  "brackets in brackets": (n) => inRound(`${"(sc, ".repeat(n)}inc${") x2".repeat(n)} (6)`),
  "repeats of doubtful number": (n, seed) =>
    inRound(list(2 * n, (i) => `*${1 + ((i + seed) % 3)} sc, inc; rep from * ${2 + (i % 3)} times`)),
  "brackets that stay open": (n) => inRound("([{*".repeat(5 * n)),
  "words that nobody knows": (n, seed) => inRound(list(20 * n, (i) => `glorp${(i * 7 + seed) % 97}`)),
  "sizes in a list": (n) => {
    const sizes = Array.from({ length: 2 * n }, (_, i) => i + 1);
    return `Sizes: ${sizes.map((i) => `S${i}`).join(", ")}\n\nRnd 1: 6 (${sizes
      .slice(1)
      .map((i) => i + 6)
      .join(", ")}) sc in mr\n`;
  },
  "lines of prose": (n, seed) =>
    rows(
      60 * n,
      (row) => `Sew the ${(row * seed) % 89} buoys to the rope, and weave in the ends of row ${row}.`,
    ),
  "abbreviations in a list": (n, seed) =>
    `Abbreviations\n${Array.from({ length: 30 * n }, (_, i) => `q${i + seed}st = sc in next st`).join("\n")}\n\n${inRound("6 sc (6)")}`,
};

function rows(many: number, line: (row: number) => string): string {
  return `Rnd 1: 6 sc in mr (6)\n${Array.from({ length: many }, (_, i) => line(i + 2)).join("\n")}\n`;
}

function inRound(body: string): string {
  return `Rnd 1: 6 sc in mr (6)\nRnd 2: ${body}\n`;
}

function list(many: number, item: (i: number) => string): string {
  return Array.from({ length: many }, (_, i) => item(i)).join(", ");
}

function items(many: number, seed: number): string {
  const random = new Random(seed);
  return list(many, () => random.oneOf(["sc", "2 sc", "inc", "dec", "hdc in next st", "ch 2", "sk 1 st"]));
}

/** How much longer a text takes that is twice as long. */
export interface Growth {
  readonly shape: string;
  readonly size: number;
  readonly milliseconds: number;
  readonly ratio: number;
}

const sizes = [4, 8, 16] as const;
const runs = 15;
const runsBefore = 5;
/** What takes less is too short to be timed, and cannot grow out of hand unseen. */
const shortest = 0.5;

/**
 * Of each shape the time at each size by that at half of it. All sizes are measured in every run, one behind the other,
 * as texts of one seed: the longer one goes on as the shorter one begins. The middle one of all runs counts, so that
 * nothing which disturbs a few of them does. The first runs are for the engine to learn the code, and are not counted.
 */
export function growths(): Growth[] {
  return Object.entries(shapes).flatMap(([shape, text]) => {
    const all = Array.from({ length: runsBefore + runs }, (_, run) =>
      sizes.map((size) => timeOf(text(size, 100 + run))),
    ).slice(runsBefore);
    return sizes.slice(1).map((size, i) => {
      const ratios = all.map((times) => (times[i + 1] as number) / Math.max(times[i] as number, shortest));
      return {
        shape,
        size,
        milliseconds: median(all.map((times) => times[i + 1] as number)),
        ratio: median(ratios),
      };
    });
  });
}

/** Of the processor: other programs on the machine are not in it. */
function timeOf(text: string): number {
  const checker = new Checker();
  const before = process.cpuUsage();
  checker.check(text);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

export const growthGoal = 2.2;

export function growthTable(all: readonly Growth[]): string {
  const lines = all.map(
    ({ shape, size, milliseconds, ratio }) =>
      `| ${shape}, ${size / 2} → ${size} | ${milliseconds.toFixed(2)} | ${ratio.toFixed(2)} × |`,
  );
  return ["| twice as much of | ms | of half of it |", "|---|---|---|", ...lines].join("\n");
}
