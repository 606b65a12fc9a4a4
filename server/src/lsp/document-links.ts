import type { DocumentLink, DocumentLinkParams } from "vscode-languageserver";
import { rowLinks } from "../features/names/row-numbers";
import { rowName } from "../rules/wording";
import type { Server } from "./context";
import { answering, type Request } from "./handler";
import { rangeOf } from "./positions";

/** Makes links of the numbers that name rows: `Rep Rnd 3`, `between Rnds 10 and 11`. */
export function answerDocumentLinks(server: Server): void {
  server.connection.onDocumentLinks(
    answering<DocumentLinkParams, DocumentLink[]>(server, {
      name: "Finding links",
      work: linksOf,
      empty: () => [],
    }),
  );
}

function linksOf({
  document: { uri },
  snapshot: { worked, lines },
}: Request<DocumentLinkParams>): DocumentLink[] {
  return rowLinks(worked).map(({ row, target, ...span }) => ({
    range: rangeOf(span, lines),
    // Editors take the number of a line behind the mark for where to go.
    target: `${uri}#L${lines.position(target).line + 1}`,
    tooltip: rowName(row),
  }));
}
