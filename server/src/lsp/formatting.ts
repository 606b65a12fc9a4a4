import type {
  DocumentFormattingParams,
  DocumentOnTypeFormattingParams,
  DocumentRangeFormattingParams,
  TextEdit,
} from "vscode-languageserver";
import { houseStyleEdits } from "../features/house-style";
import type { Span } from "../text/span";
import type { Server } from "./context";
import { answering, type Request, stopIfCancelled } from "./handler";
import { rangeOf, spanOf } from "./positions";

/** Brings rows into the style that is set: of the whole pattern, those that lie within a range, or the one that Enter ends. */
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
  connection.onDocumentOnTypeFormatting(
    answering<DocumentOnTypeFormattingParams, TextEdit[]>(server, {
      name: "Formatting the row that was ended",
      work: (request) => styled(server, request, lineAbove(request)),
      empty: () => [],
    }),
  );
}

/** The line that Enter was pressed behind. */
function lineAbove({ params: { position }, snapshot }: Request<DocumentOnTypeFormattingParams>): Span {
  const line = Math.max(0, position.line - 1);
  return spanOf({ start: { line, character: 0 }, end: { line: line + 1, character: 0 } }, snapshot.lines);
}

async function styled(
  server: Server,
  { document, snapshot, token }: Request<{ readonly textDocument: { readonly uri: string } }>,
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
