import { commands, type ExtensionContext } from "vscode";
import {
  type BaseLanguageClient,
  type LanguageClientOptions,
  RevealOutputChannelOn,
} from "vscode-languageclient";
import { checkBeforePublishing } from "./check-before-publishing";
import { copyProof } from "./copy-proof";
import { copyQueries } from "./copy-queries";
import { copyRichText } from "./copy-rich-text";
import { draftInLanguage } from "./draft-in-language";
import { readFolders, readsPatterns } from "./folder-files";
import { addSize, showGradingSheet, writeGradingSheetBack } from "./grading-sheet";
import { showMaterials } from "./materials-view";
import { newPattern } from "./new-pattern";
import { noticePastedTerms } from "./pasted-terms";
import { restartQuietly } from "./quiet-restart";
import { readRow } from "./read-row";
import { resizePiece } from "./resize-piece";
import { rewriteRow } from "./rewrite-row";
import { showRowStatus } from "./row-status";
import { followStyleFile, withStyleFile } from "./style-file";
import { turnTerms } from "./turn-terms";
import { showWake } from "./wake-view";

// The id is also the name of the settings: `loopledger.trace.server` is read by the client library.
export const id = "loopledger";
export const name = "Loopledger";

export const options: LanguageClientOptions = {
  // Any place a pattern can live: on disk, untitled, or in a virtual folder.
  documentSelector: [{ language: "crochet" }],
  outputChannelName: name,
  // Whoever writes a pattern is not to be disturbed by a log that opens by itself.
  revealOutputChannelOn: RevealOutputChannelOn.Never,
  middleware: { workspace: withStyleFile },
};

let client: BaseLanguageClient | undefined;

/** Starts the server and returns at once: the editor does not wait for it. The same wherever the server runs. */
export function startWith(started: BaseLanguageClient, { subscriptions }: ExtensionContext): void {
  client = started;
  client.registerFeature(readsPatterns);
  subscriptions.push(...readFolders(client));
  client.clientOptions.errorHandler = restartQuietly(client);
  // The library itself tells the user why a server did not start.
  client.start().catch(() => undefined);
  subscriptions.push(
    commands.registerCommand("loopledger.newPattern", newPattern),
    commands.registerCommand("loopledger.copyProof", () => copyProof(started)),
    commands.registerCommand("loopledger.readRow", () => readRow(started)),
    commands.registerCommand("loopledger.copyQueries", () => copyQueries(started)),
    commands.registerCommand("loopledger.rewriteRow", () => rewriteRow(started)),
    commands.registerCommand("loopledger.resizePiece", () => resizePiece(started)),
    commands.registerCommand("loopledger.gradingSheet", () => showGradingSheet(started)),
    commands.registerCommand("loopledger.writeGradingSheetBack", () => writeGradingSheetBack(started)),
    commands.registerCommand("loopledger.addSize", () => addSize(started)),
    commands.registerCommand("loopledger.checkBeforePublishing", () => checkBeforePublishing(started)),
    commands.registerCommand("loopledger.turnIntoUk", () => turnTerms(started, "UK")),
    commands.registerCommand("loopledger.turnIntoUs", () => turnTerms(started, "US")),
    commands.registerCommand("loopledger.draftInLanguage", () => draftInLanguage(started)),
    commands.registerCommand("loopledger.copyRichText", () => copyRichText(started)),
    showMaterials(started),
    showRowStatus(started),
    showWake(started),
    followStyleFile(started),
    noticePastedTerms(started),
  );
}

/** Stops the server before the extension is unloaded. One that is still starting ends with its editor. */
export async function stop(): Promise<void> {
  if (client?.isRunning()) await client.stop();
}
