import {
  commands,
  Disposable,
  EventEmitter,
  l10n,
  Range,
  type TextDocument,
  ThemeIcon,
  type TreeDataProvider,
  TreeItem,
  window,
  workspace,
} from "vscode";
import type { BaseLanguageClient, WorkspaceEdit } from "vscode-languageclient";

/** What the server tells of one thing that a change has left in its wake. */
interface WakeEntry {
  readonly key: string;
  readonly sort: "fit" | "count" | "doubt" | "numbers" | "reference" | "placement" | "piece";
  readonly range: { readonly start: Place; readonly end: Place };
  readonly name: string;
  readonly piece: string;
  readonly says: string;
  /** What one press does; null where that is not known before looking. */
  readonly mend: string | null;
}

interface Place {
  readonly line: number;
  readonly character: number;
}

/** Lists what the last change has left in its wake, in the pattern in front. */
export function showWake(client: BaseLanguageClient): Disposable {
  const wake = new Wake(client);
  const onItem = (name: string, work: (item: WakeItem) => Promise<void>) =>
    commands.registerCommand(`loopledger.wake.${name}`, work);
  return Disposable.from(
    wake,
    onItem("look", look),
    onItem("mend", (item) => wake.mend(item)),
    onItem("leave", (item) => wake.leave([item])),
    commands.registerCommand("loopledger.wake.leaveAll", () => wake.leave(wake.items)),
    window.onDidChangeActiveTextEditor(() => wake.update()),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (document === frontPattern()) wake.updateSoon();
    }),
  );
}

function frontPattern(): TextDocument | undefined {
  const document = window.activeTextEditor?.document;
  return document?.languageId === "crochet" ? document : undefined;
}

/** Milliseconds without a keystroke; the list is not to flicker while a row is being typed. */
const pause = 300;

class Wake implements TreeDataProvider<WakeItem>, Disposable {
  items: readonly WakeItem[] = [];
  private readonly changed = new EventEmitter<void>();
  readonly onDidChangeTreeData = this.changed.event;
  private readonly view = window.createTreeView("loopledger.wake", { treeDataProvider: this });
  private waiting: NodeJS.Timeout | undefined;

  constructor(private readonly client: BaseLanguageClient) {
    this.update();
  }

  getChildren(): WakeItem[] {
    return [...this.items];
  }

  getTreeItem(item: WakeItem): WakeItem {
    return item;
  }

  updateSoon(): void {
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => this.update(), pause);
  }

  update(): void {
    clearTimeout(this.waiting);
    void this.ask();
  }

  async mend(item: WakeItem): Promise<void> {
    if (item.entry.mend === null) {
      await look(item);
      return void (await commands.executeCommand("editor.action.quickFix"));
    }
    const edit = await this.request<WorkspaceEdit | null>("mendWake", item.document, { key: item.entry.key });
    const made = edit && (await this.client.protocol2CodeConverter.asWorkspaceEdit(edit));
    if (made) await workspace.applyEdit(made);
  }

  /** The designer has seen it and wants it so. */
  async leave(items: readonly WakeItem[]): Promise<void> {
    const [first] = items;
    if (first)
      await this.request("acceptWake", first.document, { keys: items.map(({ entry }) => entry.key) });
    await this.ask();
  }

  dispose(): void {
    clearTimeout(this.waiting);
    this.view.dispose();
    this.changed.dispose();
  }

  private async ask(): Promise<void> {
    const document = frontPattern();
    if (document) void commands.executeCommand("setContext", "loopledger.wake.hasPattern", true);
    const entries = document ? await this.request<WakeEntry[]>("wake", document) : [];
    if (document !== frontPattern()) return;
    this.items = document ? (entries ?? []).map((entry) => new WakeItem(entry, document)) : [];
    this.view.badge =
      this.items.length > 0
        ? {
            value: this.items.length,
            tooltip: l10n.t("{0} to look at after the last change", this.items.length),
          }
        : undefined;
    this.changed.fire();
  }

  /** Null where the server cannot answer, as while it starts anew. */
  private async request<R>(name: string, document: TextDocument, more: object = {}): Promise<R | null> {
    const textDocument = this.client.code2ProtocolConverter.asTextDocumentIdentifier(document);
    return this.client.sendRequest<R>(`loopledger/${name}`, { textDocument, ...more }).catch(() => null);
  }
}

const icons: Readonly<Record<WakeEntry["sort"], string>> = {
  fit: "error",
  count: "error",
  doubt: "question",
  numbers: "symbol-number",
  reference: "references",
  placement: "location",
  piece: "link",
};

/** Rows that were right and are not now: what would mend them is offered in the row. */
const mendedInPlace: ReadonlySet<WakeEntry["sort"]> = new Set(["fit", "count", "doubt"]);

class WakeItem extends TreeItem {
  constructor(
    readonly entry: WakeEntry,
    readonly document: TextDocument,
  ) {
    super(entry.piece ? `${entry.piece}, ${entry.name}` : entry.name);
    this.id = entry.key;
    this.description = entry.says.startsWith(entry.name)
      ? entry.says.slice(entry.name.length).trimStart()
      : entry.says;
    this.tooltip = entry.mend ? `${entry.says}\n\n${l10n.t("To mend it: {0}.", entry.mend)}` : entry.says;
    this.iconPath = new ThemeIcon(icons[entry.sort]);
    this.contextValue = entry.mend !== null || mendedInPlace.has(entry.sort) ? "mendable" : "to look at";
    this.command = { command: "loopledger.wake.look", title: l10n.t("Look at it"), arguments: [this] };
  }
}

/** Puts the caret where something is out of date. */
async function look({ entry: { range }, document }: WakeItem): Promise<void> {
  const { start, end } = range;
  const selection = new Range(start.line, start.character, end.line, end.character);
  await window.showTextDocument(document, { selection });
}
