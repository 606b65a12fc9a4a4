import type { Instruction, RowPlan } from "../../fabric/instructions";
import { shift, type TextEdit, withEdits } from "../../text/span";
import type { RepeatForm } from "./styles";

type Repeat = Extract<Instruction, { op: "repeat" }>;

type MarkedForm = Exclude<RepeatForm, "spelled-out">;

/** A repeat by its text: what stands before and behind what is repeated. */
interface Written {
  readonly open: string;
  readonly close: string;
  /** Where it goes to: `around`, `to last 3 sts`; null for a number of times. */
  readonly tail: string | null;
  readonly times: number;
  readonly isOnly: boolean;
  readonly holdsBracket: boolean;
}

/** Repeats in the house's way; what has an ending of its own, or is meant in two ways, is left. */
export function styledRepeats({ instructions, text }: RowPlan, form: RepeatForm): TextEdit[] {
  const repeats = repeatsIn(instructions);
  if (form === "spelled-out") return spelledOut(instructions, text);
  return repeats.flatMap((repeat) => {
    const [first, last] = [repeat.body[0]?.span, repeat.body.at(-1)?.span];
    if (!first || !last || first.start < repeat.span.start || last.end > repeat.span.end) return [];
    const open = text.slice(repeat.span.start, first.start);
    const close = text.slice(last.end, repeat.span.end);
    const holdsBracket = /[([{]/.test(text.slice(first.start, last.end));
    const written = writtenAs(repeat, open, close, { isOnly: repeats.length === 1, holdsBracket });
    const [before, behind] = (written && marksFor(written, form)) ?? [open, close];
    return [
      { span: { start: repeat.span.start, end: first.start }, newText: before },
      { span: { start: last.end, end: repeat.span.end }, newText: behind },
    ].filter(({ span, newText }) => text.slice(span.start, span.end) !== newText);
  });
}

/** Passes that are written one by one at most, and the characters they may come to. */
const passesAtMost = 12;
const charactersAtMost = 1_000;

/** `(sc, inc) x2` as `sc, inc, sc, inc`; repeats within it too. */
function spelledOut(list: readonly Instruction[], text: string): TextEdit[] {
  return list.flatMap((one) => {
    if (one.op !== "repeat") return [];
    const newText = passesOf(one, text);
    return newText === null ? spelledOut(one.body, text) : [{ span: one.span, newText }];
  });
}

/** Null for what is not to be spelled out. */
function passesOf({ body, span, times, ending }: Repeat, text: string): string | null {
  const [first, last] = [body[0]?.span, body.at(-1)?.span];
  const n = times.how === "fixed" && times.n.length === 1 ? (times.n[0] ?? 0) : 0;
  if (!first || !last || ending || n < 2 || n > passesAtMost) return null;
  if (!opens.test(text.slice(span.start, first.start))) return null;
  const inner = spelledOut(body, text).map((edit) => ({ ...edit, span: shift(edit.span, -first.start) }));
  const all = Array(n)
    .fill(withEdits(text.slice(first.start, last.end), inner))
    .join(", ");
  return all.length > charactersAtMost ? null : all;
}

function repeatsIn(list: readonly Instruction[]): Repeat[] {
  return list.flatMap((one) => (one.op === "repeat" ? [one, ...repeatsIn(one.body)] : []));
}

const opens = /^(?:\d+\s*[x×]\s*)?[([{*]\s*$/iu;
const starTail = /^\s*[;,.]?\s*\*?\s*[;,.]?\s*(?:repeat|rep)\s*(?:from\s*\*?)?\s*(.*)$/isu;
const bracketTail = /^\s*[)\]}]\s*(.*)$/su;

function writtenAs(
  { times, ending }: Repeat,
  open: string,
  close: string,
  around: Pick<Written, "isOnly" | "holdsBracket">,
): Written | null {
  if (!opens.test(open) || ending || (times.how !== "fixed" && times.how !== "to-end")) return null;
  const rest = (open.includes("*") ? starTail : bracketTail).exec(close)?.[1];
  if (rest === undefined) return null;
  const n = times.how === "fixed" && times.n.length === 1 ? (times.n[0] ?? 0) : 0;
  if (times.how === "fixed" && n < 2) return null;
  const tail = times.how === "to-end" ? rest : null;
  return { open, close, tail, times: n, ...around };
}

/** What is to stand before and behind; null where this form is not for it. */
function marksFor({ tail, times, isOnly, holdsBracket }: Written, form: MarkedForm): [string, string] | null {
  if (tail === "") return null;
  if (form === "asterisk" && isOnly)
    return ["*", `; rep from * ${tail ?? (times === 2 ? "once more" : `${times - 1} more times`)}`];
  const [open, close] = holdsBracket ? ["[", "]"] : ["(", ")"];
  return [
    open,
    `${close} ${tail ?? (form === "x" ? `x${times}` : times === 2 ? "twice" : `${times} times`)}`,
  ];
}
