import { materialsOf } from "../measure/materials";
import { materialsPage } from "../measure/materials-page";
import type { Server } from "./context";
import { answering, type Request, stopIfCancelled } from "./handler";
import { settled } from "./settled";

interface About {
  readonly textDocument: { readonly uri: string };
}

/** Answers what only this extension's client asks: materials and measures, as a page of Markdown. */
export function answerMaterials(server: Server): void {
  server.connection.onRequest(
    "loopledger/materials",
    answering<About, string | null>(server, {
      name: "Measuring the pattern",
      work: (request) => pageOf(server, request),
      empty: () => null,
    }),
  );
}

async function pageOf(server: Server, { document, token }: Request<About>): Promise<string> {
  await settled(server, document);
  const { measures } = await server.settings.of(document.uri);
  stopIfCancelled(token);
  const { worked } = document.snapshot;
  const title = worked.lines.find(({ kind }) => kind !== "blank")?.text.trim() ?? "";
  return materialsPage(materialsOf(worked, measures), title);
}
