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
      return [block.head, ...block.rows]
        .map(rowOf)
        .filter((row) => row !== "")
        .join("\n");
  }
}

/** An empty cell is told as a dash, so that the others keep their places; at the end of a row nothing is told. */
function rowOf(cells: readonly string[]): string {
  const last = cells.findLastIndex((cell) => cell !== "");
  return cells
    .slice(0, last + 1)
    .map((cell) => cell || "–")
    .join(" | ")
    .replace(/: \| /, ": ");
}
