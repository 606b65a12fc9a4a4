import {
  type DefinitionParams,
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentHighlightParams,
  type Location,
  LSPErrorCodes,
  type PrepareRenameParams,
  type Range,
  type ReferenceParams,
  type RenameParams,
  ResponseError,
  type TextDocumentPositionParams,
  type WorkspaceEdit,
} from "vscode-languageserver";
import { isNotRenamed, type NamedThing, namedAt, renamed } from "../features/names/names";
import { say } from "../text/say";
import type { Span } from "../text/span";
import type { Server } from "./context";
import { editOf } from "./edits";
import { answering, type Request } from "./handler";
import type { Snapshot } from "./open-document";
import { offsetOf, rangeOf } from "./positions";

/** Answers where something is explained, where it is named, and gives it another name. */
export function answerNames(server: Server): void {
  const { connection } = server;
  connection.onDefinition(
    answering<DefinitionParams, Location[]>(server, {
      name: "Finding where it is explained",
      work: ({ params, snapshot }) => locations(thingAt(params, snapshot)?.definitions, snapshot),
      empty: () => [],
    }),
  );
  connection.onReferences(
    answering<ReferenceParams, Location[]>(server, {
      name: "Finding where it is named",
      work: referencesOf,
      empty: () => [],
    }),
  );
  connection.onDocumentHighlight(
    answering<DocumentHighlightParams, DocumentHighlight[]>(server, {
      name: "Marking where it is named",
      work: highlightsOf,
      empty: () => [],
    }),
  );
  connection.onPrepareRename(
    answering<PrepareRenameParams, { range: Range; placeholder: string } | null>(server, {
      name: "Looking what can have another name",
      work: nameToChange,
      empty: () => null,
    }),
  );
  connection.onRenameRequest(
    answering<RenameParams, WorkspaceEdit | null>(server, {
      name: "Giving another name",
      work: (request) => renaming(server, request),
      empty: () => null,
    }),
  );
}

function thingAt({ position }: TextDocumentPositionParams, { worked, lines }: Snapshot): NamedThing | null {
  return namedAt(worked, offsetOf(position, lines));
}

function locations(spans: readonly Span[] | undefined, { uri, lines }: Snapshot): Location[] {
  return (spans ?? []).map((span) => ({ uri, range: rangeOf(span, lines) }));
}

function referencesOf({ params, snapshot }: Request<ReferenceParams>): Location[] {
  const thing = thingAt(params, snapshot);
  if (!thing) return [];
  const { definitions, uses } = thing;
  const asked = params.context.includeDeclaration ? [...definitions, ...uses] : uses;
  return locations(inOrder(asked), snapshot);
}

function inOrder(spans: readonly Span[]): Span[] {
  return [...spans].sort((a, b) => a.start - b.start);
}

function highlightsOf({ params, snapshot }: Request<DocumentHighlightParams>): DocumentHighlight[] {
  const thing = thingAt(params, snapshot);
  const mark = (kind: DocumentHighlightKind) => (span: Span) => ({
    range: rangeOf(span, snapshot.lines),
    kind,
  });
  return [
    ...(thing?.definitions ?? []).map(mark(DocumentHighlightKind.Write)),
    ...(thing?.uses ?? []).map(mark(DocumentHighlightKind.Read)),
  ];
}

function nameToChange({ params, snapshot }: Request<PrepareRenameParams>): {
  range: Range;
  placeholder: string;
} {
  const thing = thingAt(params, snapshot);
  if (!thing)
    return refused(say`Special stitches, yarn letters, pieces and row numbers can have another name.`);
  if (thing.fixed !== null) return refused(thing.fixed);
  return { range: rangeOf(thing.span, snapshot.lines), placeholder: thing.name };
}

function renaming({ client }: Server, { params, snapshot }: Request<RenameParams>): WorkspaceEdit {
  const thing = thingAt(params, snapshot);
  if (!thing) return refused(say`Nothing here has a name that can be changed.`);
  const edits = renamed(thing, params.newName, snapshot.prover);
  return isNotRenamed(edits) ? refused(edits.why) : editOf(edits, snapshot, client);
}

/** A client shows the message to whoever asked. */
function refused(why: string): never {
  throw new ResponseError(LSPErrorCodes.RequestFailed, why);
}
