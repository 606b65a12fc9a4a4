// Bundles what is shipped: the client and the server of the extension, for the desktop and for
// the browser, and the command line.
// Run by `npm run build`. Bundling checks no types: that is `npm run types`.
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { leftOutOfServer, leftOutOfWebClient } from "./left-out.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));

const { version } = packageIn("");

const common = {
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
const node = { platform: "node", target: "node20", keepNames: true };
// Over a line every kilobyte counts.
const web = { platform: "browser", target: "es2022" };

/** The command line needs the server for one command only: it is loaded from its own bundle then, and not at every start. */
const serverApart = {
  name: "server apart",
  setup: ({ onResolve }) =>
    onResolve({ filter: /\/lsp\/main-node$/ }, () => ({ path: "./server.js", external: true })),
};

const bundles = [
  { ...node, entryPoints: ["client/src/main-node.ts"], outfile: "dist/client.js", external: ["vscode"] },
  {
    ...node,
    ...leftOutOfServer,
    entryPoints: ["server/src/lsp/main-node.ts"],
    outfile: "dist/server.js",
  },
  {
    ...node,
    entryPoints: ["server/src/cli/main.ts"],
    outfile: "dist/loopledger.js",
    banner: { js: "#!/usr/bin/env node" },
    alias: leftOutOfServer.alias,
    plugins: [serverApart, ...leftOutOfServer.plugins],
  },
  {
    ...web,
    ...leftOutOfWebClient,
    entryPoints: ["client/src/main-browser.ts"],
    outfile: "dist/client-web.js",
    external: ["vscode"],
  },
  {
    ...web,
    ...leftOutOfServer,
    entryPoints: ["server/src/lsp/main-browser.ts"],
    outfile: "dist/server-web.js",
    format: "iife",
  },
];

/** The packages whose code went into a bundle, as folders below the root. */
function packagesIn({ metafile }) {
  const folder = /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/;
  return Object.keys(metafile.inputs).flatMap((input) => folder.exec(input)?.[0] ?? []);
}

/** The manifest of the package in a folder below the root. */
function packageIn(folder) {
  return JSON.parse(readFileSync(join(root, folder, "package.json"), "utf8"));
}

/** The licence of one package, headed by its name and version. */
function notice(folder) {
  const { name, version } = packageIn(folder);
  const file = readdirSync(join(root, folder)).find((each) => /^licen[cs]e/i.test(each));
  if (!file) throw new Error(`${name} ${version} is bundled, and its folder holds no licence to pass on.`);
  return `${name} ${version}\n\n${readFileSync(join(root, folder, file), "utf8").trim()}\n`;
}

// esbuild itself says where and why a build failed.
const building = bundles.map((bundle) => build({ ...common, ...bundle }));
const results = await Promise.allSettled(building);
if (results.some(({ status }) => status === "rejected")) process.exit(1);

const packages = [...new Set(results.flatMap(({ value }) => packagesIn(value)))].sort();
writeFileSync(
  join(root, "dist/third-party-licences.txt"),
  packages.map(notice).join(`\n${"-".repeat(80)}\n\n`),
);
