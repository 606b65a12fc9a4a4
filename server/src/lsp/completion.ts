import {
  type CancellationToken,
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  type CompletionParams,
  MarkupKind,
} from "vscode-languageserver";
import {
  type CompletionEntry,
  completionsAt,
  type EntryKind,
  openingMarks,
} from "../features/completion/completion";
import { toMarkdown } from "../features/shown/markdown";
import { toPlainText } from "../features/shown/plain-text";
import type { ClientAbilities } from "./capabilities";
import type { Server } from "./context";
import { answering, type Request } from "./handler";
import type { Snapshot } from "./open-document";
import { offsetOf, rangeOf } from "./positions";

const KINDS: Readonly<Record<EntryKind, CompletionItemKind>> = {
  row: CompletionItemKind.Snippet,
  count: CompletionItemKind.Value,
  stitch: CompletionItemKind.Function,
  "own stitch": CompletionItemKind.Method,
  phrase: CompletionItemKind.Text,
  place: CompletionItemKind.Reference,
  yarn: CompletionItemKind.Color,
  header: CompletionItemKind.Keyword,
};

/** Which entry of which version an offered one is: what is told of it is worked out when it is looked at. */
interface Ticket {
  readonly uri: string;
  readonly version: number;
  readonly offset: number;
}

/** Offers what could be written at the caret, and tells of what is looked at. */
export function answerCompletions(server: Server): void {
  const { connection } = server;
  connection.onCompletion(
    answering<CompletionParams, CompletionList>(server, {
      name: "Offering what to write",
      work: offered,
      empty: () => ({ isIncomplete: false, items: [] }),
    }),
  );
  connection.onCompletionResolve((item: CompletionItem, token: CancellationToken) => {
    const ticket = (item.data ?? {}) as Partial<Ticket>;
    const tell = answering<Chosen, CompletionItem>(server, {
      name: "Telling of what could be written",
      work: ({ snapshot }) => told(item, ticket, snapshot, server.client),
      empty: () => item,
    });
    return tell({ textDocument: { uri: ticket.uri ?? "" } }, token);
  });
}

interface Chosen {
  readonly textDocument: { readonly uri: string };
}

/** Asked anew at each letter: a phrase of several words is known by as much of it as is typed. */
function offered({ params, snapshot }: Request<CompletionParams>): CompletionList {
  const offset = offsetOf(params.position, snapshot.lines);
  const mark = openingMarks.find((one) => one === params.context?.triggerCharacter);
  const { uri, version } = snapshot;
  const entries = completionsAt(snapshot.worked, offset, mark);
  const items = entries.map((entry, i) => itemFor(entry, i, offset, { uri, version, offset }, snapshot));
  return { isIncomplete: mark === undefined, items };
}

function itemFor(
  entry: CompletionEntry,
  place: number,
  offset: number,
  data: Ticket,
  { text, lines }: Snapshot,
): CompletionItem {
  const { label, kind, detail, span, newText } = entry;
  const typed = text.slice(span.start, offset);
  const isBegun = newText.toLowerCase().startsWith(typed.toLowerCase());
  return {
    label,
    kind: KINDS[kind],
    ...(detail ? { labelDetails: { description: detail } } : {}),
    sortText: `${place}`.padStart(4, "0"),
    // A client leaves out what does not begin as the text does that is to be replaced.
    ...(isBegun ? (label === newText ? {} : { filterText: newText }) : { filterText: `${typed}${newText}` }),
    textEdit: { range: rangeOf(span, lines), newText },
    ...(place === 0 && kind === "row" ? { preselect: true } : {}),
    data,
  };
}

function told(
  item: CompletionItem,
  { version, offset }: Partial<Ticket>,
  snapshot: Snapshot,
  client: ClientAbilities,
): CompletionItem {
  if (snapshot.version !== version || offset === undefined) return item;
  const entry = completionsAt(snapshot.worked, offset).find(({ label }) => label === item.label);
  if (!entry) return item;
  const blocks = entry.blocks();
  const documentation = client.showsMarkdownItems
    ? { kind: MarkupKind.Markdown, value: toMarkdown(blocks) }
    : { kind: MarkupKind.PlainText, value: toPlainText(blocks) };
  return { ...item, documentation };
}
