import { type Hover, type HoverParams, MarkupKind } from "vscode-languageserver";
import { hoverAt } from "../features/hover/hover";
import { toMarkdown } from "../features/shown/markdown";
import { toPlainText } from "../features/shown/plain-text";
import type { Server } from "./context";
import { answering, type Request } from "./handler";
import { offsetOf, rangeOf } from "./positions";

/** Answers what is pointed at. */
export function answerHovers(server: Server): void {
  server.connection.onHover(
    answering<HoverParams, Hover | null>(server, {
      name: "Telling what is pointed at",
      work: (request) => hoverOf(server, request),
      empty: () => null,
    }),
  );
}

async function hoverOf(
  { client, settings }: Server,
  { params, snapshot }: Request<HoverParams>,
): Promise<Hover | null> {
  const { measures } = await settings.of(snapshot.uri);
  const { worked, lines } = snapshot;
  const hover = hoverAt(worked, offsetOf(params.position, lines), measures);
  if (!hover) return null;
  const contents = client.showsMarkdown
    ? { kind: MarkupKind.Markdown, value: toMarkdown(hover.blocks) }
    : { kind: MarkupKind.PlainText, value: toPlainText(hover.blocks) };
  return { contents, range: rangeOf(hover.span, lines) };
}
