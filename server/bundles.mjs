// How each bundle is made: what is shipped, and what is measured.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { leftOutOfServer, leftOutOfWebClient } from "./left-out.mjs";

export const root = fileURLToPath(new URL("..", import.meta.url));

const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));

export const common = {
  absWorkingDir: root,
  bundle: true,
  format: "cjs",
  minify: true,
  legalComments: "none",
  // Patterns to begin with are put in as they are.
  loader: { ".crochet": "text" },
  metafile: true,
  define: { "process.env.LOOPLEDGER_VERSION": JSON.stringify(version) },
  logLevel: "warning",
};

// Names of classes and functions stay as written: they are what a crash log shows.
export const node = { platform: "node", target: "node20", keepNames: true };
// Over a line every kilobyte counts.
const web = { platform: "browser", target: "es2022" };

/** The command line needs the server for one command only: it is loaded from its own bundle then, and not at every start. */
const serverApart = {
  name: "server apart",
  setup: ({ onResolve }) =>
    onResolve({ filter: /\/lsp\/main-node$/ }, () => ({ path: "./server.js", external: true })),
};

export const bundles = {
  client: {
    ...node,
    entryPoints: ["client/src/main-node.ts"],
    outfile: "dist/client.js",
    external: ["vscode"],
  },
  server: {
    ...node,
    ...leftOutOfServer,
    entryPoints: ["server/src/lsp/main-node.ts"],
    outfile: "dist/server.js",
  },
  commandLine: {
    ...node,
    entryPoints: ["server/src/cli/main.ts"],
    outfile: "dist/loopledger.js",
    banner: { js: "#!/usr/bin/env node" },
    alias: leftOutOfServer.alias,
    plugins: [serverApart, ...leftOutOfServer.plugins],
  },
  webClient: {
    ...web,
    ...leftOutOfWebClient,
    entryPoints: ["client/src/main-browser.ts"],
    outfile: "dist/client-web.js",
    external: ["vscode"],
  },
  webServer: {
    ...web,
    ...leftOutOfServer,
    entryPoints: ["server/src/lsp/main-browser.ts"],
    outfile: "dist/server-web.js",
    format: "iife",
  },
};
