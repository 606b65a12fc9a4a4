import { Checker } from "../../server/src/workspace/checker";
import { activation } from "./activation";
import { commandLine } from "./command-line";
import { type Figure, figuresTable, keep, lastRun, thisRun } from "./figure";
import { writeFigures } from "./figures";
import { ofFirstChecks, ofGrowth, ofHostile, ofLongSession, ofSessions } from "./gathered";
import { growths, growthTable } from "./growth";
import { hostileTable, sufferAll } from "./hostile";
import { type Hot, profileOf } from "./hottest";
import { longPattern, mixOf } from "./long-pattern";
import { cold, coldInThisProcess, edits, first, median, quantile, type Times } from "./measure";
import { bundleServers, type OverStdio, serverNames, session, stdioTable } from "./over-stdio";
import { pointing } from "./pointing";
import { Random } from "./random";
import { ratiosWithinBounds } from "./ratios";
import { reshaping } from "./reshaping";
import { sizes as sizesOfShipped } from "./sizes";
import { stagesOf } from "./stages";
import { type SubjectName, subjects } from "./subjects";

const asked = process.argv.slice(2).map(Number).filter(Number.isFinite);
/** Rows of the patterns: `npm run bench -- 1000` measures one size only. */
const sizes = asked.length > 0 ? asked : [100, 500, 1_000, 5_000];
const sizesOverStdio = asked.length > 0 ? asked : [300, 5_000];
const names: readonly SubjectName[] = ["loopledger", "css", "json"];
const seed = 20_250;

type Kind = "cold" | "warm" | "edit";

/** Every measurement by subject, size and kind. */
const results = new Map<string, Times>();

function timesOf(name: SubjectName, rows: number, kind: Kind): Times {
  const key = `${name} ${rows} ${kind}`;
  const times = results.get(key) ?? [];
  results.set(key, times);
  return times;
}

/** Enough small ones to be sure, few large ones to be done. */
function runsOf(rows: number): number {
  return rows >= 5_000 ? 3 : rows >= 1_000 ? 6 : 24;
}

function jobs(): (() => void)[] {
  return names.flatMap((name) =>
    sizes.flatMap((rows) =>
      Array.from({ length: runsOf(rows) }, (_, run) => run + rows + seed).flatMap((at) => [
        () => void timesOf(name, rows, "warm").push(first(name, rows, at)),
        () => void timesOf(name, rows, "edit").push(...edits(name, rows, at, 12)),
        ...(at < rows + seed + 5 ? [() => void timesOf(name, rows, "cold").push(cold(name, rows, at))] : []),
      ]),
    ),
  );
}

function table(): string {
  const rows = sizes.flatMap((size) => {
    const { lines, rows: made } = mixOf(longPattern(size, seed));
    return (["cold", "warm", "edit"] as const).map((kind) => tableRow(size, kind, lines, made));
  });
  return [
    "| rows | lines | | µs a row | µs a line | CSS, µs a line | JSON, µs a line | of CSS | ms: median, p95 | CSS, ms: median, p95 |",
    "|---|---|---|---|---|---|---|---|---|---|",
    ...rows,
  ].join("\n");
}

const titles: Readonly<Record<Kind, string>> = {
  cold: "first check, new process",
  warm: "first check, warm process",
  edit: "one character edited, kept checker",
};

function tableRow(size: number, kind: Kind, lines: number, rows: number): string {
  const own = timesOf("loopledger", size, kind);
  const css = timesOf("css", size, kind);
  const per = (times: Times, many: number) => ((median(times) * 1000) / many).toFixed(1);
  const cells = [
    rows,
    lines,
    titles[kind],
    per(own, rows),
    per(own, lines),
    per(css, lines),
    per(timesOf("json", size, kind), lines),
    `${(median(own) / median(css)).toFixed(2)} ×`,
    spread(own),
    spread(css),
  ];
  return `| ${cells.join(" | ")} |`;
}

/** A 95th percentile of a few runs would be their worst by another name. */
function spread(times: Times): string {
  const p95 = times.length < 20 ? `–` : quantile(times, 0.95).toFixed(2);
  return `${median(times).toFixed(2)}, ${p95} (${times.length} runs)`;
}

function mix(): string {
  const text = longPattern(5_000, seed);
  const { bytes, lines, distinct } = mixOf(text);
  const sheet = subjects.css.text(5_000, seed);
  const results = new Map<string, number>();
  for (const piece of new Checker().check(text).pieces)
    for (const { result } of piece.rows) results.set(result, (results.get(result) ?? 0) + 1);
  const shares = [...results].map(([result, n]) => `${n} ${result}`).join(", ");
  return [
    `The pattern of 5,000 rows: ${lines} lines, ${bytes} bytes; ${Math.round(distinct * 100)} % of its rows are like no other.`,
    `Its rows: ${shares}.`,
    `The style sheet beside it: ${sheet.split("\n").length} lines, ${Buffer.byteLength(sheet)} bytes.`,
  ].join("\n");
}

function stages(rows: number): string {
  const runs = [1, 2, 3].map((run) => stagesOf(rows, seed * 3 + run));
  const lines = Object.keys(runs[0] ?? {}).map((name) => {
    const times = runs.map((run) => run[name] ?? 0);
    return `| ${name} | ${median(times).toFixed(2)} | ${((median(times) * 1000) / rows).toFixed(2)} |`;
  });
  return ["| stage | ms | µs a row |", "|---|---|---|", ...lines].join("\n");
}

async function profile(title: string, work: () => unknown): Promise<string> {
  const { functions, files } = await profileOf(work);
  return [
    `### ${title}`,
    ownTimes("function", functions.slice(0, 15)),
    ownTimes("file", files.slice(0, 12)),
  ].join("\n\n");
}

function ownTimes(what: string, hot: readonly Hot[]): string {
  const lines = hot.map(({ name, file, self }) => `| ${(self * 100).toFixed(1)} % | ${name} ${file} |`);
  return [`| own time | ${what} |`, "|---|---|", ...lines].join("\n");
}

function firstChecks(): void {
  for (let run = 0; run < 3; run++) first("loopledger", 1_000, seed * 7 + run);
}

function editedChecks(): void {
  edits("loopledger", 5_000, seed * 11, 40);
}

/** Servers and sizes in random order, each in a process of its own. */
async function overStdio(command: Command): Promise<Record<"pulled" | "pushed", OverStdio[]>> {
  const all = sizesOverStdio.flatMap((rows) => [
    ...serverNames.map((server) => ({ server, rows, way: "pull" as const })),
    { server: "loopledger" as const, rows, way: "push" as const },
  ]);
  const sessions = { pulled: [] as OverStdio[], pushed: [] as OverStdio[] };
  for (const { server, rows, way } of new Random(seed).shuffled(all)) {
    const one = await session(server, command(server), rows, seed + rows, 200, way);
    sessions[way === "pull" ? "pulled" : "pushed"].push(one);
  }
  return sessions;
}

type Command = ReturnType<typeof bundleServers>;

/** Two sessions of one server on one text, one of them ten times as long. */
async function longSession(command: Command): Promise<Figure[]> {
  const [rows, edits] = [300, asked.length > 0 ? 1_000 : 10_000];
  const of = (keystrokes: number) => session("loopledger", command("loopledger"), rows, seed, keystrokes);
  return ofLongSession(edits, await of(edits / 10), await of(edits));
}

function firstCheckTimes(): Map<number, { rows: number; times: Times }> {
  return new Map(
    sizes.map((size) => {
      const { rows } = mixOf(longPattern(size, seed));
      return [size, { rows, times: timesOf("loopledger", size, "warm") }];
    }),
  );
}

async function main(): Promise<void> {
  console.log(`${mix()}\n`);
  console.log(`## Stages, 1,000 rows, warm\n\n${stages(1_000)}\n`);
  console.log(
    `## Where the time goes\n\n${await profile("First check, 1,000 rows, three texts", firstChecks)}\n`,
  );
  console.log(
    `${await profile("40 edits at 5,000 rows and their undoing, first check included", editedChecks)}\n`,
  );
  const command = bundleServers();
  const { pulled, pushed } = await overStdio(command);
  const sessions = stdioTable(pulled);
  console.log(`## Over stdio, asked for findings after each keystroke\n\n${sessions}\n`);
  console.log(`## Pointing at a checked text of 5,000 rows\n\n${pointing(5_000, seed)}\n`);
  console.log(`## Rewriting\n\n${reshaping(seed)}\n`);
  for (const job of new Random(seed).shuffled(jobs())) job();
  const besideCss = table();
  console.log(`## Beside the services of VS Code\n\n${besideCss}\n`);
  const hostile = await sufferAll(command("loopledger"));
  console.log(`## Texts that nobody writes\n\n${hostileTable(hostile)}\n`);
  const grown = growths();
  console.log(`## Texts twice as long\n\n${growthTable(grown)}\n`);
  const run = thisRun([
    ...ofSessions(pulled, pushed),
    ...ofFirstChecks(firstCheckTimes()),
    ...(await longSession(command)),
    ...commandLine(command("command line")[0] ?? "", asked.length > 0 ? 100 : 1_000),
    ...activation(),
    ...sizesOfShipped(),
    ...ofHostile(hostile),
    ...ofGrowth(grown),
  ]);
  const goals = figuresTable(run, lastRun());
  console.log(`## What is aimed at\n\n${goals}\n`);
  console.log(
    `Node ${process.version}, load ${run.load} on ${run.cores} cores. Medians; jobs of both in random order.`,
  );
  console.log(JSON.stringify(run));
  if (!process.argv.includes("--write")) return;
  keep(run);
  writeFigures("DEVELOPERS.md", {
    "What is aimed at": goals,
    "Over stdio": sessions,
    "Beside the services of VS Code": besideCss,
    "Texts that nobody writes": hostileTable(hostile),
    "Texts twice as long": growthTable(grown),
  });
}

const [flag, name, rows, at] = process.argv.slice(2);
if (flag === "--cold") console.log(coldInThisProcess(name as SubjectName, Number(rows), Number(at)));
else if (flag === "ratios") process.exitCode = await ratiosWithinBounds();
else {
  await main();
  // How near the estimates of yarn come to published figures.
  await import("../yarn/main");
}
