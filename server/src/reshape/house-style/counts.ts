import type { RowPlan } from "../../fabric/instructions";
import type { TextEdit } from "../../text/span";

const marks = { round: ["(", ")"], square: ["[", "]"] } as const;

/** The count in the house's brackets; what it counts stays as it is typed. */
export function styledCount({ statedSpan, text }: RowPlan, count: "round" | "square"): TextEdit[] {
  if (!statedSpan) return [];
  const typed = text.slice(statedSpan.start, statedSpan.end);
  const inner = /^(?:[=:–—-]\s*)?[([{<]?\s*([^()[\]{}<>=]*?)\s*[)\]}>]?$/u.exec(typed)?.[1];
  if (!inner || !/^\d/.test(inner) || inner.endsWith(".")) return [];
  const start = text.slice(0, statedSpan.start).search(/\s*(?:[=–—-]\s*)?$/u);
  const gap = start === 0 ? "" : " ";
  const newText = `${gap}${marks[count][0]}${inner}${marks[count][1]}`;
  // `24 dc.` ends a sentence; `(24 dc)` stands behind it.
  const end = /^\d/.test(typed) && /^\.\s*$/.test(text.slice(statedSpan.end)) ? text.length : statedSpan.end;
  return text.slice(start, end) === newText ? [] : [{ span: { start, end }, newText }];
}
