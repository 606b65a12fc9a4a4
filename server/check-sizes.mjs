// Fails when what is shipped has grown too large to install or to load. Run by `npm run package`.
import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

const root = fileURLToPath(new URL("..", import.meta.url));

const inFull = (file) => statSync(file).size;
/** As it goes over a line. */
const zipped = (file) => gzipSync(readFileSync(file), { level: 9 }).length;

// In thousands of bytes.
const limits = [
  { file: "loopledger.vsix", sizeOf: inFull, limit: 1500 },
  { file: "dist/server-web.js", sizeOf: zipped, limit: 350 },
  { file: "dist/client-web.js", sizeOf: zipped, limit: 110 },
];

for (const { file, sizeOf, limit } of limits) {
  const size = Math.round(sizeOf(join(root, file)) / 1000);
  console.log(`${file}: ${size} kB, at most ${limit} kB`);
  if (size > limit) process.exitCode = 1;
}
