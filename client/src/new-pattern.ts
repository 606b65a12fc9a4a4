import { l10n, type QuickPickItem, window, workspace } from "vscode";
import blanket from "../templates/blanket.crochet";
import coaster from "../templates/coaster.crochet";
import pouch from "../templates/pouch.crochet";
import toy from "../templates/toy.crochet";

interface Template extends QuickPickItem {
  readonly content: string;
}

/** Asked for when they are shown: only then the language is known. */
const templates = (): readonly Template[] => [
  { label: l10n.t("Pouch"), detail: l10n.t("In rounds, with eyelets and a cord"), content: pouch },
  { label: l10n.t("Coaster"), detail: l10n.t("A flat circle: the first pattern to try"), content: coaster },
  { label: l10n.t("Blanket"), detail: l10n.t("In rows, two colours"), content: blanket },
  { label: l10n.t("Toy"), detail: l10n.t("A stuffed body and two small pieces to sew on"), content: toy },
  {
    label: l10n.t("Empty pattern"),
    detail: l10n.t("Nothing but the line that tells the terms"),
    content: "\nTerms: US\n\nRnd 1: ",
  },
];

/** Opens a new pattern, not saved yet, that begins as one of the templates. */
export async function newPattern(): Promise<void> {
  const chosen = await window.showQuickPick(templates(), {
    title: l10n.t("New crochet pattern"),
    placeHolder: l10n.t("What is it going to be?"),
  });
  if (!chosen) return;
  const document = await workspace.openTextDocument({ language: "crochet", content: chosen.content });
  await window.showTextDocument(document);
}
