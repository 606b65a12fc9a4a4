import type { Diagnostic } from "vscode-languageserver";
import type { OpenDocument } from "./open-document";

interface Answer {
  readonly id: string;
  readonly version: number;
  readonly content: string;
}

/**
 * Names what each document was last answered, so that a client can be told "unchanged". An answer keeps its
 * name only within one version, or while it stays empty: editors move the marks they show along with an edit,
 * so the same list after an edit must be sent again.
 */
export class ResultIds {
  private readonly last = new WeakMap<OpenDocument, Answer>();
  private readonly session = Date.now().toString(36);
  private count = 0;

  idOf(document: OpenDocument, version: number, items: readonly Diagnostic[]): string {
    const content = JSON.stringify(items);
    const known = this.last.get(document);
    const isSame = known?.content === content && (known.version === version || items.length === 0);
    const id = isSame ? known.id : `${this.session}-${++this.count}`;
    this.last.set(document, { id, version, content });
    return id;
  }

  forget(document: OpenDocument): void {
    this.last.delete(document);
  }
}
