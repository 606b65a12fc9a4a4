import { spawn } from "node:child_process";

export interface Outcome {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

interface Surroundings {
  readonly cwd?: string;
  readonly input?: string | Uint8Array;
}

/** Runs a bundled command line in a process of its own, to its end. */
export function runCommand(
  script: string,
  args: readonly string[],
  { cwd, input = "" }: Surroundings = {},
): Promise<Outcome> {
  const child = spawn(process.execPath, [script, ...args], { cwd });
  const [out, err]: [Buffer[], Buffer[]] = [[], []];
  child.stdout.on("data", (bytes) => out.push(bytes));
  child.stderr.on("data", (bytes) => err.push(bytes));
  // A command that does not read its input may close it early.
  child.stdin.on("error", () => {});
  child.stdin.end(input);
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (status) =>
      resolve({ status, out: Buffer.concat(out).toString(), err: Buffer.concat(err).toString() }),
    );
  });
}
