import type {
  DocumentFormattingParams,
  DocumentRangeFormattingParams,
  TextEdit,
} from "vscode-languageserver";
import { houseStyleEdits } from "../features/house-style";
import type { Span } from "../text/span";
import type { Server } from "./context";
import { answering, type Request, stopIfCancelled } from "./handler";
import { rangeOf, spanOf } from "./positions";

/** Brings rows into the style that is set: of the whole pattern, or those that lie within a range. */
export function answerFormatting(server: Server): void {
  const { connection } = server;
  connection.onDocumentFormatting(
    answering<DocumentFormattingParams, TextEdit[]>(server, {
      name: "Formatting",
      work: (request) => styled(server, request, { start: 0, end: request.snapshot.text.length }),
      empty: () => [],
    }),
  );
  connection.onDocumentRangeFormatting(
    answering<DocumentRangeFormattingParams, TextEdit[]>(server, {
      name: "Formatting a range",
      work: (request) => styled(server, request, spanOf(request.params.range, request.snapshot.lines)),
      empty: () => [],
    }),
  );
}

async function styled(
  server: Server,
  { document, snapshot, token }: Request<DocumentFormattingParams>,
  within: Span,
): Promise<TextEdit[]> {
  const { style } = await server.settings.of(document.uri);
  stopIfCancelled(token);
  if (style === null) return [];
  const { worked, report, lines, tryOut } = snapshot;
  return houseStyleEdits({ worked, report }, style, within, tryOut).map(({ span, newText }) => ({
    range: rangeOf(span, lines),
    newText,
  }));
}
