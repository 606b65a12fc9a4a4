import type { TextEdit } from "../../text/span";
import type { HouseStyle } from "./styles";

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

export function styledSigns({ text }: { readonly text: string }, signs: HouseStyle["signs"]): TextEdit[] {
  if (signs === "any") return [];
  return signs === "plain"
    ? exchanged(text, /[×–—−‐‑’‘“”…\u00a0]/g, (sign) => plainSigns[sign] ?? sign)
    : [
        ...exchanged(text, /(?<=[\s)\]])x(?=\s*\d)/g, () => "×"),
        ...exchanged(text, /(?<=\d)-(?=\d)/g, () => "–"),
      ];
}

function exchanged(text: string, form: RegExp, by: (sign: string) => string): TextEdit[] {
  return [...text.matchAll(form)].map(({ 0: sign, index }) => ({
    span: { start: index, end: index + sign.length },
    newText: by(sign),
  }));
}
