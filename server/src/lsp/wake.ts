import type { Range, WorkspaceEdit } from "vscode-languageserver";
import type { Left, StaleSort } from "../features/wake/wake";
import { WakeKeeper } from "../features/wake/wake-keeper";
import type { Server } from "./context";
import { editOf } from "./edits";
import { answering, type Request, stopIfCancelled } from "./handler";
import type { OpenDocument, Snapshot } from "./open-document";
import { rangeOf } from "./positions";
import { settled } from "./settled";

interface About {
  readonly textDocument: { readonly uri: string };
}

/** One thing that a change has left in its wake, as the client shows it. */
export interface WakeEntry {
  readonly key: string;
  readonly sort: StaleSort;
  readonly range: Range;
  readonly name: string;
  readonly piece: string;
  readonly says: string;
  /** What one press would do; null where the row is to be looked at. */
  readonly mend: string | null;
}

/** Answers what only this extension's client asks: about the wake of the last change. */
export function answerWake(server: Server): void {
  const { connection } = server;
  const keepers = new WeakMap<OpenDocument, WakeKeeper>();
  const keeperOf = (document: OpenDocument) => {
    const keeper = keepers.get(document) ?? new WakeKeeper();
    keepers.set(document, keeper);
    return keeper;
  };
  connection.onRequest(
    "loopledger/wake",
    answering<About, WakeEntry[]>(server, {
      name: "Looking at the wake of the last change",
      work: async (request) => entriesOf(await left(server, request, keeperOf), request.document.snapshot),
      empty: () => [],
    }),
  );
  connection.onRequest(
    "loopledger/acceptWake",
    answering<About & { readonly keys: readonly string[] }, null>(server, {
      name: "Leaving as it is what the last change touched",
      work: ({ params, document }) => {
        keeperOf(document).accept(params.keys);
        return null;
      },
      empty: () => null,
    }),
  );
  connection.onRequest(
    "loopledger/mendWake",
    answering<About & { readonly key: string }, WorkspaceEdit | null>(server, {
      name: "Mending what the last change touched",
      work: async (request) => {
        const stale = await left(server, request, keeperOf);
        const mend = stale.find(({ key }) => key === request.params.key)?.mend;
        return mend ? editOf(mend.edits(), request.document.snapshot, server.client) : null;
      },
      empty: () => null,
    }),
  );
}

async function left<P extends About>(
  server: Server,
  { document, token }: Request<P>,
  keeperOf: (document: OpenDocument) => WakeKeeper,
): Promise<Left[]> {
  await settled(server, document);
  stopIfCancelled(token);
  return keeperOf(document).left(document.snapshot);
}

function entriesOf(stale: readonly Left[], { lines }: Snapshot): WakeEntry[] {
  return stale.map((one) => ({
    key: one.key,
    sort: one.sort,
    range: rangeOf(one.span, lines),
    name: one.name,
    piece: one.piece,
    says: one.says,
    mend: one.mend?.title ?? null,
  }));
}
