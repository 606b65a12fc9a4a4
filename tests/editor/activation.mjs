// Prints how long the installed extension takes to start, as VS Code itself measures it: `node tests/editor/activation.mjs`,
// after `npm run package`.
import { fileURLToPath } from "node:url";
import { whyNoEditorTest } from "./programs.mjs";
import { openWorkbench } from "./workbench.mjs";

const reason = whyNoEditorTest();
if (reason) {
  console.error(`SKIPPED  ${reason}`);
  process.exit(0);
}

const workbench = await openWorkbench(fileURLToPath(new URL("pouch.crochet", import.meta.url)));
try {
  const { page } = workbench;
  await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
  await workbench.run("Developer: Startup Performance");
  await page.waitForSelector(".tab:has-text('Startup Performance')");
  await page.waitForSelector(".view-line:has-text('System Info')");
  await page.click(".monaco-editor .view-lines >> nth=-1");
  await page.keyboard.press("Control+f");
  await page.waitForSelector(".find-widget.visible textarea");
  await page.keyboard.type("loopledger.loopledger");
  await page.keyboard.press("Enter");
  const line = await page.waitForSelector(".view-line:has-text('loopledger.loopledger')");
  // | Extension | Eager | Load code | Call activate | Event | By |
  const cells = ((await line.textContent()) ?? "").replaceAll("\u00a0", " ").split("|");
  const [load, call] = cells.slice(3, 5).map(Number);
  console.log(`ACTIVATION ${JSON.stringify({ load, call })}`);
} finally {
  await workbench.close();
}
