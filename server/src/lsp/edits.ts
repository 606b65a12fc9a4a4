import type { WorkspaceEdit } from "vscode-languageserver";
import type { TextEdit } from "../text/span";
import type { ClientAbilities } from "./capabilities";
import type { Snapshot } from "./open-document";
import { rangeOf } from "./positions";

/** Edits of one version of a text; a client that can is told which, and makes them in no other. */
export function editOf(
  edits: readonly TextEdit[],
  { uri, version, lines }: Snapshot,
  { takesVersionedEdits }: ClientAbilities,
): WorkspaceEdit {
  const placed = edits.map(({ span, newText }) => ({ range: rangeOf(span, lines), newText }));
  return takesVersionedEdits
    ? { documentChanges: [{ textDocument: { uri, version }, edits: placed }] }
    : { changes: { [uri]: placed } };
}
