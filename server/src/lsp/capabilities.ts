import {
  type ClientCapabilities,
  CodeActionKind,
  MarkupKind,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from "vscode-languageserver";
import type { ActionKind } from "../features/actions/all-actions";
import { openingMarks } from "../features/completion/completion";
import { helpMarks } from "../features/repeat-help/repeat-help";
import { tokenTypes } from "../features/semantic-tokens";
import type { Host } from "./context";
import { type Encoding, encodingFor } from "./encodings";

/** The protocol's names for the kinds of actions. */
export const KIND: Readonly<Record<ActionKind, string>> = {
  mend: CodeActionKind.QuickFix,
  rewrite: CodeActionKind.RefactorRewrite,
  "mend-safely": `${CodeActionKind.SourceFixAll}.loopledger`,
};

const actionKinds = Object.values(KIND);

/** What the client can do, as far as this server asks. */
export interface ClientAbilities {
  readonly encoding: Encoding;
  readonly pullsDiagnostics: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly showsRelatedPlaces: boolean;
  readonly showsMarkdown: boolean;
  /** Markdown beside what could be written. */
  readonly showsMarkdownItems: boolean;
  /** Markdown beside a repeat that is being written. */
  readonly showsMarkdownSignatures: boolean;
  /** Shows what could be written next before it is asked for. */
  readonly showsInlineCompletions: boolean;
  readonly refreshesHints: boolean;
  readonly takesVersions: boolean;
  readonly answersConfiguration: boolean;
  readonly registersForSettings: boolean;
  /** Shows changes that are offered, not only commands. */
  readonly takesActions: boolean;
  /** Asks for the edits of a change when it was chosen. */
  readonly resolvesActions: boolean;
  /** Takes edits that are good for one version of a text only. */
  readonly takesVersionedEdits: boolean;
  /** Shows what an edit is for, and lets it be left out. */
  readonly showsNotes: boolean;
  /** Asks what is to be renamed before it asks for the new name. */
  readonly preparesRenames: boolean;
  readonly hasFolders: boolean;
  /** Tells of files that come, go and are written, where it is asked to. */
  readonly watchesFiles: boolean;
  /** Reads patterns for us: in a browser, and in folders that are not on this computer. */
  readonly readsFiles: boolean;
}

export function clientAbilities({
  general,
  textDocument,
  workspace,
  experimental,
}: ClientCapabilities): ClientAbilities {
  const pull = textDocument?.diagnostic;
  const push = textDocument?.publishDiagnostics;
  const action = textDocument?.codeAction;
  return {
    encoding: encodingFor(general?.positionEncodings),
    pullsDiagnostics: pull !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    showsRelatedPlaces: (pull?.relatedInformation ?? push?.relatedInformation) === true,
    showsMarkdown: textDocument?.hover?.contentFormat?.includes(MarkupKind.Markdown) === true,
    showsMarkdownItems:
      textDocument?.completion?.completionItem?.documentationFormat?.includes(MarkupKind.Markdown) === true,
    showsMarkdownSignatures:
      textDocument?.signatureHelp?.signatureInformation?.documentationFormat?.includes(
        MarkupKind.Markdown,
      ) === true,
    showsInlineCompletions: textDocument?.inlineCompletion !== undefined,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    takesVersions: push?.versionSupport === true,
    answersConfiguration: workspace?.configuration === true,
    registersForSettings: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    takesActions: action?.codeActionLiteralSupport !== undefined,
    resolvesActions:
      action?.dataSupport === true && action.resolveSupport?.properties.includes("edit") === true,
    takesVersionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    showsNotes: workspace?.workspaceEdit?.changeAnnotationSupport !== undefined,
    preparesRenames: textDocument?.rename?.prepareSupport === true,
    hasFolders: workspace?.workspaceFolders === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    readsFiles: (experimental as { readonly readsPatterns?: unknown } | undefined)?.readsPatterns === true,
  };
}

export function serverCapabilities(client: ClientAbilities, host: Pick<Host, "files">): ServerCapabilities {
  const always: ServerCapabilities = {
    positionEncoding: client.encoding.kind,
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: true },
    hoverProvider: true,
    completionProvider: { triggerCharacters: [...openingMarks], resolveProvider: true },
    signatureHelpProvider: { triggerCharacters: [...helpMarks] },
    ...(client.showsInlineCompletions ? { inlineCompletionProvider: true } : {}),
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: client.preparesRenames ? { prepareProvider: true } : true,
    documentSymbolProvider: true,
    workspaceSymbolProvider: true,
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    colorProvider: true,
    documentLinkProvider: {},
    semanticTokensProvider: {
      legend: { tokenTypes: [...tokenTypes], tokenModifiers: [] },
      full: { delta: true },
      range: true,
    },
    codeLensProvider: {},
    inlayHintProvider: true,
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: "\n" },
  };
  return { ...always, ...foldersOffer(client), ...diagnosticsOffer(client, host), ...actionsOffer(client) };
}

function foldersOffer({ hasFolders }: ClientAbilities): ServerCapabilities {
  return hasFolders
    ? { workspace: { workspaceFolders: { supported: true, changeNotifications: true } } }
    : {};
}

function diagnosticsOffer(
  { pullsDiagnostics, readsFiles }: ClientAbilities,
  { files }: Pick<Host, "files">,
): ServerCapabilities {
  if (!pullsDiagnostics) return {};
  const diagnosticProvider = {
    identifier: "loopledger",
    interFileDependencies: false,
    workspaceDiagnostics: files !== undefined || readsFiles,
  };
  return { diagnosticProvider };
}

function actionsOffer({ takesActions, resolvesActions }: ClientAbilities): ServerCapabilities {
  if (!takesActions) return {};
  return { codeActionProvider: { codeActionKinds: actionKinds, resolveProvider: resolvesActions } };
}
