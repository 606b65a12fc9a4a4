import { say } from "../../text/say";
import { withEdits } from "../../text/span";
import { stitchOf } from "../../trade/stitches";
import { turningChainFor } from "../../trade/turning-chains";
import type { Mend } from "./mend";
import type { Trial } from "./trial";

const typedIn = /\b(\d{1,2})(?:st|nd|rd|th)(?=\s+(?:ch|chain)\b)/i;
const endings: Readonly<Record<number, string>> = { 2: "nd", 3: "rd" };

/** The chain that the stitch is usually begun in, where another is typed: `dc in 4th ch` for `dc in 5th ch`. */
export function firstChain({ row, text, terms, isRight }: Trial): Mend[] {
  const [start] = row.found?.plan.instructions ?? [];
  const typed = typedIn.exec(text);
  if (start?.op !== "start" || !typed) return [];
  const stitch = stitchOf(start.options[0]?.kind ?? "", terms);
  if (!stitch) return [];
  const usual = turningChainFor(stitch.id).firstIn;
  const newText = `${usual}${endings[usual] ?? "th"}`;
  const span = { start: typed.index, end: typed.index + typed[0].length };
  const edits = [{ line: "row" as const, span, newText }];
  if (Number(typed[1]) === usual || !isRight(withEdits(text, edits))) return [];
  return [
    {
      kind: "first-chain",
      title: say`Change "${typed[0]} ch" to "${newText} ch"`,
      question: say`Did you mean the ${newText} ch?`,
      exchange: say`the ${newText} ch for the ${typed[0]}`,
      edits,
    },
  ];
}
