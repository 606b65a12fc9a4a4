import type { RowPlan } from "../fabric/instructions";
import { keptBy } from "../text/kept-by";
import type { Span } from "../text/span";

/** Words that stand there a second time and can hold only once, with the comma before them, in the text of a row. */
export const saidAgain = keptBy(({ text }: RowPlan): Span | null => {
  let at = 0;
  let before = "";
  for (const item of text.split(",")) {
    const said = (sentence.exec(item)?.[0] ?? "").trimEnd();
    // `rep from * around, around`: the first of them is the end of more.
    const isSaid = said !== "" && endsWith(before, said.trimStart()) && holdsOnce.test(said.trimStart());
    if (isSaid && !bracketBehind.test(text.slice(at + said.length)))
      return { start: at - 1, end: at + said.length };
    before = item.replace(end, "");
    at += item.length + 1;
  }
  return null;
});

const sentence = /^[^.;:([{<]*/;
/** `sc in next sp, in next sp (3 dc, ch 2, 3 dc); rep`: the bracket is what goes there. */
const bracketBehind = /^\s*[([][^)\]]*[)\]]\s*;?\s*rep/i;
const end = /[\s.;:]+$/;

function endsWith(before: string, said: string): boolean {
  if (said.length > before.length) return false;
  const [last, rest] = [before.slice(-said.length), before.slice(0, -said.length)];
  return last.toLowerCase() === said.toLowerCase() && !/\w$/.test(rest);
}

/** How far, how often, into which space; counted from the hook; slipped to a space; joined and turned. */
const holdsOnce =
  /^(?:around|across|to (?:the )?(?:last|end|next|corner|marker)\b.*|(?:x ?)?\d+ (?:more )?times(?: more)?|x ?\d+|once more|twice(?: more)?|in(?:to)? .*\b(?:sp|space|loop|lp|ring)|.*\bfrom (?:the )?hook\b.*|(?:sl st|ss|slip stitch)\b.*\b(?:sp|space|loop|lp)\b.*|join\b.*|turn)$/i;
