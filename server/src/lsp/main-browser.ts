/// <reference lib="webworker" />
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from "vscode-languageserver/browser";
import { Checker } from "../workspace/checker";
import { startServer } from "./server";

declare const self: DedicatedWorkerGlobalScope;

const connection = createConnection(
  ProposedFeatures.all,
  new BrowserMessageReader(self),
  new BrowserMessageWriter(self),
);

// A fault outside every handler is told to the client; the server goes on with the other patterns.
self.addEventListener("error", (event) => {
  event.preventDefault();
  tellFault(event.error ?? event.message);
});
self.addEventListener("unhandledrejection", ({ reason }) => tellFault(reason));

// There are no files here: those of folders are read by the client, if it offers to.
startServer(connection, {
  createChecker: (versions) => new Checker(versions),
  nextTurn,
  version: process.env.LOOPLEDGER_VERSION ?? "development",
});

function tellFault(fault: unknown): void {
  connection.console.error(`Unexpected fault: ${fault instanceof Error ? fault.stack : fault}`);
}

/** By a message to itself: a worker's timers wait some milliseconds, once they follow one another. */
function nextTurn(): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((resolve) => {
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}
