import { FileSystemError, l10n } from "vscode";

/** Why a file could not be read, and what to do, in a maker's words. */
export function whyNotRead(fault: unknown): string {
  // JSON.parse throws the first, a strict TextDecoder the second.
  if (fault instanceof SyntaxError)
    return l10n.t("A comma, quotation mark or bracket is missing or too many. Mend it and save.");
  if (fault instanceof TypeError) return l10n.t("It is not saved as UTF-8. Open it, and save it as UTF-8.");
  const code = fault instanceof FileSystemError ? fault.code : "";
  if (code === "FileNotFound")
    return l10n.t("There is no file of this name. Check the spelling and the folder it is in.");
  if (code === "FileIsADirectory") return l10n.t("It is a folder. Give it another name, or move it.");
  if (code === "NoPermissions")
    return l10n.t(
      "You are not allowed to read it. Change its permissions, or copy it to a folder of your own.",
    );
  return l10n.t("Open it to see whether it is all right, and save it again.");
}
