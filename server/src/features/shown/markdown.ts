import type { Block } from "./blocks";

/** Blocks as Markdown (CommonMark with tables as GitHub has them). */
export function toMarkdown(blocks: readonly Block[]): string {
  return blocks.map(markdown).join("\n\n");
}

function markdown(block: Block): string {
  switch (block.kind) {
    case "title":
      return `**${escaped(block.text)}**`;
    case "line":
      return escaped(block.text);
    case "list":
      return block.items.map((item) => `- ${escaped(item)}`).join("\n");
    case "table":
      return [
        rowOf(block.head),
        `|${":--|".repeat(block.head.length)}`,
        ...block.rows.map((row) => rowOf(row)),
      ].join("\n");
  }
}

function rowOf(cells: readonly string[]): string {
  return `| ${cells.map(escaped).join(" | ")} |`;
}

/** Characters that could begin markup, HTML, a link or an entity anywhere in a line. */
const markup = /[\\`*_[\]<>&~|$@]/g;
/** What becomes a link although nothing marks it as one. */
const bareLink = /:(?=\/\/)|(?<=\bwww)\./gi;
/** What at the start of a line begins a heading, a list or a rule. */
const lineStart = /^[#+=-]|^\d+(?=[.)])/;
/** Characters that break lines, are not to be seen, or turn the direction of what follows. */
const unseen = /[\s\p{Cc}\u202a-\u202e\u2066-\u2069]+/gu;

/** Any text, so that Markdown shows it as it is: nothing in it is run, linked or formatted. */
export function escaped(text: string): string {
  const flat = text.replace(unseen, " ").trim();
  return flat
    .replace(markup, "\\$&")
    .replace(bareLink, "\\$&")
    .replace(lineStart, (start) => (/\d/.test(start) ? `${start}\\` : `\\${start}`));
}
