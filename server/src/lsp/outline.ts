import {
  type DocumentSymbol,
  type DocumentSymbolParams,
  type FoldingRange,
  type FoldingRangeParams,
  type SelectionRange,
  type SelectionRangeParams,
  SymbolKind,
  type WorkspaceSymbol,
  type WorkspaceSymbolParams,
} from "vscode-languageserver";
import { foldsOf } from "../features/outline/folding";
import { selectionsAt } from "../features/outline/selection";
import { type OutlineEntry, outlineEntries } from "../features/outline/symbols";
import type { Server } from "./context";
import { answering, guarded, type Request } from "./handler";
import type { OpenDocument, Snapshot } from "./open-document";
import { offsetOf, rangeOf } from "./positions";

const KINDS: Readonly<Record<OutlineEntry["kind"], SymbolKind>> = {
  part: SymbolKind.Namespace,
  piece: SymbolKind.Class,
  row: SymbolKind.Method,
  "special stitch": SymbolKind.Function,
};

/** Answers what a pattern consists of: its parts, what can be folded, what a selection grows to. */
export function answerOutline(server: Server): void {
  const { connection } = server;
  connection.onDocumentSymbol(
    answering<DocumentSymbolParams, DocumentSymbol[]>(server, {
      name: "Listing the parts",
      work: ({ snapshot }) => outlineEntries(snapshot.worked).map((entry) => symbolOf(entry, snapshot)),
      empty: () => [],
    }),
  );
  connection.onWorkspaceSymbol((params) =>
    guarded(
      server,
      "Looking for parts by their names",
      () => server.documents.all().flatMap((document) => namedLike(document, params)),
      () => [],
    ),
  );
  connection.onFoldingRanges(
    answering<FoldingRangeParams, FoldingRange[]>(server, {
      name: "Telling what can be folded",
      work: ({ snapshot }) => foldsOf(snapshot.worked).map((span) => foldOf(span, snapshot)),
      empty: () => [],
    }),
  );
  connection.onSelectionRanges(
    answering<SelectionRangeParams, SelectionRange[]>(server, {
      name: "Growing a selection",
      work: selections,
      empty: () => [],
    }),
  );
}

function symbolOf(
  { kind, name, detail, span, nameSpan, inside }: OutlineEntry,
  snapshot: Snapshot,
): DocumentSymbol {
  return {
    name,
    ...(detail ? { detail } : {}),
    kind: KINDS[kind],
    range: rangeOf(span, snapshot.lines),
    selectionRange: rangeOf(nameSpan, snapshot.lines),
    children: inside.map((entry) => symbolOf(entry, snapshot)),
  };
}

/** Parts, pieces and special stitches of the patterns that are open; rows are too many alike. */
function namedLike({ snapshot }: OpenDocument, { query }: WorkspaceSymbolParams): WorkspaceSymbol[] {
  const asked = query.toLowerCase();
  return outlineEntries(snapshot.worked)
    .flatMap((entry) => [entry, ...entry.inside])
    .filter(({ kind, name }) => kind !== "row" && name.toLowerCase().includes(asked))
    .map(({ kind, name, nameSpan }) => ({
      name,
      kind: KINDS[kind],
      location: { uri: snapshot.uri, range: rangeOf(nameSpan, snapshot.lines) },
    }));
}

function foldOf(span: { start: number; end: number }, { lines }: Snapshot): FoldingRange {
  const { start, end } = rangeOf(span, lines);
  return { startLine: start.line, endLine: end.line };
}

function selections({ params, snapshot }: Request<SelectionRangeParams>): SelectionRange[] {
  const { lines, worked } = snapshot;
  return params.positions.map((position) => {
    const spans = selectionsAt(worked, offsetOf(position, lines));
    const outermostFirst = spans.reverse().map((span) => rangeOf(span, lines));
    const grown = outermostFirst.reduce<SelectionRange | undefined>(
      (parent, range) => (parent ? { range, parent } : { range }),
      undefined,
    );
    return grown ?? { range: { start: position, end: position } };
  });
}
