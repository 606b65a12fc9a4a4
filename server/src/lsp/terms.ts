import type { Range, TextEdit } from "vscode-languageserver";
import { type PastedTerms, pastedTerms } from "../features/pasted-terms";
import { leftLines, turnPattern, turnStretch } from "../features/turn-pattern";
import { say } from "../text/say";
import type { Terms } from "../trade/stitches";
import type { Server } from "./context";
import { answering, type Request } from "./handler";
import { rangeOf, spanOf } from "./positions";

interface Wanted {
  readonly textDocument: { readonly uri: string };
  readonly to: Terms;
  /** What is to be turned; the whole pattern where it is left out. */
  readonly range?: Range;
}

/** `edits` is null where the pattern is in these terms already, is not open, or cannot be turned: `reason` says why. */
interface TurnedAnswer {
  readonly edits: readonly TextEdit[] | null;
  readonly reason?: string;
  readonly left: readonly string[];
}

const nothing: TurnedAnswer = { edits: null, left: [] };

/** Answers what only this extension's client asks: the changes that turn a pattern into other terms. */
export function answerTerms(server: Server): void {
  server.connection.onRequest(
    "loopledger/turnTerms",
    answering<Wanted, TurnedAnswer>(server, {
      name: "Turning the terms",
      work: turnedAnswer,
      empty: () => nothing,
    }),
  );
}

interface Pasted {
  readonly textDocument: { readonly uri: string };
  readonly range: Range;
}

/** Answers what only this extension's client asks: whether what was pasted is in other terms than the pattern. */
export function answerPastedTerms(server: Server): void {
  server.connection.onRequest(
    "loopledger/pastedTerms",
    answering<Pasted, PastedTerms | null>(server, {
      name: "Telling the terms of what was pasted",
      work: ({ params: { range }, snapshot: { text, lines } }) => pastedTerms(text, spanOf(range, lines)),
      empty: () => null,
    }),
  );
}

function turnedAnswer({ params: { to, range }, snapshot }: Request<Wanted>): TurnedAnswer {
  const { worked, lines, text } = snapshot;
  const { language } = worked.context;
  if (language)
    return {
      ...nothing,
      reason: say`The pattern is in ${language.name}, which has names of its own: US and UK terms are for English patterns.`,
    };
  const turned = range ? turnStretch(worked, to, spanOf(range, lines)) : turnPattern(worked, to);
  if (!turned) return nothing;
  const edits = turned.edits.map(({ span, newText }) => ({ range: rangeOf(span, lines), newText }));
  return { edits, left: leftLines(turned.left, text) };
}
