import { env, l10n, ViewColumn, type Webview, window } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { tell } from "./tell";

/**
 * Shows the pattern in front as a word processor takes it, with a button that copies it: only a page can put
 * more than plain text on the clipboard, and only when somebody presses something in it.
 */
export async function copyRichText(client: BaseLanguageClient): Promise<void> {
  const document = window.activeTextEditor?.document;
  if (document?.languageId !== "crochet") return tell(l10n.t("Open the pattern to copy, and try again."));
  const textDocument = client.code2ProtocolConverter.asTextDocumentIdentifier(document);
  const text = await client.sendRequest<string | null>("loopledger/richText", { textDocument });
  if (text === null) return tell(l10n.t("Nothing was copied. Try again."));
  const panel = window.createWebviewPanel(
    "loopledger.richText",
    l10n.t("For a word processor"),
    ViewColumn.Beside,
    { enableScripts: true },
  );
  panel.webview.onDidReceiveMessage((message: { readonly copied: boolean }) => {
    tell(
      message.copied
        ? l10n.t("The pattern is copied. Paste it into your word processor.")
        : l10n.t(
            "Nothing was copied. Select what the page shows, and copy it with Ctrl+C (on a Mac, Cmd+C).",
          ),
    );
  });
  panel.webview.html = page(text, panel.webview);
}

/** Black on white, as on paper, whatever the theme. */
const style = `body { color: #000; background: #fff; font: 12pt/1.5 sans-serif; padding: 1em 2em; }
h1, h2, p { margin: 0 0 .5em; }
button { font: inherit; padding: .4em 1em; margin-bottom: 1em; color: #fff; background: #14384f; border: 1px solid #14384f; }
button:focus-visible { outline: 3px solid #000; outline-offset: 2px; }`;

/** Takes the text as it is shown, and tells whether it was copied. */
const script = `const host = acquireVsCodeApi();
function copy() {
  const range = document.createRange();
  range.selectNodeContents(document.querySelector("main"));
  const selection = getSelection();
  selection.removeAllRanges();
  selection.addRange(range);
  host.postMessage({ copied: document.execCommand("copy") });
}
document.querySelector("button").addEventListener("click", copy);
document.querySelector("button").focus();`;

function page(text: string, { cspSource }: Webview): string {
  const nonce = crypto.randomUUID();
  const policy = `default-src 'none'; style-src 'nonce-${nonce}' ${cspSource}; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="${env.language}">
<head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="${policy}">
<title>${l10n.t("For a word processor")}</title><style nonce="${nonce}">${style}</style></head>
<body><button type="button">${l10n.t("Copy")}</button><main lang="en">
${text}
</main><script nonce="${nonce}">${script}</script></body></html>`;
}
