// Bundles what is shipped: the client and the server of the extension, for the desktop and for
// the browser, and the command line.
// Run by `npm run build`. Bundling checks no types: that is `npm run types`.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { bundles, common, root } from "./bundles.mjs";

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
const building = Object.values(bundles).map((bundle) => build({ ...common, ...bundle }));
const results = await Promise.allSettled(building);
if (results.some(({ status }) => status === "rejected")) process.exit(1);

// What the server says in other languages: read only by those who use them.
mkdirSync(join(root, "dist/l10n"), { recursive: true });
for (const name of readdirSync(join(root, "server/l10n"))) {
  const sentences = JSON.parse(readFileSync(join(root, "server/l10n", name), "utf8"));
  writeFileSync(join(root, "dist/l10n", name), JSON.stringify(sentences));
}

const packages = [...new Set(results.flatMap(({ value }) => packagesIn(value)))].sort();
writeFileSync(
  join(root, "dist/third-party-licences.txt"),
  packages.map(notice).join(`\n${"-".repeat(80)}\n\n`),
);
