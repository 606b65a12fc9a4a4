// Bundles the suite for the process in which VS Code runs extensions, and for an editor that can only be given
// extensions: there it is one itself.
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

/**
 * Gives the folder of the suite, an extension of its own; its script can be named alone too.
 * @param {string} root of the project
 */
export async function bundleSuite(root) {
  const folder = join(root, ".types/desktop-suite");
  mkdirSync(folder, { recursive: true });
  const script = join(folder, "suite.cjs");
  await build({
    entryPoints: [fileURLToPath(new URL("desktop/suite.ts", import.meta.url))],
    outfile: script,
    bundle: true,
    platform: "node",
    format: "cjs",
    target: "node20",
    external: ["vscode"],
    logLevel: "warning",
  });
  const manifest = {
    name: "loopledger-suite",
    publisher: "loopledger",
    version: "0.0.1",
    engines: { vscode: "^1.91.0" },
    main: "./suite.cjs",
    activationEvents: ["onStartupFinished"],
  };
  writeFileSync(join(folder, "package.json"), JSON.stringify(manifest, null, 2));
  return { folder, script };
}
