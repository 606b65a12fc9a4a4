// Bundles one TypeScript file and what it imports, and runs it: `node run-bundled.mjs FILE [ARGUMENT…]`.
// Measuring runs want plain JavaScript, as it is shipped, and no other process beside them.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const [entry, ...rest] = process.argv.slice(2);
if (!entry) {
  console.error("Name the TypeScript file to run.");
  process.exit(2);
}

const folder = mkdtempSync(join(tmpdir(), "loopledger-run-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
const outfile = join(folder, "run.mjs");
await build({
  entryPoints: [entry],
  outfile,
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node20",
  mainFields: ["module", "main"],
  // Packages in the older format ask for Node's own modules in the older way.
  banner: {
    js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
  },
  logLevel: "warning",
});
process.argv = [process.argv[0], outfile, ...rest];
await import(pathToFileURL(outfile).href);
