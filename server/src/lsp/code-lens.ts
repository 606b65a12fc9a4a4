import type { CodeLens, CodeLensParams } from "vscode-languageserver";
import { pieceLenses } from "../features/piece-lens";
import type { Server } from "./context";
import { answering, type Request, stopIfCancelled } from "./handler";
import { rangeOf } from "./positions";
import { settled } from "./settled";

/** Answers what stands above each piece. */
export function answerCodeLenses(server: Server): void {
  server.connection.onCodeLens(
    answering<CodeLensParams, CodeLens[]>(server, {
      name: "Counting the pieces",
      work: (request) => lensesOf(server, request),
      empty: () => [],
    }),
  );
}

async function lensesOf(server: Server, { document, token }: Request<CodeLensParams>): Promise<CodeLens[]> {
  await settled(server, document);
  stopIfCancelled(token);
  const { worked, lines } = document.snapshot;
  // Without a command of its own a lens is not shown; an empty one shows its words and does nothing.
  return pieceLenses(worked).map(({ span, title }) => ({
    range: rangeOf(span, lines),
    command: { title, command: "" },
  }));
}
