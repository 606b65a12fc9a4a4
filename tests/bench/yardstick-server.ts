import { getCSSLanguageService } from "vscode-css-languageservice";
import { getLanguageService } from "vscode-json-languageservice";
import {
  createConnection,
  type Diagnostic,
  DocumentDiagnosticReportKind,
  ProposedFeatures,
  TextDocumentSyncKind,
  TextDocuments,
} from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";

type Check = (document: TextDocument) => Diagnostic[] | PromiseLike<Diagnostic[]>;

const css = getCSSLanguageService();
const json = getLanguageService({});

/** The services of VS Code behind the same plain server; `empty` has nothing to say. */
const checks: Readonly<Record<string, Check>> = {
  css: (document) => css.doValidation(document, css.parseStylesheet(document)),
  json: (document) => json.doValidation(document, json.parseJSONDocument(document)),
  empty: () => [],
};

const check = checks[process.argv[2] ?? ""] ?? (() => []);
const connection = createConnection(ProposedFeatures.all);
const documents = new TextDocuments(TextDocument);
connection.onInitialize(() => ({
  capabilities: {
    textDocumentSync: TextDocumentSyncKind.Incremental,
    diagnosticProvider: { interFileDependencies: false, workspaceDiagnostics: false },
  },
}));
connection.languages.diagnostics.on(async ({ textDocument }) => {
  const document = documents.get(textDocument.uri);
  return { kind: DocumentDiagnosticReportKind.Full, items: document ? await check(document) : [] };
});
documents.listen(connection);
connection.listen();
