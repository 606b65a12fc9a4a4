import { l10n, type QuickPickItem, window, workspace } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { tell } from "./tell";

interface Language {
  readonly code: string;
  readonly name: string;
  readonly itself: string;
}

/** What the server answers; `draft` is null where none was asked for or the pattern is in another language already. */
interface Answer {
  readonly languages: readonly Language[];
  readonly draft: { readonly text: string; readonly left: readonly string[] } | null;
}

type Item = QuickPickItem & Pick<Language, "code">;

/** Opens a draft of the pattern in front in a language that is asked for; the pattern stays as it is. */
export async function draftInLanguage(client: BaseLanguageClient): Promise<void> {
  const document = window.activeTextEditor?.document;
  if (document?.languageId !== "crochet")
    return tell(l10n.t("Open the pattern that you want a draft of, and try again."));
  const textDocument = client.code2ProtocolConverter.asTextDocumentIdentifier(document);
  const ask = (language?: string) =>
    client.sendRequest<Answer>("loopledger/languageDraft", {
      textDocument,
      ...(language ? { language } : {}),
    });
  const chosen = await window.showQuickPick(itemsFor((await ask()).languages), {
    title: l10n.t("Draft in another language"),
    placeHolder: l10n.t("A maker whose language it is has to go over it."),
  });
  if (!chosen) return;
  const { draft } = await ask(chosen.code);
  if (!draft)
    return tell(l10n.t("The pattern is in another language already; drafts are made from English ones."));
  await window.showTextDocument(
    await workspace.openTextDocument({ content: draft.text, language: "crochet" }),
  );
  await showLeft(draft.left);
}

function itemsFor(languages: readonly Language[]): Item[] {
  return languages.map(({ code, name, itself }) => ({ label: name, description: itself, code }));
}

async function showLeft(left: readonly string[]): Promise<void> {
  if (left.length === 0) return;
  const show = l10n.t("Show them");
  const told = l10n.t("{0} words or sentences stayed in English.", left.length);
  if ((await window.showInformationMessage(told, show)) !== show) return;
  const content = `${l10n.t("Left in English:")}\n\n${left.map((line) => `- ${line}`).join("\n")}\n`;
  await window.showTextDocument(await workspace.openTextDocument({ content, language: "markdown" }));
}
