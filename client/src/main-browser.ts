import { type ExtensionContext, env, Uri } from "vscode";
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type MessageTransports,
} from "vscode-languageclient/browser";
import { id, name, options, startWith, stop } from "./extension";
import { sentencesOf } from "./sentences";

/** In the browser the server is a worker: a thread of its own, so that typing never waits for it. */
export function activate(context: ExtensionContext): void {
  const script = Uri.joinPath(context.extensionUri, "dist/server-web.js").toString(true);
  let worker: Worker | undefined;
  let sentences: object | undefined;
  context.subscriptions.push({ dispose: () => worker?.terminate() });
  // The library does not know the editor's own kind of worker for one: it is given the two ends.
  const start = async (): Promise<MessageTransports> => {
    sentences ??= await sentencesOf(env.language, context.extensionUri);
    // A server that is started again takes the place of the one before.
    worker?.terminate();
    worker = new Worker(script);
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  const inLanguage = { ...options, initializationOptions: () => ({ sentences }) };
  startWith(new LanguageClient(id, name, start, inLanguage), context);
}

export const deactivate = stop;
