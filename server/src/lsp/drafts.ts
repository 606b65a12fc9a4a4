import { draftLanguages, type LanguageDraft, languageDraft } from "../features/draft-in-language";
import { languageNamed } from "../trade/languages/languages";
import type { Server } from "./context";
import { answering, type Request } from "./handler";

interface Wanted {
  readonly textDocument: { readonly uri: string };
  /** Its code; where it is left out, the languages that can be had are told. */
  readonly language?: string;
}

interface Answer {
  readonly languages: readonly { readonly code: string; readonly name: string; readonly itself: string }[];
  /** Null where none was asked for, or the pattern is in another language already. */
  readonly draft: LanguageDraft | null;
}

const languages = draftLanguages.map(({ code, name, itself }) => ({
  code,
  name,
  itself: itself.replace(/\|.*/, ""),
}));

/** Answers what only this extension's client asks: a draft of the pattern in another language. */
export function answerDrafts(server: Server): void {
  server.connection.onRequest(
    "loopledger/languageDraft",
    answering<Wanted, Answer>(server, {
      name: "Drafting in another language",
      work: draftAnswer,
      empty: () => ({ languages, draft: null }),
    }),
  );
}

function draftAnswer({ params, snapshot: { worked, report } }: Request<Wanted>): Answer {
  const wanted = languageNamed(params.language ?? "");
  return { languages, draft: wanted ? languageDraft({ worked, report }, wanted) : null };
}
