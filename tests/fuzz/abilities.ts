import type { ClientCapabilities } from "vscode-languageserver-protocol/node";
import { PULL_AND_MARKDOWN } from "../protocol/client";

/** As VS Code has them. */
export const ABILITIES: ClientCapabilities = {
  textDocument: {
    ...PULL_AND_MARKDOWN.textDocument,
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: [] } },
      dataSupport: true,
      resolveSupport: { properties: ["edit"] },
    },
    completion: { completionItem: { documentationFormat: ["markdown"] } },
    signatureHelp: { signatureInformation: { documentationFormat: ["markdown"] } },
    inlineCompletion: {},
    rename: { prepareSupport: true },
  },
  workspace: {
    ...PULL_AND_MARKDOWN.workspace,
    workspaceEdit: { documentChanges: true, changeAnnotationSupport: {} },
  },
};
