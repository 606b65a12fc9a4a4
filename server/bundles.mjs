// How each bundle is made: what is shipped, and what is measured.
import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { leftOutOfServer, leftOutOfWebClient, leftOutOfWebServer } from "./left-out.mjs";

export const root = fileURLToPath(new URL("..", import.meta.url));

const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));

export const common = {
  absWorkingDir: root,
  bundle: true,
  format: "cjs",
  minifySyntax: true,
  minifyWhitespace: true,
  minifyIdentifiers: true,
  legalComments: "none",
  // Words of other languages as they are, and not by the numbers of their letters.
  charset: "utf8",
  // Patterns to begin with are put in as they are.
  loader: { ".crochet": "text" },
  metafile: true,
  define: { "process.env.LOOPLEDGER_VERSION": JSON.stringify(version) },
  logLevel: "warning",
};

// Names stay as written: those of classes and functions are what a crash log shows.
export const node = { platform: "node", target: "node20", minifyIdentifiers: false };
// Over a line every kilobyte counts.
const web = {
  platform: "browser",
  target: "es2022",
  tsconfigRaw: { compilerOptions: { useDefineForClassFields: false } },
};

const sources = join(root, "server/src");
const commandLine = {
  ...node,
  entryPoints: ["server/src/cli/main.ts"],
  outfile: "dist/loopledger.js",
  banner: { js: "#!/usr/bin/env node" },
};

/** The command line needs the server for one command only: it is loaded from its own bundle then, and not at every start. */
const serverApart = {
  name: "server apart",
  setup: ({ onResolve }) =>
    onResolve({ filter: /\/lsp\/main-node$/ }, () => ({ path: "./server.js", external: true })),
};

/** What the command line shares with the server: all it needs of the layers below. It is shipped once. */
const coreModules = await modulesBelow({
  ...commandLine,
  alias: leftOutOfServer.alias,
  plugins: [serverApart, ...leftOutOfServer.plugins],
});

async function modulesBelow(bundle) {
  const { metafile } = await build({ ...common, ...bundle, write: false });
  return Object.keys(metafile.inputs)
    .flatMap((input) => /^server\/src\/((?!lsp\/|cli\/).*)\.ts$/.exec(input)?.[1] ?? [])
    .sort();
}

function exported(module, index) {
  return `export * as m${index} from "./${module}";`;
}

/** Takes what lies below the hosts from the bundle of its own. */
const coreApart = {
  name: "core apart",
  setup: ({ onResolve, onLoad }) => {
    onResolve({ filter: /^\./ }, ({ path, resolveDir }) => {
      const module = relative(sources, join(resolveDir, path)).replaceAll("\\", "/");
      return coreModules.includes(module) ? { path: module, namespace: "core" } : null;
    });
    onResolve({ filter: /^\.\/core\.js$/, namespace: "core" }, () => ({ path: "./core.js", external: true }));
    onLoad({ filter: /.*/, namespace: "core" }, ({ path }) => ({
      contents: `module.exports = require("./core.js").m${coreModules.indexOf(path)};`,
    }));
  },
};

const webServer = {
  ...web,
  ...leftOutOfWebServer,
  entryPoints: ["server/src/lsp/main-browser.ts"],
  outfile: "dist/server-web.js",
  format: "iife",
};

const privateMember = /\b(?:private|protected) (?:abstract )?(?:readonly )?(?:get |set )?\*?(\w+)/g;
const comment = /\/\*[\s\S]*?\*\/|\/\/[^\n]*/g;

/**
 * The private members of a bundle that are spoken of as `this.name` and in no other way, which may have short names.
 * A word that stands anywhere else, in our sources or in a package, stays as it is.
 */
async function privateNames(bundle) {
  const { metafile } = await build({ ...common, ...bundle, write: false });
  const sources = Object.keys(metafile.inputs).filter((input) => /^[\w./@-]+\.[mj]?[jt]s$/.test(input));
  const texts = sources.map((file) => readFileSync(join(root, file), "utf8").replace(comment, ""));
  const names = new Set(texts.flatMap((text) => [...text.matchAll(privateMember)].map(([, name]) => name)));
  for (const text of texts)
    for (const word of text
      .replace(privateMember, "")
      .replace(/\bthis\.\w+/g, "")
      .match(/\w+/g) ?? [])
      names.delete(word);
  return new RegExp(`^(?:${[...names].join("|")})$`);
}

export const bundles = {
  client: {
    ...node,
    entryPoints: ["client/src/main-node.ts"],
    outfile: "dist/client.js",
    external: ["vscode"],
  },
  core: {
    ...node,
    ...leftOutOfServer,
    stdin: { contents: coreModules.map(exported).join("\n"), resolveDir: sources },
    outfile: "dist/core.js",
  },
  server: {
    ...node,
    entryPoints: ["server/src/lsp/main-node.ts"],
    outfile: "dist/server.js",
    plugins: [coreApart, ...leftOutOfServer.plugins],
  },
  commandLine: { ...commandLine, plugins: [serverApart, coreApart] },
  webClient: {
    ...web,
    ...leftOutOfWebClient,
    entryPoints: ["client/src/main-browser.ts"],
    outfile: "dist/client-web.js",
    external: ["vscode"],
  },
  webServer: { ...webServer, mangleProps: await privateNames(webServer) },
};
