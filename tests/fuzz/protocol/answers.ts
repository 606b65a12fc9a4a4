import type {
  CodeAction,
  CodeLens,
  ColorInformation,
  ColorPresentation,
  Command,
  CompletionItem,
  CompletionList,
  ConfigurationParams,
  DocumentDiagnosticReport,
  DocumentHighlight,
  DocumentLink,
  DocumentSymbol,
  FoldingRange,
  Hover,
  InitializeResult,
  InlayHint,
  InlineCompletionItem,
  InlineCompletionList,
  Location,
  LocationLink,
  LogMessageParams,
  PrepareRenameResult,
  PublishDiagnosticsParams,
  RegistrationParams,
  SelectionRange,
  SemanticTokens,
  SemanticTokensDelta,
  SignatureHelp,
  SymbolInformation,
  TextEdit,
  WorkspaceDiagnosticReport,
  WorkspaceEdit,
  WorkspaceSymbol,
} from "vscode-languageserver-protocol";

/**
 * What a server may answer, and what it may send of itself, by the method, as version 3.18 of the Language Server
 * Protocol has it. The types are those that the protocol's meta model is made from; `write-schema.mjs` makes
 * `schema.json` of them.
 */
export interface Answers {
  initialize: InitializeResult;
  "textDocument/diagnostic": DocumentDiagnosticReport;
  "workspace/diagnostic": WorkspaceDiagnosticReport;
  "textDocument/hover": Hover | null;
  "textDocument/completion": CompletionItem[] | CompletionList | null;
  "completionItem/resolve": CompletionItem;
  "textDocument/signatureHelp": SignatureHelp | null;
  "textDocument/inlineCompletion": InlineCompletionList | InlineCompletionItem[] | null;
  "textDocument/definition": Location | Location[] | LocationLink[] | null;
  "textDocument/references": Location[] | null;
  "textDocument/documentHighlight": DocumentHighlight[] | null;
  "textDocument/documentLink": DocumentLink[] | null;
  "textDocument/prepareRename": PrepareRenameResult | null;
  "textDocument/rename": WorkspaceEdit | null;
  "textDocument/documentSymbol": DocumentSymbol[] | SymbolInformation[] | null;
  "workspace/symbol": WorkspaceSymbol[] | SymbolInformation[] | null;
  "textDocument/foldingRange": FoldingRange[] | null;
  "textDocument/selectionRange": SelectionRange[] | null;
  "textDocument/documentColor": ColorInformation[];
  "textDocument/colorPresentation": ColorPresentation[];
  "textDocument/semanticTokens/full": SemanticTokens | null;
  "textDocument/semanticTokens/full/delta": SemanticTokens | SemanticTokensDelta | null;
  "textDocument/semanticTokens/range": SemanticTokens | null;
  "textDocument/codeLens": CodeLens[] | null;
  "textDocument/inlayHint": InlayHint[] | null;
  "textDocument/formatting": TextEdit[] | null;
  "textDocument/rangeFormatting": TextEdit[] | null;
  "textDocument/onTypeFormatting": TextEdit[] | null;
  "textDocument/codeAction": (Command | CodeAction)[] | null;
  "codeAction/resolve": CodeAction;
  "textDocument/publishDiagnostics": PublishDiagnosticsParams;
  "window/logMessage": LogMessageParams;
  "workspace/configuration": ConfigurationParams;
  "client/registerCapability": RegistrationParams;
}
