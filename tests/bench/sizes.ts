import { existsSync, readFileSync, statSync } from "node:fs";
import { gzipSync } from "node:zlib";
import type { Figure } from "./figure";

interface Shipped {
  readonly file: string;
  readonly what: string;
  readonly goal?: number;
  readonly sizeOf: (file: string) => number;
}

const inFull = (file: string) => statSync(file).size;
const zipped = (file: string) => gzipSync(readFileSync(file), { level: 9 }).length;

/** As `server/check-sizes.mjs` has them for the limits of a build. */
const shipped: readonly Shipped[] = [
  { file: "loopledger.vsix", what: "extension file (.vsix)", goal: 1_500, sizeOf: inFull },
  { file: "dist/server-web.js", what: "server for the web, gzipped", goal: 350, sizeOf: zipped },
  { file: "dist/client-web.js", what: "client for the web, gzipped", sizeOf: zipped },
  { file: "dist/core.js", what: "what server and command line share", sizeOf: inFull },
  { file: "dist/server.js", what: "server", sizeOf: inFull },
  { file: "dist/loopledger.js", what: "command line", sizeOf: inFull },
];

/** Of what `npm run package` has made; nothing of what it has not. */
export function sizes(): Figure[] {
  return shipped.flatMap(({ file, what, sizeOf, ...goal }): Figure[] =>
    existsSync(file)
      ? [{ what: `size: ${what}`, value: sizeOf(file) / 1000, unit: "kB", ...withGoal(goal) }]
      : [],
  );
}

function withGoal({ goal }: Pick<Shipped, "goal">): Pick<Figure, "goal"> | object {
  return goal === undefined ? {} : { goal };
}
