// Where an editor may do less than usual: a folder that nobody trusts, a file that cannot be written.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { editorLimits as limits } from "./limits.mjs";
import { openWorkbench } from "./workbench.mjs";

const pattern = fileURLToPath(new URL("pouch.crochet", import.meta.url));

test("in a folder that is not trusted, a slip is found and mended as anywhere", limits, async (t) => {
  const moreSettings = { "security.workspace.trust.startupPrompt": "never" };
  const workbench = await openWorkbench(pattern, { flags: [], moreSettings });
  t.after(workbench.close);
  const { page } = workbench;
  try {
    await page.waitForSelector(".statusbar-item:has-text('Restricted Mode')");
    await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
    await workbench.goTo(8, 19);
    await workbench.overwrite("5");
    await page.waitForSelector(".squiggly-error");
    await workbench.goTo(8, 1);
    await page.keyboard.press("Control+.");
    await page.waitForSelector('.action-widget .focused:has-text(\'Change "x5" to "x6"\')');
    await page.keyboard.press("Enter");
    await page.waitForSelector(".squiggly-error", { state: "detached" });
    await workbench.screenshot("restricted");
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test(
  "a file that cannot be written is checked, and what would change it is not offered",
  limits,
  async (t) => {
    const moreSettings = { "files.readonlyInclude": { "**/*.crochet": true } };
    const workbench = await openWorkbench(pattern, { moreSettings });
    t.after(workbench.close);
    const { page } = workbench;
    try {
      await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
      await page.keyboard.press("F1");
      await page.waitForSelector(".quick-input-widget input:focus");
      await page.keyboard.type("Loopledger: ");
      await page.waitForSelector(".quick-input-list .monaco-list-row:has-text('Read this row in words')");
      await workbench.screenshot("read-only");
      const offered = await page.locator(".quick-input-list .monaco-list-row").allTextContents();
      assert.ok(
        !offered.some((title) => /Resize|Rewrite|Add a size|Turn into/.test(title)),
        offered.join(", "),
      );
      await page.keyboard.press("Escape");
      await workbench.run("Loopledger: Draft in another language");
      await page.waitForSelector(".quick-input-list .monaco-list-row:has-text('German')");
    } catch (fault) {
      await workbench.screenshot("failed");
      throw fault;
    }
  },
);
