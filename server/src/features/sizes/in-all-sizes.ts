import { isRefusal, type Refusal } from "../../reshape/row-trial";
import { inAllSizes } from "../../reshape/sizes/all-sizes";
import { say } from "../../text/say";
import type { TextEdit } from "../../text/span";
import type { Finding } from "../../workspace/report";
import type { NotedEdit, Scene } from "../actions/action";
import type { SizeScene } from "./size-scenes";

/** What is changed in one size. */
export interface EditsOfSize {
  readonly size: SizeScene;
  readonly edits: readonly NotedEdit[];
}

/** The changes of all sizes together. */
export interface ProvedInAllSizes {
  readonly edits: readonly NotedEdit[];
  /** What is found then that stands in no one's way. */
  readonly told: readonly Finding[];
}

/** The changes of each size as changes of the whole pattern, if nothing new is found then but by some rules; or why not. */
export function provedInAllSizes(
  { text, prover }: Scene,
  each: readonly EditsOfSize[],
  onlyTold: ReadonlySet<string> = new Set(),
): ProvedInAllSizes | Refusal {
  const merged = inAllSizes(
    text,
    each.map(({ size, edits }) => ({ one: size.one, edits })),
  );
  if (isRefusal(merged)) return merged;
  const after = prover.aftermath(merged, []);
  if (!after) return { why: say`nothing has to be changed` };
  const fresh = after.fresh.find(({ rule }) => !onlyTold.has(rule));
  if (fresh) return { why: say`something else would be wrong then: ${fresh.message}` };
  const notes = notesByLine(each);
  const edits = merged.map((edit) => ({ ...edit, ...notes.get(lineAt(text, edit)) }));
  return { edits, told: after.fresh };
}

/** The notes of each line, whichever size has them. */
function notesByLine(each: readonly EditsOfSize[]): Map<number, Pick<NotedEdit, "note">> {
  const notes = new Map<number, Pick<NotedEdit, "note">>();
  for (const { size, edits } of each)
    for (const edit of edits) {
      const line = lineAt(size.one.text, edit);
      if (edit.note && !notes.has(line)) notes.set(line, { note: edit.note });
    }
  return notes;
}

/** The pattern for one size has the lines of the whole. */
function lineAt(text: string, { span }: TextEdit): number {
  return text.slice(0, span.start).split("\n").length;
}

/** A decimal is one number. */
const number = /\d+(?:\.\d+)?/g;

/** What is said of each size, in one sentence: `62`, `68` and `74 sts` are `62 (68, 74) sts`; null where the words differ. */
export function saidOfAll(texts: readonly string[]): string | null {
  const [first, ...others] = texts;
  if (first === undefined || others.some((one) => shapeOf(one) !== shapeOf(first))) return null;
  const all = texts.map((one) => one.match(number) ?? []);
  let at = 0;
  return first.replace(number, () => {
    const numbers = all.map((one) => one[at] ?? "");
    at++;
    const [own, ...rest] = numbers;
    return rest.every((n) => n === own) ? `${own}` : `${own} (${rest.join(", ")})`;
  });
}

/** The words, without the numbers. */
export function shapeOf(text: string): string {
  return text.replace(number, "0");
}
