import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type BuildOptions, build } from "esbuild";
import { afterAll } from "vitest";
import { leftOutOfServer } from "../../server/left-out.mjs";

const source = fileURLToPath(new URL("../../server/src/", import.meta.url));

export const TEST_VERSION = "9.8.7-test";

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** A fresh folder that is gone when the tests of the file are done. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "loopledger-"));
  folders.push(folder);
  return folder;
}

/** Bundles one host as it is shipped and gives the script's path. */
export function bundle(entry: "cli/main.ts" | "lsp/main-node.ts"): Promise<string> {
  return bundled(entry, { platform: "node", format: "cjs", target: "node20" });
}

/** Bundles the server as a browser's worker runs it and gives the script's path. */
export function bundleWorker(): Promise<string> {
  return bundled("lsp/main-browser.ts", { platform: "browser", format: "iife", target: "es2022" });
}

async function bundled(entry: string, kind: BuildOptions): Promise<string> {
  const outfile = join(temporaryFolder(), "host.cjs");
  await build({
    entryPoints: [join(source, entry)],
    outfile,
    bundle: true,
    logLevel: "warning",
    define: { "process.env.LOOPLEDGER_VERSION": JSON.stringify(TEST_VERSION) },
    ...leftOutOfServer,
    ...kind,
  });
  return outfile;
}
