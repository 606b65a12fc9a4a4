import type { Instruction, RowPlan } from "../../fabric/instructions";
import type { TextEdit } from "../../text/span";

const before = /^(\d+)\s*(\p{L}+)$/u;
const behind = /^(\p{L}+)\s*(\d+)$/u;

/** `2 sc` or `sc 2`, where a stitch and a number are all there is. */
export function styledRuns({ instructions, text }: RowPlan, number: "before" | "behind"): TextEdit[] {
  return worksIn(instructions).flatMap(({ span, takes }) => {
    const typed = text.slice(span.start, span.end);
    const [, first = "", second = ""] = before.exec(typed) ?? behind.exec(typed) ?? [];
    const isNumberFirst = /^\d/.test(first);
    const [n, stitch] = isNumberFirst ? [first, second] : [second, first];
    if (n === "" || takes.length !== 1) return [];
    const newText = number === "before" ? `${n} ${inside(stitch)}` : `${stitch} ${n}`;
    return newText === typed ? [] : [{ span, newText }];
  });
}

/** Behind a number no capital begins the row; `BLO` and `FPdc` keep theirs. */
function inside(stitch: string): string {
  return /^\p{Lu}\p{Ll}+$/u.test(stitch) ? stitch.toLowerCase() : stitch;
}

function worksIn(list: readonly Instruction[]): Extract<Instruction, { op: "work" }>[] {
  return list.flatMap((one) => {
    if (one.op === "repeat") return worksIn(one.body);
    return one.op === "work" ? [one] : [];
  });
}
