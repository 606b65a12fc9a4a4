import { type Checked, Checker } from "../../server/src/workspace/checker";

/** A pattern in which `$0` stood, worked, with the offset where it stood. */
export interface Marked {
  readonly text: string;
  readonly offset: number;
  readonly worked: Checked["worked"];
}

/** Reads a pattern with one `$0` in it, the place that is pointed at. */
export function marked(pattern: string): Marked {
  const parts = pattern.split("$0");
  if (parts.length !== 2) throw new Error(`one $0 is wanted in: ${pattern}`);
  const text = parts.join("");
  return { text, offset: (parts[0] as string).length, worked: new Checker().work(text).worked };
}

/** Text of a test without the blanks that stand before all of its lines. */
export function outdented(text: string): string {
  const lines = text.replace(/^\n|\n\s*$/g, "").split("\n");
  const blanks = lines.filter((line) => line.trim() !== "").map((line) => line.search(/\S/));
  const least = Math.min(...blanks);
  return lines.map((line) => line.slice(least)).join("\n");
}
