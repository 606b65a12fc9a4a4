import type { AsMeant } from "../notation/as-meant";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { closest } from "./closest";
import type { Finding, Fix, Rule } from "./rule";

/** A remark `[as meant: …]` that answers nothing: it would hide a slip made later. */
export const idleRemark: Rule = {
  id: "idle-remark",
  severity: "information",
  documentation: `## What it finds
A remark \`[as meant: …]\` that answers no query: its name is mistyped, or what it answered is mended.

## Why it matters
A mistyped remark leaves the query standing. One that is no longer needed would hide the next slip in its row.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12) [as meant: wrong-count]
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
\`\`\`
`,
};

/** One name of a remark that answers nothing where it stands; without a name, the whole remark. */
export interface AnsweredNothing {
  readonly remark: AsMeant;
  readonly name: AsMeant["names"][number] | null;
}

/** A note on each; `ids` are the names there are. */
export function idleRemarks(
  idle: readonly AnsweredNothing[],
  text: string,
  ids: readonly string[],
): Finding[] {
  const { id: rule, severity } = idleRemark;
  return idle.map((one) => ({ rule, severity, ...noteOn(one, text, ids), related: [] }));
}

type Note = Pick<Finding, "span" | "message" | "fixes">;

function noteOn({ remark, name }: AnsweredNothing, text: string, ids: readonly string[]): Note {
  const { start, end } = name ?? remark;
  const span = { start, end };
  if (name === null)
    return {
      span,
      message: say`This remark names no query. Write the name of the query it answers: "[as meant: wrong-count]".`,
      fixes: [],
    };
  if (!ids.includes(name.name)) return mistyped(name, span, ids);
  return {
    span,
    message: say`Nothing is wrong here by the name of "${name.name}", so the remark can go.`,
    fixes: [{ title: say`Take the remark away`, edits: () => [without(remark, name.name, text)] }],
  };
}

function mistyped({ name }: { readonly name: string }, span: Span, ids: readonly string[]): Note {
  const likely = closest(name, ids);
  const says = say`"${name}" is the name of no query, so the remark answers nothing.`;
  if (!likely)
    return {
      span,
      message: say`${says} The name stands behind each query in the list of problems.`,
      fixes: [],
    };
  const fix: Fix = { title: say`Write "${likely}"`, edits: () => [{ span, newText: likely }] };
  return { span, message: say`${says} Did you mean "${likely}"?`, fixes: [fix] };
}

function without({ start, end, names }: AsMeant, gone: string, text: string) {
  const others = names.map(({ name }) => name).filter((name) => name !== gone);
  if (others.length > 0) return { span: { start, end }, newText: `[as meant: ${others.join(", ")}]` };
  let from = start;
  while (text[from - 1] === " " || text[from - 1] === "\t") from--;
  return { span: { start: from, end }, newText: "" };
}
