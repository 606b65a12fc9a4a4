// The built extension in a worker of the page, as in VS Code for the Web: no process of Node runs any of it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { editorLimits } from "./limits.mjs";
import { openInPage } from "./workbench.mjs";

const pattern = fileURLToPath(new URL("pouch.crochet", import.meta.url));

test("in the browser alone, a slip is marked, and mended by what is offered", editorLimits, async (t) => {
  const workbench = await openInPage(pattern);
  t.after(workbench.close);
  const { page } = workbench;
  try {
    await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
    await workbench.goTo(8, 19);
    await page.waitForSelector(".statusbar-item:has-text('Rnd 3: 18 sts')");
    await workbench.overwrite("5");
    await page.waitForSelector(".squiggly-error");
    // Arithmetic: (sc, inc) is worked over 2 stitches, five of them over 10; Rnd 2 leaves 12.
    const message = await workbench.nextFinding();
    assert.match(message, /\b10\b/);
    assert.match(message, /\b12\b/);
    await workbench.screenshot("in-the-browser");

    await workbench.goTo(8, 1);
    await page.keyboard.press("Control+.");
    await page.waitForSelector('.action-widget .focused:has-text(\'Change "x5" to "x6"\')');
    await page.keyboard.press("Enter");
    await page.waitForSelector(".squiggly-error", { state: "detached" });
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test(
  "in the browser alone, a new pattern begins as a template, checked as it comes",
  editorLimits,
  async (t) => {
    const workbench = await openInPage(pattern);
    t.after(workbench.close);
    const { page } = workbench;
    try {
      await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
      await workbench.run("Loopledger: New crochet pattern");
      await page.waitForSelector(".quick-input-list .monaco-list-row.focused:has-text('Pouch')");
      await page.keyboard.press("Enter");
      await page.waitForSelector(".tab:has-text('Untitled-1')");
      await workbench.goTo(30, 1);
      await page.waitForSelector(".statusbar-item:has-text('30 sts')");
      await page.waitForSelector(".codelens-decoration:has-text('14 rounds')");
      assert.equal(await page.locator(".squiggly-error, .squiggly-warning, .squiggly-info").count(), 0);
    } catch (fault) {
      await workbench.screenshot("failed");
      throw fault;
    }
  },
);

test("the next row stands in grey, and a repeat is told of while it is written", editorLimits, async (t) => {
  const workbench = await openInPage(pattern);
  t.after(workbench.close);
  const { page } = workbench;
  try {
    await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
    await workbench.goTo(9, 29);
    await page.keyboard.press("Enter");
    // Arithmetic: six more than the 24 of Rnd 4.
    await page.waitForSelector(".view-line:has-text('(3 sc, inc) x6 (30)')");
    await page.keyboard.press("Escape");
    await page.keyboard.type("Rnd 5: (3 sc, inc");
    // Each time over 4 of 24 stitches.
    await page.waitForSelector(".parameter-hints-widget :text('As a repeat it fits 6 times.')");
    await workbench.screenshot("repeat-help");
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});
