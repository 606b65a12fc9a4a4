import type { Figure } from "./figure";
import { ofColdChecks, ofFirstChecks, ofKeystrokes } from "./gathered";
import { longPattern, mixOf } from "./long-pattern";
import { cold, edits, first, median, quantile, type Times } from "./measure";
import { Random } from "./random";
import type { SubjectName } from "./subjects";

type Kind = "cold" | "warm" | "edit";

const names: readonly SubjectName[] = ["loopledger", "css", "json"];
const coldRuns = 5;
const editsOfRun = 12;

const titles: Readonly<Record<Kind, string>> = {
  cold: "first check, new process",
  warm: "first check, warm process",
  edit: "one character edited, kept checker",
};

/** Checks, in process, of patterns of so many rows, and by the services of VS Code of as much text beside them. */
export class BesideServices {
  private readonly results = new Map<string, Times>();

  constructor(
    private readonly sizes: readonly number[],
    private readonly seed: number,
  ) {}

  /** In random order, so that what disturbs the machine hits all alike. */
  measure(): this {
    for (const job of new Random(this.seed).shuffled(this.jobs())) job();
    return this;
  }

  private jobs(): (() => void)[] {
    return names.flatMap((name) => this.sizes.flatMap((rows) => this.jobsOf(name, rows)));
  }

  private jobsOf(name: SubjectName, rows: number): (() => void)[] {
    const of = (kind: Kind) => this.timesOf(name, rows, kind);
    return Array.from({ length: runsOf(rows) }, (_, run) => run + rows + this.seed).flatMap((at, run) => [
      () => void of("warm").push(first(name, rows, at)),
      () => void of("edit").push(...edits(name, rows, at, editsOfRun)),
      ...(run < coldRuns ? [() => void of("cold").push(cold(name, rows, at))] : []),
    ]);
  }

  private timesOf(name: SubjectName, rows: number, kind: Kind): Times {
    const key = `${name} ${rows} ${kind}`;
    const times = this.results.get(key) ?? [];
    this.results.set(key, times);
    return times;
  }

  get figures(): Figure[] {
    const own = (kind: Kind) =>
      new Map(
        this.sizes.map((size) => {
          const { rows } = mixOf(longPattern(size, this.seed));
          return [size, { rows, times: this.timesOf("loopledger", size, kind) }];
        }),
      );
    return [...ofColdChecks(own("cold")), ...ofFirstChecks(own("warm")), ...ofKeystrokes(own("edit"))];
  }

  get table(): string {
    const kinds = Object.keys(titles) as Kind[];
    const rows = this.sizes.flatMap((size) => kinds.map((kind) => this.row(size, kind)));
    return [
      "| rows | lines | | µs a row | µs a line | CSS, µs a line | JSON, µs a line | of CSS | ms: median, p95 | CSS, ms: median, p95 |",
      "|---|---|---|---|---|---|---|---|---|---|",
      ...rows,
    ].join("\n");
  }

  private row(size: number, kind: Kind): string {
    const { lines, rows } = mixOf(longPattern(size, this.seed));
    const own = this.timesOf("loopledger", size, kind);
    const css = this.timesOf("css", size, kind);
    const per = (times: Times, many: number) => ((median(times) * 1000) / many).toFixed(1);
    const cells = [
      rows,
      lines,
      titles[kind],
      per(own, rows),
      per(own, lines),
      per(css, lines),
      per(this.timesOf("json", size, kind), lines),
      `${(median(own) / median(css)).toFixed(2)} ×`,
      spread(own),
      spread(css),
    ];
    return `| ${cells.join(" | ")} |`;
  }
}

/** Enough small ones to be sure, few large ones to be done. */
function runsOf(rows: number): number {
  return rows >= 5_000 ? 3 : rows >= 1_000 ? 6 : 24;
}

/** A 95th percentile of a few runs would be their worst by another name. */
function spread(times: Times): string {
  const p95 = times.length < 20 ? `–` : quantile(times, 0.95).toFixed(2);
  return `${median(times).toFixed(2)}, ${p95} (${times.length} runs)`;
}
