import { queriedOf, queryLines } from "../features/queries";
import { copiesAtMost } from "../workspace/prover";
import type { Finding } from "../workspace/report";
import type { Server } from "./context";
import { shownFindings } from "./diagnostics";
import { answering, type Request } from "./handler";

interface About {
  readonly textDocument: { readonly uri: string };
}

/** Answers what only this extension's client asks: the queries of a pattern, ready for a mail. */
export function answerQueries(server: Server): void {
  server.connection.onRequest(
    "loopledger/queries",
    answering<About, readonly string[]>(server, {
      name: "Listing the queries",
      work: (request) => queriesOf(server, request),
      empty: () => [],
    }),
  );
}

async function queriesOf(server: Server, { document }: Request<About>): Promise<readonly string[]> {
  const settings = await server.settings.of(document.uri);
  const { snapshot } = document;
  const findings = shownFindings(snapshot, settings);
  const { report, lines, prover } = snapshot;
  let tries = copiesAtMost(snapshot.text);
  const fixesOf = (finding: Finding) =>
    tries-- > 0 ? prover.fixesOf(finding).map(({ title }) => title) : [];
  return queryLines([["", queriedOf(report, findings, lines, fixesOf)]]);
}
