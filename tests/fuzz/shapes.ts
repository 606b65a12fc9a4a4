import {
  CodeAction,
  CodeLens,
  ColorInformation,
  ColorPresentation,
  Diagnostic,
  DocumentLink,
  FoldingRange,
  Hover,
  InlayHint,
  Location,
  MarkupContent,
  Range,
  SelectionRange,
  SemanticTokens,
  TextEdit,
  WorkspaceEdit,
} from "vscode-languageserver-protocol/node";

/**
 * Whether answers are what the Language Server Protocol asks for in words, beside their form (`protocol/valid.ts`):
 * names that are not blank, ranges that lie in one another; and the form of answers to our own client's requests.
 */
export type Shape = (answer: unknown) => boolean;

export function list(of: Shape): Shape {
  return (answer) => Array.isArray(answer) && answer.every(of);
}

export function orNull(of: Shape): Shape {
  return (answer) => answer === null || of(answer);
}

/** An object whose named parts have the given forms; others may be there too. */
export function record(parts: Readonly<Record<string, Shape>>): Shape {
  return (answer) =>
    isRecord(answer) && Object.entries(parts).every(([name, shape]) => shape(answer[name] ?? null));
}

export function isRecord(answer: unknown): answer is Record<string, unknown> {
  return typeof answer === "object" && answer !== null && !Array.isArray(answer);
}

export const text: Shape = (answer) => typeof answer === "string";
const name: Shape = (answer) => typeof answer === "string" && answer !== "";
const flag: Shape = (answer) => typeof answer === "boolean";
const count: Shape = (answer) => Number.isInteger(answer) && (answer as number) >= 0;
const kind: Shape = (answer) => count(answer) && answer !== 0;
const nothing: Shape = (answer) => answer === null;

const anyOf =
  (...shapes: readonly Shape[]): Shape =>
  (answer) =>
    shapes.some((shape) => shape(answer));

const tokens: Shape = (answer) =>
  SemanticTokens.is(answer) && answer.data.length % 5 === 0 && answer.data.every(count);
const tokensEdit = record({ start: count, deleteCount: count, data: orNull(list(count)) });

const completionItem = record({
  label: name,
  kind: orNull(kind),
  documentation: orNull(anyOf(text, MarkupContent.is)),
  textEdit: orNull(TextEdit.is),
  additionalTextEdits: orNull(list(TextEdit.is)),
});

/** What is marked of a signature is in its label. */
function signature(answer: unknown): boolean {
  if (!isRecord(answer) || !name(answer.label)) return false;
  const length = (answer.label as string).length;
  const inside = (end: unknown) => count(end) && (end as number) <= length;
  return list(record({ label: list(inside) }))(answer.parameters ?? []);
}

/** Its edits may come when it was chosen. */
const codeAction = record({ title: name, kind: name, diagnostics: orNull(list(Diagnostic.is)) });

/** Names are not blank, and the part that is marked lies in the whole. */
function documentSymbol(answer: unknown): boolean {
  const parts = record({ name, kind, range: Range.is, selectionRange: Range.is });
  if (!isRecord(answer) || !parts(answer)) return false;
  const [outer, inner] = [answer.range as Range, answer.selectionRange as Range];
  return contains(outer, inner) && list(documentSymbol)(answer.children ?? []);
}

/** Each selection lies in the next wider one. */
function selectionRange(answer: unknown): boolean {
  if (!SelectionRange.is(answer)) return false;
  return !answer.parent || (contains(answer.parent.range, answer.range) && selectionRange(answer.parent));
}

function contains(outer: Range, inner: Range): boolean {
  return !isBefore(inner.start, outer.start) && !isBefore(outer.end, inner.end);
}

function isBefore(a: Range["start"], b: Range["start"]): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}

const diagnostics = record({
  kind: (answer) => answer === "full" || answer === "unchanged",
  items: orNull(list((item) => Diagnostic.is(item) && item.message !== "")),
});

const withNotes = orNull(
  record({ fits: flag, says: text, notes: list(text), edit: orNull(WorkspaceEdit.is) }),
);

/** The form of every answer, by the request. */
export const shapes = {
  "textDocument/diagnostic": diagnostics,
  "workspace/diagnostic": record({ items: list(record({ uri: name })) }),
  "textDocument/hover": orNull(Hover.is),
  "textDocument/completion": orNull(anyOf(list(completionItem), record({ items: list(completionItem) }))),
  "completionItem/resolve": completionItem,
  "textDocument/signatureHelp": orNull(record({ signatures: list(signature) })),
  "textDocument/inlineCompletion": list(record({ insertText: name, range: Range.is })),
  "textDocument/definition": list(Location.is),
  "textDocument/references": list(Location.is),
  "textDocument/documentHighlight": list(record({ range: Range.is })),
  "textDocument/prepareRename": orNull(record({ range: Range.is, placeholder: text })),
  "textDocument/rename": orNull(WorkspaceEdit.is),
  "textDocument/documentSymbol": list(documentSymbol),
  "workspace/symbol": list(record({ name, kind, location: record({ uri: name }) })),
  "textDocument/foldingRange": list(FoldingRange.is),
  "textDocument/selectionRange": list(selectionRange),
  "textDocument/documentColor": list(ColorInformation.is),
  "textDocument/documentLink": list(DocumentLink.is),
  "textDocument/colorPresentation": list(ColorPresentation.is),
  "textDocument/semanticTokens/full": tokens,
  "textDocument/semanticTokens/full/delta": anyOf(tokens, record({ edits: list(tokensEdit) })),
  "textDocument/semanticTokens/range": tokens,
  "textDocument/codeLens": list(CodeLens.is),
  "textDocument/inlayHint": list(InlayHint.is),
  "textDocument/formatting": orNull(list(TextEdit.is)),
  "textDocument/rangeFormatting": orNull(list(TextEdit.is)),
  "textDocument/onTypeFormatting": orNull(list(TextEdit.is)),
  "textDocument/codeAction": list(codeAction),
  "codeAction/resolve": (answer) => CodeAction.is(answer) && answer.edit !== undefined,
  "loopledger/rowStatus": orNull(record({ text: name })),
  "loopledger/rowProof": orNull(isRecord),
  "loopledger/rowInWords": orNull(isRecord),
  "loopledger/rewriteRow": orNull(record({ fits: flag, says: text, edit: orNull(WorkspaceEdit.is) })),
  "loopledger/resizePiece": withNotes,
  "loopledger/gradingSheet": orNull(text),
  "loopledger/applyGradingSheet": withNotes,
  "loopledger/addSize": withNotes,
  "loopledger/materials": orNull(text),
  "loopledger/publishingPage": orNull(text),
  "loopledger/queries": list(text),
  "loopledger/turnTerms": record({ edits: orNull(list(TextEdit.is)), left: list(text) }),
  "loopledger/languageDraft": record({
    languages: list(record({ code: name, name })),
    draft: orNull(record({ text, left: list(text) })),
  }),
  "loopledger/pastedTerms": orNull(record({ pattern: name, pasted: name })),
  "loopledger/richText": orNull(text),
  "loopledger/wake": list(record({ key: name, range: Range.is, says: name })),
  "loopledger/acceptWake": nothing,
  "loopledger/mendWake": orNull(WorkspaceEdit.is),
} satisfies Record<string, Shape>;

export type Method = keyof typeof shapes;
