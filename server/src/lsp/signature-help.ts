import { MarkupKind, type SignatureHelp, type SignatureHelpParams } from "vscode-languageserver";
import { type RepeatHelp, repeatHelpAt } from "../features/repeat-help/repeat-help";
import { toMarkdown } from "../features/shown/markdown";
import { toPlainText } from "../features/shown/plain-text";
import type { Server } from "./context";
import { answering } from "./handler";
import { offsetOf } from "./positions";

/** Tells of the repeat around the caret, while it is written. */
export function answerSignatureHelp(server: Server): void {
  const { connection, client } = server;
  connection.onSignatureHelp(
    answering<SignatureHelpParams, SignatureHelp | null>(server, {
      name: "Telling of a repeat",
      work: ({ params, snapshot: { worked, lines } }) => {
        const help = repeatHelpAt(worked, offsetOf(params.position, lines));
        return (
          help && shown(help, client.showsMarkdownSignatures ? MarkupKind.Markdown : MarkupKind.PlainText)
        );
      },
      empty: () => null,
    }),
  );
}

function shown({ label, parts, active, blocks }: RepeatHelp, kind: MarkupKind): SignatureHelp {
  const value = kind === MarkupKind.Markdown ? toMarkdown(blocks) : toPlainText(blocks);
  const parameters = parts.map(({ start, end }) => ({ label: [start, end] as [number, number] }));
  return {
    signatures: [{ label, parameters, documentation: { kind, value } }],
    activeSignature: 0,
    activeParameter: active,
  };
}
