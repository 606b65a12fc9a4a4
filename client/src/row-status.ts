import {
  CancellationTokenSource,
  Disposable,
  l10n,
  StatusBarAlignment,
  type StatusBarItem,
  type TextEditor,
  window,
  workspace,
} from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";

/** What the server answers of the row at the caret. */
interface RowStatus {
  readonly text: string;
  readonly details: string;
}

/** Shows the row at the caret in the status bar, as long as a pattern is in front. */
export function showRowStatus(client: BaseLanguageClient): Disposable {
  const status = new RowStatusItem(client);
  return Disposable.from(
    status,
    window.onDidChangeActiveTextEditor(() => status.update()),
    window.onDidChangeTextEditorSelection(() => status.update()),
    workspace.onDidChangeTextDocument(() => status.update()),
  );
}

class RowStatusItem implements Disposable {
  private readonly item: StatusBarItem;
  private asked = new CancellationTokenSource();

  constructor(private readonly client: BaseLanguageClient) {
    this.item = window.createStatusBarItem("loopledger.row", StatusBarAlignment.Left);
    this.item.name = l10n.t("Loopledger: row at the caret");
    this.update();
  }

  /** Asks anew; what was asked before is cancelled, so that the last caret wins. */
  update(): void {
    this.asked.cancel();
    this.asked.dispose();
    this.asked = new CancellationTokenSource();
    const editor = window.activeTextEditor;
    if (editor?.document.languageId === "crochet") void this.ask(editor, this.asked);
    else this.item.hide();
  }

  dispose(): void {
    this.asked.dispose();
    this.item.dispose();
  }

  private async ask({ document, selection }: TextEditor, { token }: CancellationTokenSource): Promise<void> {
    const caret = this.client.code2ProtocolConverter.asTextDocumentPositionParams(document, selection.active);
    // A request that is cancelled, or that a stopped server cannot answer, shows nothing new.
    const status = await this.client
      .sendRequest<RowStatus | null>("loopledger/rowStatus", caret, token)
      .catch(() => null);
    if (!token.isCancellationRequested) this.show(status);
  }

  private show(status: RowStatus | null): void {
    if (!status) return this.item.hide();
    this.item.text = status.text;
    this.item.tooltip = status.details;
    this.item.show();
  }
}
