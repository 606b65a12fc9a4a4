import { type CancellationToken, LSPErrorCodes, ResponseError } from "vscode-languageserver";
import type { Server } from "./context";
import type { OpenDocument, Snapshot } from "./open-document";

interface AboutDocument {
  readonly textDocument: { readonly uri: string };
}

/** What a handler works on; the snapshot is of the moment the request came in. */
export interface Request<P> {
  readonly params: P;
  readonly document: OpenDocument;
  readonly snapshot: Snapshot;
  readonly token: CancellationToken;
}

interface Handling<P, R> {
  readonly name: string;
  readonly work: (request: Request<P>) => R | Promise<R>;
  /** The answer for a document that is not open. */
  readonly empty: () => R;
  /** The answer where the work failed; `empty` where nothing is given. */
  readonly failed?: () => R;
}

/** The one way to answer a request about a document: cancellation is heard, and no fault gets out. */
export function answering<P extends AboutDocument, R>(server: Server, handling: Handling<P, R>) {
  return async (params: P, token: CancellationToken): Promise<R> => {
    stopIfCancelled(token);
    const document = server.documents.get(params.textDocument.uri);
    if (!document) return handling.empty();
    const request = { params, document, snapshot: document.snapshot, token };
    const answer = await guarded(
      server,
      `${handling.name} of ${document.uri}`,
      () => handling.work(request),
      handling.failed ?? handling.empty,
    );
    stopIfCancelled(token);
    return answer;
  };
}

/** Does some work; a fault is logged and `failed` takes the place of what the work would have given. */
export async function guarded<R>(
  { connection }: Pick<Server, "connection">,
  what: string,
  work: () => R | Promise<R>,
  failed: () => R,
): Promise<R> {
  try {
    return await work();
  } catch (fault) {
    if (fault instanceof ResponseError) throw fault;
    connection.console.error(`${what} failed: ${fault instanceof Error ? fault.stack : fault}`);
    return failed();
  }
}

export function stopIfCancelled(token: CancellationToken): void {
  if (token.isCancellationRequested) {
    throw new ResponseError(LSPErrorCodes.RequestCancelled, "Cancelled by the client.");
  }
}
