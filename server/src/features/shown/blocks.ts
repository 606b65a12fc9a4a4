/**
 * What is to be shown, before it is known how a client shows it. The texts are plain: whatever a
 * pattern holds, nothing in them is markup.
 */
export type Block =
  | { readonly kind: "title"; readonly text: string }
  | { readonly kind: "line"; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly string[] }
  | {
      readonly kind: "table";
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
    };

export function title(text: string): Block {
  return { kind: "title", text };
}

export function line(text: string): Block {
  return { kind: "line", text };
}

/** A list, or nothing where there is nothing to list. */
export function list(items: readonly string[]): Block[] {
  return items.length === 0 ? [] : [{ kind: "list", items }];
}
