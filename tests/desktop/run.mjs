// `npm run test:desktop`: the suite in a desktop VS Code, which is downloaded where that can be done.
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { downloadAndUnzipVSCode, runTests } from "@vscode/test-electron";
import { bundleSuite } from "../desktop-suite.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** The program, or null where it cannot be had; `LOOPLEDGER_REQUIRE_DESKTOP` makes that a failure. */
async function program() {
  try {
    return await downloadAndUnzipVSCode("stable");
  } catch (fault) {
    if (process.env.LOOPLEDGER_REQUIRE_DESKTOP) throw fault;
    console.warn(`\n${"!".repeat(80)}\nNOT TESTED ON THE DESKTOP: ${fault}\n${"!".repeat(80)}\n`);
    return null;
  }
}

const { script } = await bundleSuite(root);
const vscodeExecutablePath = await program();
if (vscodeExecutablePath) {
  await runTests({
    vscodeExecutablePath,
    extensionDevelopmentPath: root,
    extensionTestsPath: script,
    launchArgs: [
      join(root, "samples"),
      "--disable-extensions",
      "--skip-welcome",
      "--disable-workspace-trust",
    ],
  });
}
