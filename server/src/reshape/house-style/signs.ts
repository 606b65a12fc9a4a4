import type { TextEdit } from "../../text/span";

/** Signs that some programs spoil, and what every keyboard has in their place. */
const plainSigns: Readonly<Record<string, string>> = {
  "×": "x",
  "–": "-",
  "—": "-",
  "−": "-",
  "‐": "-",
  "‑": "-",
  "’": "'",
  "‘": "'",
  "“": '"',
  "”": '"',
  "…": "...",
  "\u00a0": " ",
};

export function styledSigns({ text }: { readonly text: string }, signs: "any" | "plain"): TextEdit[] {
  if (signs === "any") return [];
  return [...text.matchAll(/[×–—−‐‑’‘“”…\u00a0]/g)].map(({ 0: sign, index }) => ({
    span: { start: index, end: index + sign.length },
    newText: plainSigns[sign] ?? sign,
  }));
}
