import type { Block } from "./blocks";

/** Blocks as text without any markup. */
export function toPlainText(blocks: readonly Block[]): string {
  return blocks.map(plain).join("\n\n");
}

function plain(block: Block): string {
  switch (block.kind) {
    case "title":
    case "line":
      return block.text;
    case "list":
      return block.items.map((item) => `- ${item}`).join("\n");
    case "table":
      return [block.head, ...block.rows].map(rowOf).join("\n");
  }
}

function rowOf(cells: readonly string[]): string {
  return cells
    .map((cell) => cell.trim())
    .join(" | ")
    .replace(/^ \| | \| $/g, "");
}
