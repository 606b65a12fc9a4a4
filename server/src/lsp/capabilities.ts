import {
  type ClientCapabilities,
  MarkupKind,
  PositionEncodingKind,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from "vscode-languageserver";

/** What the client can do, as far as this server asks. */
export interface ClientAbilities {
  readonly pullsDiagnostics: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly showsRelatedPlaces: boolean;
  readonly showsMarkdown: boolean;
  readonly takesVersions: boolean;
  readonly answersConfiguration: boolean;
  readonly registersForSettings: boolean;
}

export function clientAbilities({ textDocument, workspace }: ClientCapabilities): ClientAbilities {
  const pull = textDocument?.diagnostic;
  const push = textDocument?.publishDiagnostics;
  return {
    pullsDiagnostics: pull !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    showsRelatedPlaces: (pull?.relatedInformation ?? push?.relatedInformation) === true,
    showsMarkdown: textDocument?.hover?.contentFormat?.includes(MarkupKind.Markdown) === true,
    takesVersions: push?.versionSupport === true,
    answersConfiguration: workspace?.configuration === true,
    registersForSettings: workspace?.didChangeConfiguration?.dynamicRegistration === true,
  };
}

export function serverCapabilities(client: ClientAbilities): ServerCapabilities {
  const always: ServerCapabilities = {
    positionEncoding: PositionEncodingKind.UTF16,
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: true },
    hoverProvider: true,
    codeLensProvider: {},
  };
  if (!client.pullsDiagnostics) return always;
  const diagnosticProvider = {
    identifier: "loopledger",
    interFileDependencies: false,
    workspaceDiagnostics: false,
  };
  return { ...always, diagnosticProvider };
}
