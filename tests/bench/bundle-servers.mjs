// Bundles the servers that are measured over stdio: `node bundle-servers.mjs FOLDER`.
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

await build({
  entryPoints: {
    loopledger: here("../../server/src/lsp/main-node.ts"),
    yardstick: here("yardstick-server.ts"),
  },
  outdir: process.argv[2],
  outExtension: { ".js": ".cjs" },
  bundle: true,
  minify: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  mainFields: ["module", "main"],
  logLevel: "warning",
});
