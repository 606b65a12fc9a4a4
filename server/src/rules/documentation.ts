/** The headings that the documentation of every rule has, in this order. */
export const headings = ["What it finds", "Why it matters", "Example", "Mended"] as const;

/** What stands under a heading of a rule's documentation, without blank lines around it. */
export function sectionOf(documentation: string, heading: (typeof headings)[number]): string {
  const mark = `## ${heading}\n`;
  const start = documentation.indexOf(mark);
  if (start < 0) return "";
  const end = documentation.indexOf("\n## ", start);
  return documentation.slice(start + mark.length, end < 0 ? documentation.length : end).trim();
}
