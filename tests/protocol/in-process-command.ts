import { type CliHost, run } from "../../server/src/cli/run";

/** Runs the command line in this process, a text from standard input. */
export async function runInProcess(
  args: readonly string[],
  text: string,
  createChecker: CliHost["createChecker"],
): Promise<{ out: string; err: string; status: number }> {
  const written = { out: "", err: "" };
  const host: CliHost = {
    createChecker,
    startServer: () => Promise.reject(new Error("No server is asked for.")),
    input: (async function* () {
      yield Buffer.from(text);
    })(),
    output: {
      out: (more) => {
        written.out += more;
      },
      err: (more) => {
        written.err += more;
      },
    },
    version: "test",
  };
  const status = await run([...args], host);
  return { ...written, status };
}
