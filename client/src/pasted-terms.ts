import {
  type Disposable,
  l10n,
  Range,
  type TextDocument,
  type TextDocumentChangeEvent,
  window,
  workspace,
} from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { tell } from "./tell";
import { turnTerms } from "./turn-terms";

interface PastedTerms {
  readonly pattern: "US" | "UK";
  readonly pasted: "US" | "UK";
}

/** Notices that rows in the other terms were pasted, and offers to turn them. */
export function noticePastedTerms(client: BaseLanguageClient): Disposable {
  return workspace.onDidChangeTextDocument(async (change) => {
    const range = pastedIn(change);
    if (!range || change.document !== window.activeTextEditor?.document) return;
    const { version } = change.document;
    const terms = await ask(client, change.document, range).catch(() => null);
    if (terms) await offer(client, terms, { document: change.document, version, range });
  });
}

/** Several lines, or a long one, that came at once; what was taken back came before. */
function pastedIn({ document, contentChanges, reason }: TextDocumentChangeEvent): Range | null {
  const [only, ...others] = contentChanges;
  if (document.languageId !== "crochet" || !only || others.length > 0 || reason !== undefined) return null;
  const isWhole = only.rangeOffset === 0 && only.text.length === document.getText().length;
  if (only.text.trim().length < shortest || isWhole) return null;
  return new Range(only.range.start, document.positionAt(only.rangeOffset + only.text.length));
}

/** Characters; nobody types as many at once, and completions are shorter. */
const shortest = 40;

function ask(client: BaseLanguageClient, document: TextDocument, range: Range): Promise<PastedTerms | null> {
  const { code2ProtocolConverter: to } = client;
  const textDocument = to.asTextDocumentIdentifier(document);
  return client.sendRequest("loopledger/pastedTerms", { textDocument, range: to.asRange(range) });
}

/** Where it is, as long as the pattern is as it was. */
interface Pasted {
  readonly document: TextDocument;
  readonly version: number;
  readonly range: Range;
}

async function offer(
  client: BaseLanguageClient,
  { pattern, pasted }: PastedTerms,
  { document, version, range }: Pasted,
): Promise<void> {
  const turn = l10n.t("Turn it into {0} terms", pattern);
  const told = l10n.t("What you pasted is in {0} terms, and the pattern is in {1} terms.", pasted, pattern);
  if ((await window.showInformationMessage(told, turn)) !== turn) return;
  const editor = await window.showTextDocument(document);
  // Typed over meanwhile: then the selection is the designer's to make.
  if (document.version !== version)
    return tell(
      l10n.t(
        "The pattern was changed meanwhile, so nothing was turned. Select what you pasted and run “Turn into {0} terms”.",
        pattern,
      ),
    );
  await turnTerms(client, pattern, { editor, range });
}
