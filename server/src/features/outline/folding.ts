import { partsOf } from "../../fabric/parts";
import { frontMatterOf } from "../../notation/front-matter/front-matter";
import type { WorkedPattern } from "../../rules/rule";
import type { Span } from "../../text/span";
import { endOf } from "./symbols";

/** What can be folded away under its first line: parts with a heading, lists of the front matter, long rows. */
export function foldsOf(pattern: WorkedPattern): Span[] {
  const parts = partsOf(pattern).flatMap((part) =>
    part.heading ? [{ start: part.heading.start, end: endOf(part) }] : [],
  );
  const rows = pattern.pieces.flatMap(({ rows }) => rows.map(({ line }) => line.span));
  const known = new Set(parts.map(({ start }) => start));
  const lists = listsOf(pattern).filter(({ start }) => !known.has(start));
  return [...parts, ...lists, ...rows].filter(({ start, end }) =>
    /[\r\n]/.test(pattern.text.slice(start, end)),
  );
}

/** `Materials`, with the lines below that belong to it. */
function listsOf({ lines }: WorkedPattern): Span[] {
  const { listLines } = frontMatterOf(lines);
  const folds: Span[] = [];
  for (const [i, line] of lines.entries()) {
    const isTitle = line.kind === "field" && !listLines.has(lines[i - 1]?.start ?? -1);
    if (!isTitle) continue;
    const behind = lines.findIndex(({ kind }, at) => at > i && (kind === "blank" || kind === "heading"));
    const last = lines[(behind < 0 ? lines.length : behind) - 1];
    if (last && last !== line) folds.push({ start: line.start, end: last.end });
  }
  return folds;
}
