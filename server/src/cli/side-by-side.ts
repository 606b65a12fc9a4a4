import { availableParallelism } from "node:os";
import { type MessagePort, Worker } from "node:worker_threads";
import type { Severities } from "../workspace/severities";
import type { FileEntry, UnreadableEntry } from "./report-shape";

/** What is told of one file. */
export type Checked = FileEntry | UnreadableEntry;

/** Checks files one after another, in the order they are given. */
export type CheckFiles = (files: readonly string[], severities: Severities) => Promise<readonly Checked[]>;

/** To start a helper costs about as much as to check so many files. */
const filesPerHelper = 40;
/** Few enough that all are done at about the same time. */
const filesAtATime = 8;

/** Some files, by their place among all. */
interface Batch {
  readonly from: number;
  readonly files: readonly string[];
}

interface Question {
  readonly files: readonly string[];
  readonly severities: Severities;
}

/**
 * Checks many files on all cores, in helpers that run `script`; a few of them here, by `checkHere`. A helper that
 * breaks down takes nothing with it but the file it broke on, which is told.
 */
export async function checkSideBySide(
  files: readonly string[],
  severities: Severities,
  { script, checkHere }: { readonly script: string; readonly checkHere: CheckFiles },
): Promise<readonly Checked[]> {
  const helpers = Math.min(availableParallelism(), Math.floor(files.length / filesPerHelper));
  if (helpers < 2) return checkHere(files, severities);
  const work = new SharedWork(files, severities, script);
  await Promise.all(Array.from({ length: helpers }, () => work.help()));
  return work.checked;
}

class SharedWork {
  readonly checked: Checked[] = [];
  private readonly left: Batch[] = [];

  constructor(
    files: readonly string[],
    private readonly severities: Severities,
    private readonly script: string,
  ) {
    for (let from = 0; from < files.length; from += filesAtATime)
      this.left.push({ from, files: files.slice(from, from + filesAtATime) });
    this.left.reverse();
  }

  /** One helper, and another one in its place when it breaks down, until nothing is left to do. */
  async help(): Promise<void> {
    while (this.left.length > 0) await this.withOneHelper();
  }

  private async withOneHelper(): Promise<void> {
    const helper = new Helper(this.script);
    let answered = 0;
    for (let batch = this.left.pop(); batch; batch = this.left.pop()) {
      const answer = await helper.ask({ files: batch.files, severities: this.severities });
      if (answer instanceof Error) {
        this.brokeDown(batch, answer, answered);
        break;
      }
      for (const [i, one] of answer.entries()) this.checked[batch.from + i] = one;
      answered++;
    }
    await helper.end();
  }

  /** Of several files it is found out which one it was; what a helper did before may have broken it, too. */
  private brokeDown({ from, files }: Batch, fault: Error, answeredBefore: number): void {
    const [file, ...others] = files;
    if (file !== undefined && others.length === 0 && answeredBefore === 0)
      this.checked[from] = {
        file,
        reason: `Nothing in it was checked, because of a fault in Loopledger (${fault.message}). Please report it.`,
      };
    else this.left.push(...files.map((one, i) => ({ from: from + i, files: [one] })));
  }
}

/** A helper that is listened to as long as it lives: it may break down between two questions. */
class Helper {
  private readonly worker: Worker;
  private readonly gone: Promise<Error>;

  constructor(script: string) {
    const worker = new Worker(script, { stdout: false });
    this.worker = worker;
    this.gone = new Promise((resolve) => {
      let fault: unknown;
      worker.on("error", (why) => {
        fault = why;
      });
      worker.on("messageerror", resolve);
      // By then it has said all it had to say, though it broke down right after an answer.
      worker.on("exit", (code) => {
        resolve(fault instanceof Error ? fault : new Error(`${fault ?? `a helper ended with ${code}`}`));
      });
    });
  }

  ask(question: Question): Promise<readonly Checked[] | Error> {
    const answer = new Promise<readonly Checked[]>((resolve) => this.worker.once("message", resolve));
    this.worker.postMessage(question);
    return Promise.race([answer, this.gone]);
  }

  async end(): Promise<void> {
    await this.worker.terminate();
  }
}

/** What a helper does: checks the files it is sent, and answers. */
export function answerQuestions(port: MessagePort, checkHere: CheckFiles): void {
  port.on("message", async ({ files, severities }: Question) => {
    port.postMessage(await checkHere(files, severities));
  });
}
