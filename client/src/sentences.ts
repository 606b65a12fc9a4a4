import { Uri, workspace } from "vscode";

/** What the server says in the language that is shown: a worker cannot read files. Nothing for English, or where there is none. */
export async function sentencesOf(locale: string, extension: Uri): Promise<object | undefined> {
  const [language] = locale.toLowerCase().split("-");
  if (language === "en") return undefined;
  const file = Uri.joinPath(extension, `dist/l10n/${language}.json`);
  try {
    return JSON.parse(new TextDecoder().decode(await workspace.fs.readFile(file)));
  } catch {
    return undefined;
  }
}
