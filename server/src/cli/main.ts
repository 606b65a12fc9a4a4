import { Checker } from "../workspace/checker";
import { standardOutput } from "./output";
import { run } from "./run";

const status = run(process.argv.slice(2), {
  createChecker: () => new Checker(),
  startServer: () => import("../lsp/main-node"),
  input: process.stdin,
  output: standardOutput(),
  version: process.env.LOOPLEDGER_VERSION ?? "development",
});

// The process is left to end by itself, so that everything written is delivered first.
status.then((code) => {
  process.exitCode = code;
});
