import { l10n } from "vscode";
import {
  type BaseLanguageClient,
  CloseAction,
  type CloseHandlerResult,
  type ErrorHandler,
} from "vscode-languageclient";

const givenUp = () =>
  l10n.t(
    "Loopledger has stopped checking: it broke down five times in three minutes. Your patterns are not touched. Run “Developer: Reload Window” to start it again; the Output panel, under Loopledger, says what happened.",
  );

/** Restarts a server that ended as the library would, but says so in the log only, unless it is given up. */
export function restartQuietly(client: BaseLanguageClient): ErrorHandler {
  const handler = client.createDefaultErrorHandler();
  return {
    error: (error, message, count) => handler.error(error, message, count),
    closed: async () => {
      const result = await handler.closed();
      // The start of a server that ended meanwhile fails a moment later, and would take the new one for failed.
      await client.start().catch(() => undefined);
      return quietly(result);
    },
  };
}

function quietly(result: CloseHandlerResult): CloseHandlerResult {
  if (result.action === CloseAction.Restart) return { ...result, handled: true };
  return { ...result, message: givenUp() };
}
