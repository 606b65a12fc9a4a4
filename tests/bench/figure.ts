import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { availableParallelism, loadavg } from "node:os";

/** One thing that was measured. Less is better. */
export interface Figure {
  /** The same from run to run: a figure is compared with that of the last run by it. */
  readonly what: string;
  readonly value: number;
  readonly unit: "ms" | "µs" | "MB" | "kB" | "×" | "%";
  /** What it should be at most. */
  readonly goal?: number;
}

/** A run, as it is kept: `tests/bench/figures.json`. */
export interface Run {
  readonly on: string;
  readonly node: string;
  readonly cores: number;
  /** Programs that wanted to run at the same time, on average of the last minute: more than the cores is too many. */
  readonly load: number;
  readonly figures: readonly Figure[];
}

const file = "tests/bench/figures.json";

export function thisRun(figures: readonly Figure[]): Run {
  return {
    on: new Date().toISOString().slice(0, 10),
    node: process.version,
    cores: availableParallelism(),
    load: Number((loadavg()[0] ?? 0).toFixed(1)),
    figures: figures.map((figure) => ({ ...figure, value: Number(figure.value.toPrecision(4)) })),
  };
}

/** The run that was kept last; null where there is none. */
export function lastRun(): Run | null {
  return existsSync(file) ? (JSON.parse(readFileSync(file, "utf8")) as Run) : null;
}

export function keep(run: Run): void {
  writeFileSync(file, `${JSON.stringify(run, null, 2)}\n`);
}

/** What was measured beside what is aimed at, and beside the run before. */
export function figuresTable({ figures }: Run, last: Run | null): string {
  const before = new Map((last?.figures ?? []).map(({ what, value }) => [what, value]));
  const rows = figures.map(({ what, value, unit, goal }) => {
    const old = before.get(what);
    const aim = goal === undefined ? "–" : `${goal} ${unit}`;
    const isMet = goal === undefined ? "" : value <= goal ? "met" : "missed";
    const ratio = old === undefined || old === 0 ? "–" : `${(value / old).toFixed(2)} ×`;
    return `| ${[what, aim, `${shown(value)} ${unit}`, isMet, ratio].join(" | ")} |`;
  });
  return ["| what | at most | measured | | of the run before |", "|---|---|---|---|---|", ...rows].join("\n");
}

function shown(value: number): string {
  return value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toFixed(2);
}
