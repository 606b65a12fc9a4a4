import { readFileSync } from "node:fs";
import { createContext, Script } from "node:vm";
import { MessageChannel, type MessagePort } from "node:worker_threads";
import {
  AbstractMessageReader,
  AbstractMessageWriter,
  createProtocolConnection,
  type DataCallback,
  type Disposable,
  type Message,
} from "vscode-languageserver-protocol/node";
import { Client } from "./client";

/** What a browser's worker has beside the language itself, as far as a server may need it; nothing of Node's. */
const ofWorkers = {
  MessageChannel,
  setTimeout,
  clearTimeout,
  setInterval,
  clearInterval,
  queueMicrotask,
  performance,
  console,
  URL,
  TextEncoder,
  TextDecoder,
};

/** A server's script in a world where only a worker's names are known, joined to a client by two ports. */
export function inWorker(script: string): { client: Client; end: () => void } {
  const { port1, port2 } = new MessageChannel();
  const world = createContext({ ...ofWorkers, self: port2 });
  new Script(readFileSync(script, "utf8"), { filename: script }).runInContext(world);
  const connection = createProtocolConnection(new PortReader(port1), new PortWriter(port1));
  return { client: new Client(connection), end: () => port1.close() };
}

class PortReader extends AbstractMessageReader {
  constructor(private readonly port: MessagePort) {
    super();
  }

  listen(callback: DataCallback): Disposable {
    this.port.on("message", callback);
    return { dispose: () => this.port.off("message", callback) };
  }
}

class PortWriter extends AbstractMessageWriter {
  constructor(private readonly port: MessagePort) {
    super();
  }

  async write(message: Message): Promise<void> {
    this.port.postMessage(message);
  }

  end(): void {}
}
