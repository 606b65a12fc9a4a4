// `npm run bench`: all that is aimed at. `-- --only growth,sizes`: parts of it; `-- 1000`: one size, and less of the rest.
import { parseArgs } from "node:util";
import { activation } from "./activation";
import { commandLine } from "./command-line";
import { type Figure, figuresTable, keep, lastRun, thisRun } from "./figure";
import { writeFigures } from "./figures";
import { ofGrowth, ofHostile } from "./gathered";
import { growths, growthTable } from "./growth";
import { hostileTable, sufferAll } from "./hostile";
import { coldInThisProcess } from "./measure";
import { bundleServers } from "./over-stdio";
import { pointing } from "./pointing";
import { ratiosWithinBounds } from "./ratios";
import { reshaping } from "./reshaping";
import { BesideServices } from "./services";
import { type Command, longSession, sessions } from "./sessions";
import { sizes as sizesOfShipped } from "./sizes";
import type { SubjectName } from "./subjects";
import { mix, profiles, stages } from "./where-time-goes";

const seed = 20_250;

/** What one part of a run gave: a table to look at, figures that are aimed at. */
interface Measured {
  readonly table?: string;
  readonly figures?: readonly Figure[];
}

/** `size`: of the patterns, where only one is asked for; the parts that have none are then done more briefly. */
type Part = (command: Command, size: number | undefined) => Measured | Promise<Measured>;

/** By what `--only` calls them, with the titles of their tables. */
const parts: Readonly<Record<string, readonly [title: string, part: Part]>> = {
  mix: ["The text", () => ({ table: mix(seed) })],
  stages: ["Stages, 1,000 rows, warm", () => ({ table: stages(1_000, seed) })],
  profiles: ["Where the time goes", async () => ({ table: await profiles(seed) })],
  stdio: ["Over stdio", (command, size) => sessions(command, size ? [size] : [100, 300, 1_000, 5_000], seed)],
  pointing: ["Pointing at a checked text of 5,000 rows", () => ({ table: pointing(5_000, seed) })],
  rewriting: ["Rewriting", () => reshaping(seed)],
  services: [
    "Beside the services of VS Code",
    (_, size) => new BesideServices(size ? [size] : [100, 500, 1_000, 5_000], seed).measure(),
  ],
  hostile: ["Texts that nobody writes", async (command) => suffered(command)],
  growth: ["Texts twice as long", () => grown()],
  long: [
    "A long session",
    async (command, size) => ({ figures: await longSession(command, size ? 1_000 : 10_000, seed) }),
  ],
  "command-line": [
    "The command line",
    (command, size) => ({ figures: commandLine(command("command line")[0] ?? "", size ? 100 : 1_000) }),
  ],
  activation: ["Activation", () => ({ figures: activation() })],
  sizes: ["Sizes", () => ({ figures: sizesOfShipped() })],
};

/** Of which the tables go into the page. */
const written = ["stdio", "rewriting", "services", "hostile", "growth"];

async function suffered(command: Command): Promise<Measured> {
  const all = await sufferAll(command("loopledger"));
  return { table: hostileTable(all), figures: ofHostile(all) };
}

function grown(): Measured {
  const all = growths();
  return { table: growthTable(all), figures: ofGrowth(all) };
}

async function main(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { only: { type: "string" }, write: { type: "boolean", default: false } },
  });
  const names = values.only?.split(",") ?? Object.keys(parts);
  const unknown = names.find((name) => !(name in parts));
  if (unknown !== undefined)
    throw new Error(`No part "${unknown}"; there are ${Object.keys(parts).join(", ")}.`);
  if (values.write && values.only) throw new Error("Only figures of one whole run are written.");
  const measured = await measureAll(names, Number(positionals[0]) || undefined);
  const run = thisRun([...measured.values()].flatMap(({ figures }) => figures ?? []));
  const goals = figuresTable(run, lastRun());
  console.log(`## What is aimed at\n\n${goals}\n`);
  console.log(`Node ${process.version}, load ${run.load} on ${run.cores} cores.\n${JSON.stringify(run)}`);
  if (!values.write) return;
  keep(run);
  const tables = written.map((name) => [parts[name]?.[0], measured.get(name)?.table ?? ""]);
  writeFigures("DEVELOPERS.md", { "What is aimed at": goals, ...Object.fromEntries(tables) });
}

/** Each part is told as soon as it is done, with the time it took. */
async function measureAll(
  names: readonly string[],
  size: number | undefined,
): Promise<Map<string, Measured>> {
  const command = bundleServers();
  const all = new Map<string, Measured>();
  for (const [name, [title, part]] of Object.entries(parts)) {
    if (!names.includes(name)) continue;
    const started = performance.now();
    const one = await part(command, size);
    all.set(name, one);
    const seconds = Math.round((performance.now() - started) / 1000);
    console.log(`## ${title}\n\n${one.table ? `${one.table}\n\n` : ""}(${name}: ${seconds} s)\n`);
  }
  return all;
}

const [flag, name, rows, at] = process.argv.slice(2);
if (flag === "--cold") console.log(coldInThisProcess(name as SubjectName, Number(rows), Number(at)));
else if (flag === "ratios") process.exitCode = await ratiosWithinBounds();
else {
  await main(process.argv.slice(2));
  // How near the estimates of yarn come to published figures.
  if (!process.argv.includes("--only")) await import("../yarn/main");
}
