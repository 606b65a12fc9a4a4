import type { InlineCompletionItem, InlineCompletionParams } from "vscode-languageserver";
import { rowToCome } from "../features/completion/completion";
import type { Server } from "./context";
import { answering } from "./handler";
import { offsetOf, rangeOf } from "./positions";

/** Shows the next row behind the caret, for clients that show what could be written before it is asked for. */
export function answerInlineCompletions(server: Server): void {
  if (!server.client.showsInlineCompletions) return;
  server.connection.languages.inlineCompletion.on(
    answering<InlineCompletionParams, InlineCompletionItem[]>(server, {
      name: "Showing the next row",
      work: ({ params, snapshot: { worked, lines } }) => {
        const row = rowToCome(worked, offsetOf(params.position, lines));
        return row ? [{ insertText: row.newText, range: rangeOf(row.span, lines) }] : [];
      },
      empty: () => [],
    }),
  );
}
