import { parentPort, Worker, workerData } from "node:worker_threads";
import { type Compared, compared, type Share } from "./compared";

interface Asked {
  readonly seed: number;
  readonly most: number;
  readonly minutes: number;
  readonly threads: number;
}

interface Task extends Share {
  /** When to stop, in milliseconds since 1970: each thread has a clock of its own for the rest. */
  readonly until: number;
}

/** Each thread takes every so-manieth text; `entry` is the script that runs, in which a thread calls `workShare`. */
export async function comparedByThreads(
  entry: URL,
  { seed, most, minutes, threads }: Asked,
): Promise<Compared> {
  const until = Date.now() + minutes * 60_000;
  const shares = Array.from({ length: threads }, (_, at) =>
    shareOf(entry, { seed: seed + at, apart: threads, most: Math.ceil(most / threads), until }),
  );
  return (await Promise.all(shares)).reduce(together);
}

/** Most of what a check makes is thrown away at once: room for it saves a tenth of the time. */
const resourceLimits = { maxYoungGenerationSizeMb: 64 };

function shareOf(entry: URL, task: Task): Promise<Compared> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(entry, { workerData: task, resourceLimits });
    worker.once("message", resolve).once("error", reject);
    worker.once("exit", () =>
      reject(new Error(`The thread of --seed ${task.seed} ended without an answer.`)),
    );
  });
}

function together(one: Compared, other: Compared): Compared {
  return {
    edits: one.edits + other.edits,
    comparisons: one.comparisons + other.comparisons,
    texts: one.texts + other.texts,
    different: [...one.different, ...other.different],
  };
}

/** What one thread does. */
export function workShare(): void {
  const { until, ...share } = workerData as Task;
  parentPort?.postMessage(compared(share, () => Date.now() < until));
}
