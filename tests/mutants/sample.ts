import { parseArgs } from "node:util";

const { values } = parseArgs({ options: { sample: { type: "string" } }, strict: false });

/** So many of them as `--sample` says, evenly spread; all where it is not said. */
export function sampled<T>(all: readonly T[]): readonly T[] {
  const stride = values.sample ? Math.max(1, all.length / Number(values.sample)) : 1;
  return Array.from({ length: Math.floor(all.length / stride) }, (_, i) => all[Math.floor(i * stride)] as T);
}
