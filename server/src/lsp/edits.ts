import type { AnnotatedTextEdit, ChangeAnnotation, TextEdit, WorkspaceEdit } from "vscode-languageserver";
import type { NotedEdit } from "../features/actions/all-actions";
import { say } from "../text/say";
import type { ClientAbilities } from "./capabilities";
import type { Snapshot } from "./open-document";
import { rangeOf } from "./positions";

/**
 * Edits of one version of a text; a client that can is told which, and makes them in no other. Edits that are to
 * be looked at carry their note, where the client shows such.
 */
export function editOf(
  edits: readonly NotedEdit[],
  { uri, version, text, lines }: Snapshot,
  { takesVersionedEdits, showsNotes }: ClientAbilities,
): WorkspaceEdit {
  const notes = takesVersionedEdits && showsNotes ? notesOf(edits) : new Map<string, ChangeAnnotation>();
  const told = notes.size > 0 ? oneEachLine(edits, text) : edits;
  const placed = told.map(({ span, newText, note }): TextEdit | AnnotatedTextEdit => {
    const edit = { range: rangeOf(span, lines), newText };
    return note && notes.has(note.label) ? { ...edit, annotationId: note.label } : edit;
  });
  if (!takesVersionedEdits) return { changes: { [uri]: placed } };
  if (notes.size === 0) return { documentChanges: [{ textDocument: { uri, version }, edits: placed }] };
  const first = lookFirst();
  notes.set(first.label, first);
  return {
    documentChanges: [{ textDocument: { uri, version }, edits: [...placed, nothingAt(text.length, lines)] }],
    changeAnnotations: Object.fromEntries(notes),
  };
}

/** What is left out together is ticked at once: the edits of a line with the same note as one. */
function oneEachLine(edits: readonly NotedEdit[], text: string): NotedEdit[] {
  const all: NotedEdit[] = [];
  for (const edit of [...edits].sort((a, b) => a.span.start - b.span.start)) {
    const last = all.at(-1);
    const between = last ? text.slice(last.span.end, edit.span.start) : "";
    const isSame = edit.note && last?.note?.label === edit.note.label && !between.includes("\n");
    if (!last || !isSame) all.push(edit);
    else {
      const span = { start: last.span.start, end: edit.span.end };
      all.splice(-1, 1, { ...edit, span, newText: last.newText + between + edit.newText });
    }
  }
  return all;
}

/**
 * Edits that need to be confirmed are shown first, but then none of those that need it is ticked. So one that changes
 * nothing needs it, and the others are ticked, to be left out one by one.
 */
function lookFirst(): { label: string; needsConfirmation: true } {
  return { label: say`Untick what is to stay as it is`, needsConfirmation: true };
}

function nothingAt(offset: number, lines: Snapshot["lines"]): AnnotatedTextEdit {
  return {
    range: rangeOf({ start: offset, end: offset }, lines),
    newText: "",
    annotationId: lookFirst().label,
  };
}

function notesOf(edits: readonly NotedEdit[]): Map<string, ChangeAnnotation> {
  return new Map(
    edits.flatMap(({ note }) => (note ? [[note.label, { ...note, needsConfirmation: false }] as const] : [])),
  );
}
