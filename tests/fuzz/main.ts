// `npm run fuzz -- --minutes N --seed S`: random editing sessions; what breaks is made small and kept.
// `npm run fuzz -- --edits 1000000 --minutes N --threads T`: so many edits at most, taken by a kept checker and held
// against a new one after every one to eight of them.
import { mkdirSync, writeFileSync } from "node:fs";
import { availableParallelism, loadavg } from "node:os";
import { parseArgs } from "node:util";
import { isMainThread } from "node:worker_threads";
import fc from "fast-check";
import { quantile } from "../bench/measure";
import { disagreement, generated } from "../property/generated-patterns";
import { asBroken, Broken } from "./broken";
import { type Session, session } from "./operations";
import { newTally, Player, type Tally } from "./player";
import { failureOf, shrunk } from "./shrink";
import { comparedByThreads, workShare } from "./threads";
import { watchFor } from "./watch";

/** Other sessions in every run, and told which, where no seed is given. */
const now = `${Math.floor(Date.now() / 1000) % 1_000_000}`;
const { values } = parseArgs({
  options: {
    minutes: { type: "string", default: "1" },
    seed: { type: "string", default: now },
    edits: { type: "string" },
    threads: { type: "string", default: `${availableParallelism()}` },
  },
});
const seed = Number(values.seed);
const until = performance.now() + Number(values.minutes) * 60_000;
/** Long enough that what a server remembers of earlier patterns could get in the way of later ones. */
const sessionsOfOneServer = 40;
const madeWithEach = 3;
const folder = "tests/fuzz/found";

interface Failure {
  readonly seed: number;
  readonly fault: Broken;
  readonly session: Session;
}

async function main(): Promise<void> {
  if (values.edits !== undefined) await compareEdits(Number(values.edits));
  else await playSessions();
}

/** Incremental against from-scratch, and nothing else, which is quicker than whole sessions. */
async function compareEdits(most: number): Promise<void> {
  const asked = { seed, most, minutes: Number(values.minutes), threads: Number(values.threads) };
  const { edits, comparisons, texts, different } = await comparedByThreads(new URL(import.meta.url), asked);
  console.log(
    `${edits} edits, ${comparisons} comparisons with a fresh start, in ${texts} texts from --seed ${seed}: ${different.length} told otherwise.`,
  );
  for (const one of different.slice(0, 10)) console.log(`\nFAILED ${JSON.stringify(one)}`);
  process.exit(different.length > 0 ? 1 : 0);
}

async function playSessions(): Promise<void> {
  const watch = watchFor(60_000);
  const tally = newTally(watch.beat);
  const failures = new Map<string, Failure>();
  let played = 0;
  let player = await Player.start(tally);
  for (let at = seed; performance.now() < until; at++, played++) {
    watch.says(`the session of --seed ${at}`);
    const [one] = fc.sample(session, { seed: at, numRuns: 1 }) as [Session];
    const fault = wrongOfMade(at) ?? (await player.play(one).then(() => null, asBroken));
    if (fault && !failures.has(fault.sort)) failures.set(fault.sort, { seed: at, fault, session: one });
    if (fault || played % sessionsOfOneServer === 0) player = await Player.start(tally);
  }
  watch.end();
  console.log(report(tally, played, failures.size));
  for (const { seed: at, fault } of failures.values())
    console.log(`\nFAILED --seed ${at}: ${fault.message.slice(0, 1500)}`);
  for (const failure of failures.values()) await keep(failure);
  process.exit(failures.size > 0 ? 1 : 0);
}

/** What is told of a pattern that is made right; a few of them with each session. */
function wrongOfMade(seed: number): Broken | null {
  for (let i = 0; i < madeWithEach; i++) {
    const other = disagreement(generated(seed * madeWithEach + i));
    if (other !== null) return new Broken("a right pattern is told otherwise", other);
  }
  return null;
}

/** A failure that only comes after other sessions is kept as it was. */
async function keep({ seed: at, fault, session: whole }: Failure): Promise<void> {
  const again = await failureOf(whole);
  const small = again?.sort === fault.sort ? await shrunk(whole, fault) : whole;
  const name = `${fault.sort.replace(/[^A-Za-z]+/g, "-").slice(0, 60)}-${at}.json`;
  mkdirSync(folder, { recursive: true });
  writeFileSync(`${folder}/${name}`, `${JSON.stringify({ ...small, broke: fault.sort }, null, 2)}\n`);
  console.log(`Kept${again ? "" : " (it needs other sessions before it)"}: ${folder}/${name}`);
}

function report({ edits, compared, times }: Tally, sessions: number, failed: number): string {
  const all = [...times].sort((a, b) => worst(b[1]) - worst(a[1]));
  const asked = all.reduce((sum, [, list]) => sum + list.length, 0);
  const slow = all.reduce((sum, [, list]) => sum + list.filter((time) => time > 1000).length, 0);
  const load = loadavg()[0] ?? 0;
  const busy =
    load > availableParallelism() ? " The machine is busy with other things: times are too long." : "";
  return [
    `${sessions} sessions from --seed ${seed}: ${edits} edits, ${asked} requests, ${compared} comparisons with a fresh start, ${madeWithEach * sessions} patterns made right; ${failed} sorts of failures. Load ${load.toFixed(1)}.`,
    `${slow} answers took longer than 1 s.${slow > 0 ? busy : ""}`,
    ["| request | asked | p50, ms | p95, ms | longest, ms |", "|---|---|---|---|---|", ...all.map(row)].join(
      "\n",
    ),
  ].join("\n\n");
}

function row([method, list]: readonly [string, readonly number[]]): string {
  const times = [quantile(list, 0.5), quantile(list, 0.95), worst(list)].map((time) => time.toFixed(1));
  return `| ${[method, list.length, ...times].join(" | ")} |`;
}

function worst(list: readonly number[]): number {
  return list.reduce((most, time) => Math.max(most, time), 0);
}

if (isMainThread) await main();
else workShare();
