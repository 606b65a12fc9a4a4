import type { AnnotatedTextEdit, ChangeAnnotation, TextEdit, WorkspaceEdit } from "vscode-languageserver";
import type { NotedEdit } from "../features/actions/all-actions";
import type { ClientAbilities } from "./capabilities";
import type { Snapshot } from "./open-document";
import { rangeOf } from "./positions";

/**
 * Edits of one version of a text; a client that can is told which, and makes them in no other. Edits that are to
 * be looked at carry their note, where the client shows such.
 */
export function editOf(
  edits: readonly NotedEdit[],
  { uri, version, lines }: Snapshot,
  { takesVersionedEdits, showsNotes }: ClientAbilities,
): WorkspaceEdit {
  const notes = takesVersionedEdits && showsNotes ? notesOf(edits) : new Map<string, ChangeAnnotation>();
  const placed = edits.map(({ span, newText, note }): TextEdit | AnnotatedTextEdit => {
    const edit = { range: rangeOf(span, lines), newText };
    return note && notes.has(note.label) ? { ...edit, annotationId: note.label } : edit;
  });
  if (!takesVersionedEdits) return { changes: { [uri]: placed } };
  const documentChanges = [{ textDocument: { uri, version }, edits: placed }];
  return notes.size > 0
    ? { documentChanges, changeAnnotations: Object.fromEntries(notes) }
    : { documentChanges };
}

function notesOf(edits: readonly NotedEdit[]): Map<string, ChangeAnnotation> {
  return new Map(
    edits.flatMap(({ note }) => (note ? [[note.label, { ...note, needsConfirmation: true }] as const] : [])),
  );
}
