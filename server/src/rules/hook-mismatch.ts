import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { HookLabel, HookSize } from "../notation/front-matter/hooks";
import { say } from "../text/say";
import type { Span, TextEdit } from "../text/span";
import { hookLabelOf, hookSizesOf } from "../trade/hooks";
import { sizesOfLabel } from "./hook-sizes";
import type { Fix, Found, PatternRule } from "./rule";
import { usesOf } from "./uses";
import { listed } from "./wording";

/** The millimetres of a hook are not those of its letter or number. */
export const hookMismatch: PatternRule = {
  id: "hook-mismatch",
  severity: "warning",
  documentation: `## What it finds
A hook whose millimetres do not go with the letter or number beside them in any of the published charts. A letter that makers sell in two sizes, such as G at 4 and 4.25 mm, is right in both.

## Why it matters
Makers take the one or the other, and come out with pieces of two sizes.

## Example
\`\`\`crochet
Hook: 5 mm (I-9)

Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
\`\`\`

## Mended
\`\`\`crochet
Hook: 5.5 mm (I-9)

Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
\`\`\`
`,
  check(pattern) {
    const listed = frontMatterOf(pattern.lines).hooks.map((hook) => ({ hook, offset: 0 }));
    const isListed = (at: number): boolean => listed.some(({ hook }) => hook.start === at);
    // A heading right below the lists is read with them.
    const used = usesOf(pattern)
      .hooks.map(({ line, mention }) => ({ hook: mention, offset: line.start }))
      .filter(({ hook, offset }) => !isListed(hook.start + offset));
    return [...listed, ...used].flatMap(({ hook, offset }) =>
      isBetween(hook) ? [] : hook.labels.flatMap((label) => check(hook, label, offset)),
    );
  },
};

/** `3 mm (US C/2 or D/3)`: a size that has no letter of its own, told by those beside it. */
function isBetween({ mm, labels }: HookSize): boolean {
  const sizes = labels.flatMap(sizesOfLabel);
  return mm !== null && labels.length > 1 && Math.min(...sizes) < mm && mm < Math.max(...sizes);
}

function check(hook: HookSize, label: HookLabel, offset: number): Found[] {
  const { mm, figures } = hook;
  const sizes = sizesOfLabel(label);
  if (mm === null || figures === null || sizes.length === 0 || sizes.includes(mm)) return [];
  // Some charts have the letter alone at another size: `G/6 (4.25 mm)` is on packets.
  const letter = label.system === null || label.system === "us" ? /[a-z]/i.exec(label.size)?.[0] : undefined;
  if (letter !== undefined && hookSizesOf(letter).includes(mm)) return [];
  const own = hookLabelOf(mm);
  const called = own && label.system === null ? say`, and ${mm} mm as ${own}` : "";
  const at = ({ start, end }: Span): Span => ({ start: start + offset, end: end + offset });
  const charts = say`the charts print ${label.text} at ${listed(
    sizes.map((size) => `${size} mm`),
    "or",
  )}${called}`;
  return [
    {
      span: at(hook),
      message: say`${mm} mm and ${label.text} are not the same hook: ${charts}. Which is meant?`,
      fixes: fixesFor(sizes, own, at(figures), label, offset),
      related: [],
    },
  ];
}

function fixesFor(
  sizes: readonly number[],
  own: string | null,
  figures: Span,
  label: HookLabel,
  offset: number,
): Fix[] {
  const toSize = sizes.map((size) => replacing(say`Write ${size} mm`, figures, `${size}`));
  if (own === null || label.system === "uk" || label.system === "steel") return toSize;
  const start = label.end - label.size.length + offset;
  const written = label.size.includes("/") ? own.replace("-", "/") : own;
  return [...toSize, replacing(say`Write ${written}`, { start, end: label.end + offset }, written)];
}

function replacing(title: string, span: Span, newText: string): Fix {
  return { title, edits: (): TextEdit[] => [{ span, newText }] };
}
