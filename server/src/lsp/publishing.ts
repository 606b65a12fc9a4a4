import { publishingPage } from "../features/publishing-page";
import { copiesAtMost } from "../workspace/prover";
import type { Finding } from "../workspace/report";
import type { Server } from "./context";
import { shownFindings } from "./diagnostics";
import { answering, type Request } from "./handler";

interface About {
  readonly textDocument: { readonly uri: string };
}

/** Answers what only this extension's client asks: the page to read before publishing; null where the pattern is not open. */
export function answerPublishing(server: Server): void {
  server.connection.onRequest(
    "loopledger/publishingPage",
    answering<About, string | null>(server, {
      name: "Checking before publishing",
      work: (request) => pageOf(server, request),
      empty: () => null,
    }),
  );
}

async function pageOf(server: Server, { document }: Request<About>): Promise<string> {
  const settings = await server.settings.of(document.uri);
  // What is being typed is part of what would be published.
  const snapshot = document.snapshot.withoutCaret();
  const { worked, report, prover, text } = snapshot;
  let tries = copiesAtMost(text);
  const fixesOf = (finding: Finding) =>
    tries-- > 0 ? prover.fixesOf(finding).map(({ title }) => title) : [];
  const findings = shownFindings(snapshot, settings);
  return publishingPage({ checked: { worked, report }, findings, severities: settings.severities, fixesOf });
}
