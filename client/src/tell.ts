import { InputBoxValidationSeverity, window } from "vscode";

/** Says something in passing, without waiting for it to be closed. */
export function tell(message: string): void {
  void window.showInformationMessage(message);
}

/** What an answer says of what was typed so far. */
interface Told {
  readonly fits: boolean;
  readonly says: string;
}

/** The same below the box it is typed in; nothing where nothing is said. */
export function toldBelow(reply: Told | null | undefined) {
  if (!reply || reply.says === "") return undefined;
  const severity = reply.fits ? InputBoxValidationSeverity.Info : InputBoxValidationSeverity.Error;
  return { message: reply.says, severity };
}
