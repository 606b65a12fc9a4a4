import type { InlayHint, InlayHintParams } from "vscode-languageserver";
import { inlayHints } from "../features/inlay-hints";
import type { Server } from "./context";
import { answering, type Request, stopIfCancelled } from "./handler";
import { positionOf, spanOf } from "./positions";
import { settled } from "./settled";

/** Answers what is shown behind rows. */
export function answerInlayHints(server: Server): void {
  server.connection.languages.inlayHint.on(
    answering<InlayHintParams, InlayHint[]>(server, {
      name: "Telling counts behind rows",
      work: (request) => hintsOf(server, request),
      empty: () => [],
    }),
  );
}

/** Asks the client to ask again, where it can. */
export function refreshInlayHints({ connection, client }: Server): void {
  if (client.refreshesHints) void connection.languages.inlayHint.refresh();
}

async function hintsOf(
  server: Server,
  { params, document, token }: Request<InlayHintParams>,
): Promise<InlayHint[]> {
  await settled(server, document);
  const { hints, measures } = await server.settings.of(document.uri);
  stopIfCancelled(token);
  const { worked, lines } = document.snapshot;
  return inlayHints(worked, spanOf(params.range, lines), hints, measures).map(
    ({ offset, label, tooltip }) => ({
      position: positionOf(offset, lines),
      label,
      tooltip,
      paddingLeft: true,
    }),
  );
}
