import { Worker } from "node:worker_threads";

/** Looks at a clock that the main thread winds up; where nobody has for too long, all is stopped. */
const watcher = `
  const { workerData: { beats, patience }, parentPort } = require("node:worker_threads");
  let doing = "";
  parentPort.on("message", (said) => { doing = said; });
  let [last, since] = [-1, Date.now()];
  setInterval(() => {
    const now = Atomics.load(beats, 0);
    if (now !== last) [last, since] = [now, Date.now()];
    else if (Date.now() - since > patience) {
      require("node:fs").writeSync(2, "FAILED no answer for " + patience / 1000 + " s in " + doing + "\\n");
      process.kill(process.pid, "SIGKILL");
    }
  }, 500);
`;

export interface Watch {
  /** What is being done, for the message when it hangs. */
  readonly says: (doing: string) => void;
  readonly beat: () => void;
  readonly end: () => void;
}

/** Ends the process when nothing has been heard of it for so many milliseconds: a hang cannot end itself. */
export function watchFor(patience: number): Watch {
  const beats = new Int32Array(new SharedArrayBuffer(4));
  const worker = new Worker(watcher, { eval: true, workerData: { beats, patience } });
  return {
    says: (doing) => worker.postMessage(doing),
    beat: () => void Atomics.add(beats, 0, 1),
    end: () => void worker.terminate(),
  };
}
