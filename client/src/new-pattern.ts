import { type QuickPickItem, window, workspace } from "vscode";
import blanket from "../templates/blanket.crochet";
import coaster from "../templates/coaster.crochet";
import pouch from "../templates/pouch.crochet";
import toy from "../templates/toy.crochet";

interface Template extends QuickPickItem {
  readonly content: string;
}

const templates: readonly Template[] = [
  { label: "Pouch", detail: "In rounds, with eyelets and a cord", content: pouch },
  { label: "Coaster", detail: "A flat circle: the first pattern to try", content: coaster },
  { label: "Blanket", detail: "In rows, two colours", content: blanket },
  { label: "Toy", detail: "A stuffed body and two small pieces to sew on", content: toy },
  {
    label: "Empty pattern",
    detail: "Nothing but the line that tells the terms",
    content: "\nTerms: US\n\nRnd 1: ",
  },
];

/** Opens a new pattern, not saved yet, that begins as one of the templates. */
export async function newPattern(): Promise<void> {
  const chosen = await window.showQuickPick(templates, {
    title: "New crochet pattern",
    placeHolder: "What is it going to be?",
  });
  if (!chosen) return;
  const document = await workspace.openTextDocument({ language: "crochet", content: chosen.content });
  await window.showTextDocument(document);
}
