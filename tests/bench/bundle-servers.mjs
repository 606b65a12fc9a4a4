// Bundles the servers that are measured over stdio, and the command line: `node bundle-servers.mjs FOLDER`.
import { join } from "node:path";
import { build } from "esbuild";
import { bundles, common, node } from "../../server/bundles.mjs";

const folder = process.argv[2];

/** As shipped, but into the folder. */
const shipped = [bundles.core, bundles.server, bundles.commandLine].map((bundle) => ({
  ...bundle,
  outfile: join(folder, bundle.outfile),
}));

const yardstick = {
  ...node,
  entryPoints: ["tests/bench/yardstick-server.ts"],
  outfile: join(folder, "dist/yardstick.js"),
  // What the services have as their main script cannot be bundled.
  mainFields: ["module", "main"],
};

await Promise.all([...shipped, yardstick].map((bundle) => build({ ...common, ...bundle })));
