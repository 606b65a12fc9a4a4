import { join } from "node:path";
import { setImmediate as nextTurn } from "node:timers/promises";
import { setFlagsFromString } from "node:v8";
import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { Checker } from "../workspace/checker";
import { nodeFiles } from "./files/node-files";
import { sentencesIn } from "./files/node-sentences";
import { startServer } from "./server";

// A first check asks most expressions a few times only: interpreting them first and translating them then costs twice.
setFlagsFromString("--no-regexp-tier-up");
// Most of what a keystroke leaves behind is of no use: it is cleared away before it is as much again as what is.
setFlagsFromString("--heap-growing-percent=100");

const connection = createConnection(ProposedFeatures.all);

// A fault outside every handler is told to the client; the server goes on with the other patterns.
process.on("uncaughtException", (fault) => connection.console.error(`Unexpected fault: ${fault.stack}`));

startServer(connection, {
  createChecker: (versions) => new Checker(versions),
  nextTurn: () => nextTurn(),
  version: process.env.LOOPLEDGER_VERSION ?? "development",
  files: nodeFiles,
  sentences: sentencesIn(join(__dirname, "l10n")),
});
