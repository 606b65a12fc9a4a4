import { setFlagsFromString } from "node:v8";
import { isMainThread, parentPort } from "node:worker_threads";
import { Checker } from "../workspace/checker";
import { oneByOne } from "./check";
import { standardOutput } from "./output";
import { run } from "./run";
import { answerQuestions, type CheckFiles, checkSideBySide } from "./side-by-side";

const createChecker = () => new Checker();
const checkHere: CheckFiles = (files, severities) =>
  oneByOne(files, { createChecker, severities, input: process.stdin });

// One file asks most expressions a few times only: interpreting them first and translating them then costs twice.
setFlagsFromString("--no-regexp-tier-up");

if (isMainThread) main();
else if (parentPort) answerQuestions(parentPort, checkHere);

function main(): void {
  const status = run(process.argv.slice(2), {
    createChecker,
    // The helpers run this same script.
    checkFiles: (files, severities) => checkSideBySide(files, severities, { script: __filename, checkHere }),
    startServer: () => import("../lsp/main-node"),
    input: process.stdin,
    output: standardOutput(),
    version: process.env.LOOPLEDGER_VERSION ?? "development",
  });
  // The process is left to end by itself, so that everything written is delivered first.
  status.then((code) => {
    process.exitCode = code;
  });
}
