import type { ExtensionContext } from "vscode";
import { LanguageClient, type ServerOptions, TransportKind } from "vscode-languageclient/node";
import { offerCheckTask } from "./check-task";
import { id, name, options, startWith, stop } from "./extension";
import { serverFlags } from "./server-flags";

/** On the desktop the server is a process of its own. */
export function activate(context: ExtensionContext): void {
  startWith(new LanguageClient(id, name, serverIn(context), options), context);
  context.subscriptions.push(offerCheckTask(context));
}

export const deactivate = stop;

function serverIn(context: ExtensionContext): ServerOptions {
  const module = context.asAbsolutePath("dist/server.js");
  const transport = TransportKind.ipc;
  return {
    run: { module, transport, options: { execArgv: [...serverFlags] } },
    debug: { module, transport, options: { execArgv: ["--nolazy", "--inspect=6009"] } },
  };
}
