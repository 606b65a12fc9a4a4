// `npm test`: everything that must hold, on a fresh clone too. Goes on after a failure, so that one run tells all.
import { whyNoEditorTest } from "./editor/programs.mjs";
import { installPackages, requireNode, watchNpm } from "./npm.mjs";

const steps = [
  { script: "types", checks: "types and layers" },
  { script: "lint", checks: "style" },
  { script: "audit", checks: "what is known against the packages that are shipped" },
  { script: "unit", checks: "tests of the core, the rules and the protocol" },
  { script: "fuzz", args: ["--minutes", "0.25"], checks: "random sessions with the server" },
  { script: "mutants", args: ["--sample", "400"], checks: "slips put into right patterns" },
  { script: "bench", args: ["ratios"], checks: "ratios of times, which hold on any machine" },
  { script: "test:editor", checks: "the built extension in a real editor" },
];

/** @param {{ script: string, args?: string[], checks: string }} step */
async function run({ script, args = [], checks }) {
  console.log(`\n── ${checks} (npm run ${script})`);
  const started = Date.now();
  const { passed, end } = await watchNpm(["run", "--silent", script, "--", ...args]);
  return { script, checks, passed, end, seconds: Math.round((Date.now() - started) / 1000) };
}

requireNode();
if (!installPackages()) {
  console.error("The packages could not be installed; npm says why above.");
  process.exit(1);
}

const results = [];
for (const step of steps) results.push(await run(step));

// Said again at the end: of a long log, only that part may be at hand.
for (const { checks, end } of results.filter(({ passed }) => !passed)) {
  console.log(`\n── what was said last of ${checks}\n${end}`);
}
console.log("");
for (const { script, checks, passed, seconds } of results) {
  console.log(`${passed ? "passed" : "FAILED"}  ${checks}: npm run ${script} (${seconds} s)`);
}
const reason = whyNoEditorTest();
if (reason) console.log(`SKIPPED  the real editor: ${reason}`);
process.exitCode = results.every(({ passed }) => passed) ? 0 : 1;
