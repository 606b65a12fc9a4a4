import { say } from "../text/say";
import { shift } from "../text/span";
import type { RowRule } from "./rule";
import { saidAgain } from "./said-again";
import { rowName, says } from "./wording";

/** The same words stand twice, one behind the other, and nothing can be worked by the second ones. */
export const saidTwice: RowRule = {
  id: "said-twice",
  severity: "warning",
  documentation: `## What it finds
The same words twice, one behind the other, where they can hold only once: how often ("6 times, 6 times"), how far ("around, around"), where ("in next ch-2 sp, in next ch-2 sp"), a stitch in a chain that is counted from the hook, a slip stitch to the space where the round begins. Stitches that are told twice are worked twice: of those nothing is said.

## Why it matters
The maker asks what was to stand there instead.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: *2 sc in next st; rep from * around, around, join. (12)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: *2 sc in next st; rep from * around, join. (12)
\`\`\`
`,
  check(row) {
    const { plan, start } = row.line;
    // Where they make the row wrong, that is told.
    const isWrong = row.result === "does-not-fit" || row.result === "wrong-count";
    const at = plan && !isWrong ? saidAgain(plan) : null;
    if (!plan || !at) return [];
    const second = shift(at, start);
    const said = plan.text.slice(at.start, at.end).replace(/^[\s,;]+/, "");
    return [
      {
        span: second,
        message: say`${says(rowName(row), "says")} "${said}" twice, one behind the other. Did you mean it once?`,
        fixes: [{ title: say`Write it once`, edits: () => [{ span: second, newText: "" }] }],
        related: [],
      },
    ];
  },
};
