import {
  type SemanticTokens,
  SemanticTokensBuilder,
  type SemanticTokensDelta,
  type SemanticTokensDeltaParams,
  type SemanticTokensParams,
  type SemanticTokensRangeParams,
} from "vscode-languageserver";
import { type Token, tokensOf, tokenTypes } from "../features/semantic-tokens";
import type { Server } from "./context";
import { answering, type Request, stopIfCancelled } from "./handler";
import type { OpenDocument, Snapshot } from "./open-document";
import { lengthOf, positionOf, spanOf } from "./positions";
import { settled } from "./settled";

/** Answers what words mean, for the colours: all of it, what has changed since, or a stretch. */
export function answerSemanticTokens(server: Server): void {
  const { semanticTokens } = server.connection.languages;
  const builders = new WeakMap<OpenDocument, SemanticTokensBuilder>();
  const builderOf = (document: OpenDocument) => {
    const builder = builders.get(document) ?? new SemanticTokensBuilder();
    builders.set(document, builder);
    return builder;
  };
  semanticTokens.on(
    answering<SemanticTokensParams, SemanticTokens>(server, {
      name: "Colouring",
      work: async (request) => {
        await readied(server, request);
        const builder = builderOf(request.document);
        // Ends what was built before, so that this answer has an id of its own.
        builder.previousResult("");
        return filled(builder, request.document.snapshot).build();
      },
      empty: () => ({ data: [] }),
    }),
  );
  semanticTokens.onDelta(
    answering<SemanticTokensDeltaParams, SemanticTokens | SemanticTokensDelta>(server, {
      name: "Colouring what has changed",
      work: async (request) => {
        await readied(server, request);
        const builder = builderOf(request.document);
        builder.previousResult(request.params.previousResultId);
        return filled(builder, request.document.snapshot).buildEdits();
      },
      empty: () => ({ data: [] }),
    }),
  );
  semanticTokens.onRange(
    answering<SemanticTokensRangeParams, SemanticTokens>(server, {
      name: "Colouring a stretch",
      work: ({ params, snapshot }) => {
        const within = spanOf(params.range, snapshot.lines);
        return {
          data: filled(new SemanticTokensBuilder(), snapshot, tokensOf(snapshot.worked, within)).build().data,
        };
      },
      empty: () => ({ data: [] }),
    }),
  );
}

async function readied(server: Server, { document, token }: Request<unknown>): Promise<void> {
  await settled(server, document);
  stopIfCancelled(token);
}

function filled(
  builder: SemanticTokensBuilder,
  { worked, lines }: Snapshot,
  tokens: readonly Token[] = tokensOf(worked),
): SemanticTokensBuilder {
  for (const { start, end, type } of tokens) {
    const { line, character } = positionOf(start, lines);
    builder.push(line, character, lengthOf({ start, end }, lines), tokenTypes.indexOf(type), 0);
  }
  return builder;
}
