import type { HookLabel, HookSize } from "../notation/front-matter/hooks";
import { keptBy } from "../text/kept-by";
import { hookSizesOf, hookSizesOfSteel, hookSizesOfUk } from "../trade/hooks";

/** The sizes in millimetres that a label may mean; a number alone may be a US, an old UK or a steel one. */
export const sizesOfLabel = keptBy(({ system, size }: HookLabel): readonly number[] => {
  if (system === "us") return hookSizesOf(size);
  if (system === "uk") return hookSizesOfUk(size);
  const all = [
    ...hookSizesOf(size),
    ...(/^\d+$/.test(size) ? [...hookSizesOfUk(size), ...hookSizesOfSteel(size)] : []),
  ];
  return [...new Set(all)].sort((a, b) => a - b);
});

/** The sizes that a hook may have as the pattern names it. */
export function sizesOfHook({ mm, labels }: HookSize): readonly number[] {
  return mm === null ? labels.flatMap(sizesOfLabel) : [mm];
}
