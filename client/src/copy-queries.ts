import { env, l10n, window } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { tell } from "./tell";

/** Puts the queries of the pattern in front on the clipboard as a numbered list, and tells so. */
export async function copyQueries(client: BaseLanguageClient): Promise<void> {
  const document = window.activeTextEditor?.document;
  if (document?.languageId !== "crochet")
    return tell(l10n.t("Open the pattern whose queries you want, and try again."));
  const textDocument = client.code2ProtocolConverter.asTextDocumentIdentifier(document);
  const queries = await client.sendRequest<readonly string[]>("loopledger/queries", { textDocument });
  if (queries.length === 0)
    return tell(l10n.t("There are no queries in this pattern, so nothing was copied."));
  await env.clipboard.writeText(`${queries.join("\n")}\n`);
  tell(
    queries.length === 1
      ? l10n.t("One query is copied.")
      : l10n.t("{0} queries are copied, as a numbered list.", queries.length),
  );
}
