import { richText } from "../features/rich-text";
import type { Server } from "./context";
import { answering, type Request } from "./handler";

interface About {
  readonly textDocument: { readonly uri: string };
}

/** Answers what only this extension's client asks: the pattern as a word processor takes it; null where it is not open. */
export function answerRichText(server: Server): void {
  server.connection.onRequest(
    "loopledger/richText",
    answering<About, string | null>(server, {
      name: "Copying for a word processor",
      work: ({ snapshot }: Request<About>) => richText(snapshot.worked.lines),
      empty: () => null,
    }),
  );
}
