// The built extension, installed from its file into a real VS Code under a real browser.
import assert from "node:assert/strict";
import { existsSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { bundleSuite } from "../desktop-suite.mjs";
import { root } from "../npm.mjs";
import { editorLimits as limits } from "./limits.mjs";
import { openWorkbench } from "./workbench.mjs";

const pattern = fileURLToPath(new URL("pouch.crochet", import.meta.url));
const doll = fileURLToPath(new URL("doll.crochet", import.meta.url));
const samplePouch = join(root, "samples/cord-pouch.crochet");
const multiplier = { line: 8, column: 19 };

test("the suite of the desktop passes in the editor that is served to a browser", limits, async (t) => {
  const { folder } = await bundleSuite(root);
  const result = join(root, ".types/desktop-suite/result.txt");
  rmSync(result, { force: true });
  const workbench = await openWorkbench(pattern, { suite: { folder, result } });
  t.after(workbench.close);
  while (!existsSync(result)) await workbench.page.waitForTimeout(200);
  assert.equal(readFileSync(result, "utf8"), "passed");
});

test("the row at the caret is told, shown and copied", limits, async (t) => {
  const workbench = await openWorkbench(pattern);
  t.after(workbench.close);
  const { page } = workbench;
  try {
    await workbench.goTo(multiplier.line, 2);
    await page.waitForSelector(".statusbar-item:has-text('Rnd 3: 18 sts')");
    await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
    // 6 + 12 + 18 stitches up to Rnd 3; 24 in Rnd 4 and in each of the five rounds behind it: 180.
    const hover = await workbench.hover();
    await workbench.screenshot("hover");
    assert.match(hover, /12 of 12/);
    assert.match(hover, /36 of 180 sts/);

    await workbench.run("Loopledger: Copy the proof of this row");
    await workbench.still(".notification-toast:has-text('The proof of Rnd 3 is copied')");
    await workbench.screenshot("copied");
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    assert.match(copied, /^Rnd 3: \(sc, inc\) x6 \(18\)\r?\n/);
    assert.match(copied, /makes 18 sc\.$/);

    await workbench.goTo(1, 1);
    await page.waitForSelector(".statusbar-item:has-text('Rnd 3')", { state: "detached" });
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test("materials and measures open as a page beside the pattern", limits, async (t) => {
  const workbench = await openWorkbench(samplePouch);
  t.after(workbench.close);
  const { page } = workbench;
  try {
    // A palette that opens before the extension is there does not list what it can do.
    await page.waitForSelector(".codelens-decoration", { state: "attached" });
    await workbench.run("Loopledger: Materials and measures");
    const shown = await workbench.pageWith("balls to buy");
    await workbench.screenshot("materials");
    assert.match(shown, /Worked out from the gauge, 18 hdc and 13 rounds = 10 cm/);
    assert.match(shown, /tide blue/);
    assert.match(shown, /a cup about 8\.5 cm/);

    // The page follows what is typed: a measured stitch goes before the gauge.
    await page.locator(".tab:has-text('cord-pouch.crochet')").click();
    await workbench.goTo(12, 10);
    await page.keyboard.press("Enter");
    await page.keyboard.type("hdc: 7 cm");
    await workbench.pageWith("your own measure, hdc: 7 cm");
    await workbench.screenshot("materials-followed");
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test("a slip is marked while it is typed, and the mark goes when it is mended", limits, async (t) => {
  const workbench = await openWorkbench(pattern);
  t.after(workbench.close);
  const { page } = workbench;
  try {
    await workbench.goTo(multiplier.line, multiplier.column);
    await workbench.overwrite("5");
    await page.waitForSelector(".squiggly-error");
    const message = await workbench.nextFinding();
    await workbench.screenshot("slip");
    // Arithmetic: (sc, inc) is worked over 2 stitches, five of them over 10; Rnd 2 leaves 12.
    assert.match(message, /\b10\b/);
    assert.match(message, /\b12\b/);

    await workbench.goTo(multiplier.line, multiplier.column);
    await workbench.overwrite("6");
    await page.waitForSelector(".squiggly-error", { state: "detached" });
    await workbench.screenshot("mended");
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test("a slip is mended by what is offered, and the queries are copied", limits, async (t) => {
  const workbench = await openWorkbench(pattern);
  t.after(workbench.close);
  const { page } = workbench;
  try {
    await workbench.goTo(multiplier.line, multiplier.column);
    await workbench.overwrite("5");
    await page.waitForSelector(".squiggly-error");
    await workbench.run("Loopledger: Copy the queries");
    await workbench.still(".notification-toast:has-text('One query is copied')");
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    assert.match(copied, /^1\. Body, line 8: Rnd 3 needs 10 stitches; Rnd 2 has 12: 2 left over\./);

    await workbench.goTo(multiplier.line, 1);
    await page.keyboard.press("Control+.");
    await page.waitForSelector('.action-widget .focused:has-text(\'Change "x5" to "x6"\')');
    await workbench.screenshot("offered");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".squiggly-error", { state: "detached" });
    await page.waitForSelector(".view-line:has-text('x6 (18)')");
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test("what a change leaves in its wake is listed, and mended from the list", limits, async (t) => {
  const workbench = await openWorkbench(doll);
  t.after(workbench.close);
  const { page } = workbench;
  try {
    await page.waitForSelector(".statusbar-item:has-text('Loopledger'), .codelens-decoration");
    await page.click(".activitybar [aria-label^='Loopledger']");
    await page.waitForSelector(".pane-body :text('Nothing is left to look at.')");
    // A round more before the eyes: the rounds below it are numbered anew by hand.
    await workbench.goTo(6, 5);
    await workbench.overwrite("3");
    await page.keyboard.type(": sc in each st around (12)\nRnd 4");
    const item = ".monaco-list-row:has-text('Row 3 has become row 4.')";
    await page.waitForSelector(item);
    await page.hover(item);
    await workbench.screenshot("wake");
    await page.click(`${item} [aria-label^='Mend it']`);
    await page.waitForSelector(".view-line:has-text('Insert the eyes on Rnd 4.')");
    await page.waitForSelector(".pane-body :text('Nothing is left to look at.')");
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});
