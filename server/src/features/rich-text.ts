import { readHeading } from "../notation/headings";
import type { PatternLine } from "../notation/lines";

/**
 * A pattern as a word processor takes it: headings, row heads in bold, nothing else. Only elements and
 * plain text: whatever the pattern holds is escaped.
 */
export function richText(lines: readonly PatternLine[]): string {
  const title = lines.findIndex(({ kind }) => kind !== "blank");
  return lines
    .filter(({ kind }) => kind !== "blank")
    .map((line) => (line === lines[title] ? titleOf(line) : paragraphOf(line)))
    .join("\n");
}

function titleOf(line: PatternLine): string {
  return line.kind === "row" ? paragraphOf(line) : element("h1", escaped(bare(line.text)));
}

function paragraphOf({ kind, text, head }: PatternLine): string {
  if (kind === "heading" && readHeading(text.trim()).name !== "") return element("h2", escaped(bare(text)));
  if (!head) return element("p", escaped(text.trim()));
  const end = head.length;
  return element(
    "p",
    `${element("strong", escaped(text.slice(0, end).trim()))} ${escaped(text.slice(end).trim())}`,
  );
}

/** Without the marks of a heading in plain text: `## Leg`. */
function bare(text: string): string {
  return text.trim().replace(/^[#=*_\s]+|[#=*_\s]+$/g, "");
}

function element(name: string, content: string): string {
  return `<${name}>${content}</${name}>`;
}

const entities: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => entities[sign] as string);
}
