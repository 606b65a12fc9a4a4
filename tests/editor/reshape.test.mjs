// Rewriting a round in a real VS Code: the preview of the rounds that follow, one left out, and one step back.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { editorLimits as limits } from "./limits.mjs";
import { openWorkbench } from "./workbench.mjs";

const pattern = fileURLToPath(new URL("pouch.crochet", import.meta.url));
const firstRound = 6;

test(
  "a round is changed by the lightbulb, one that follows is left out, and one step undoes it",
  limits,
  async (t) => {
    const workbench = await openWorkbench(pattern);
    t.after(workbench.close);
    const { page } = workbench;
    const line = (/** @type {string} */ text) => page.waitForSelector(`.view-line:has-text('${text}')`);
    try {
      await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
      await workbench.goTo(firstRound, 2);
      await page.keyboard.press("Control+.");
      await page.waitForSelector(
        ".action-widget .focused:has-text('Rewrite Rnd 1 for 7 sts and update the rounds that follow')",
      );
      await workbench.screenshot("reshape-offered");
      await page.keyboard.press("Enter");

      const edits = ".bulk-edit-panel .monaco-list-row:has(.edit-checkbox)";
      await page.waitForSelector(`${edits}:has-text('Rnd 4')`);
      await workbench.screenshot("reshape-preview");
      const boxOf = (/** @type {string} */ row) =>
        page.locator(`${edits}:has-text('${row}:') .edit-checkbox`);
      for (const row of ["Rnd 1", "Rnd 2", "Rnd 3", "Rnd 4"])
        for (const box of await boxOf(row).all()) assert.ok(await box.isChecked(), `${row} is ticked`);

      for (const box of await boxOf("Rnd 3").all()) await box.uncheck();
      await workbench.screenshot("reshape-left-out");
      await page.click(".bulk-edit-panel .monaco-button:has-text('Apply')");
      await line("Rnd 1: 7 sc in magic ring (7)");
      await line("Rnd 2: inc x7 (14)");
      await line("Rnd 3: (sc, inc) x6 (18)");
      await line("Rnd 4: (2 sc, inc) x7 (28)");
      await line("Rnds 5-9: sc in each st around (28)");
      // Six times over two stitches are 12 of the 14 that Rnd 2 makes now.
      await page.waitForSelector(".squiggly-error");
      await workbench.screenshot("reshape-applied");

      await page.click(".monaco-editor .view-lines");
      await page.keyboard.press("Control+z");
      await line("Rnd 1: 6 sc in magic ring (6)");
      await line("Rnd 2: inc x6 (12)");
      await line("Rnd 4: (2 sc, inc) x6 (24)");
      await line("Rnds 5-9: sc in each st around (24)");
      await page.waitForSelector(".squiggly-error", { state: "detached" });
      await workbench.screenshot("reshape-undone");
    } catch (fault) {
      await workbench.screenshot("failed");
      throw fault;
    }
  },
);
