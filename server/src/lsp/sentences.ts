import type { InitializeParams } from "vscode-languageserver";
import type { Sentences } from "../text/say";
import type { Host } from "./context";

type Reader = Pick<InitializeParams, "locale" | "initializationOptions">;

/** The sentences of the language that a client shows: those it brings, else those the host has; null for English. */
export async function sentencesFor(
  { locale, initializationOptions }: Reader,
  host: Pick<Host, "sentences">,
): Promise<Sentences | null> {
  const brought: unknown = initializationOptions?.sentences;
  if (isSentences(brought)) return brought;
  // `de`, `de-AT`, `de_CH.UTF-8`; it becomes the name of a file, so letters alone will do.
  const [, language = "en"] = /^([a-z]{2,3})(?![a-z])/.exec(locale?.toLowerCase() ?? "") ?? [];
  return language === "en" ? null : ((await host.sentences?.(language)) ?? null);
}

function isSentences(said: unknown): said is Sentences {
  return (
    typeof said === "object" && said !== null && Object.values(said).every((one) => typeof one === "string")
  );
}
