// `npm run reshape`: rows of real patterns rewritten for other counts, and whether each keeps its promises.
import { parseArgs } from "node:util";
import { Random } from "../bench/random";
import { realTexts } from "./corpus";
import { everyCount } from "./every-count";
import { offers } from "./offers";
import { cases, type Tried } from "./random-cases";

const { values } = parseArgs({
  options: {
    cases: { type: "string" },
    seed: { type: "string" },
    counts: { type: "string" },
    only: { type: "string" },
  },
  strict: false,
});

/** The share of understood rows with the action in their list, when this was last looked at. */
const parts: Readonly<Record<string, () => string>> = {
  offers,
  random: () => randomCases(Number(values.cases ?? 100_000), Number(values.seed ?? Date.now() % 100_000)),
  counts: () => everyCount(Number(values.counts ?? 200)),
};

function randomCases(many: number, seed: number): string {
  const texts = realTexts();
  const refused = new Map<string, number>();
  const broken: Tried[] = [];
  let had = 0;
  for (const one of cases(texts, new Random(seed), many)) {
    if (one.refused === null) had++;
    else {
      const why = one.refused.replace(/\d+/g, "#").slice(0, 60);
      refused.set(why, (refused.get(why) ?? 0) + 1);
    }
    if (one.broken !== null) broken.push(one);
  }
  if (broken.length > 0) process.exitCode = 1;
  const reasons = [...refused].sort((a, b) => b[1] - a[1]).slice(0, 25);
  return [
    `## ${many} random rows and counts from half to double, seed ${seed}`,
    `${had} could be had as asked (${((100 * had) / many).toFixed(1)} %); of these ${had - broken.length} come to the count that was promised and bring no query, ${broken.length} do not.`,
    `Refused:\n\n${reasons.map(([why, n]) => `- ${n}: ${why}`).join("\n")}`,
    ...broken
      .slice(0, 40)
      .map(
        ({ asked, broken: why, after }) =>
          `- ${asked.name}: ${asked.row.line.text} → ${asked.counts}: ${why}\n\n${after.text}`,
      ),
  ].join("\n\n");
}

for (const [name, part] of Object.entries(parts)) {
  if (values.only && values.only !== name) continue;
  const started = Date.now();
  console.log(`${part()}\n\n(${Math.round((Date.now() - started) / 1000)} s)\n`);
}
