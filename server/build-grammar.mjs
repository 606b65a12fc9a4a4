// Precompiles the grammar of rows, so that starting the server does not have to (milliseconds at every start).
// Run by `npm run grammar`; does nothing when its output is newer than its input.
import { existsSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import generateBundles from "@ohm-js/cli/src/commands/generateBundles/index.js";

const folder = fileURLToPath(new URL("src/notation/", import.meta.url));
const grammar = "rows.ohm";
const outputs = [`${grammar}-bundle.js`, `${grammar}-bundle.d.ts`];

/** When a file was last changed, in milliseconds; 0 for a file that is not there. */
function changed(file) {
  return statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}

/** The youngest thing the output depends on: the grammar, the library that compiles it, and this script. */
function newestInput() {
  const library = createRequire(import.meta.url).resolve("ohm-js");
  return Math.max(...[folder + grammar, library, fileURLToPath(import.meta.url)].map(changed));
}

/** What comes again and again in a recipe, by a short name; in `z` no part says where it came from. */
const shorthand = 'const z={},a=n=>["app",z,n,[]],t=c=>["terminal",z,c];';

/** Leaves out which characters of the grammar each part of it came from: rows are matched without. Each kilobyte goes over a line. */
function shorten(file) {
  const recipe = readFileSync(file, "utf8");
  const short = recipe
    .replace(/\{"sourceInterval":\[\d+,\d+\]\}/g, "z")
    .replace(/\{"source":"(?:[^"\\]|\\.)*"\}/, "z")
    .replace(/\["app",z,("[^"]*"),\[\]\]/g, "a($1)")
    .replace(/\["terminal",z,("(?:[^"\\]|\\.)*")\]/g, "t($1)")
    .replace("const result", `${shorthand}const result`);
  if (!short.includes('a("part")'))
    throw new Error(`${file} has another form than it had: nothing could be left out.`);
  writeFileSync(file, short);
}

if (!existsSync(folder + grammar)) {
  console.log(`No ${folder + grammar} yet: nothing to compile.`);
} else if (outputs.some((output) => changed(folder + output) < newestInput())) {
  generateBundles.action([grammar], { cwd: folder, withTypes: true, esm: true });
  shorten(`${folder}${grammar}-bundle.js`);
}
