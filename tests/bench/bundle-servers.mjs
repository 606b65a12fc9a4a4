// Bundles the servers that are measured over stdio, and the command line: `node bundle-servers.mjs FOLDER`.
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

/** As shipped, the command line has the server in a file of its own. */
const serverApart = {
  name: "server apart",
  setup: ({ onResolve }) =>
    onResolve({ filter: /\/lsp\/main-node$/ }, () => ({ path: "./loopledger.cjs", external: true })),
};

await build({
  entryPoints: {
    loopledger: here("../../server/src/lsp/main-node.ts"),
    yardstick: here("yardstick-server.ts"),
    "command-line": here("../../server/src/cli/main.ts"),
  },
  outdir: process.argv[2],
  outExtension: { ".js": ".cjs" },
  bundle: true,
  minify: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  mainFields: ["module", "main"],
  plugins: [serverApart],
  logLevel: "warning",
});
