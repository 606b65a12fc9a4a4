// The built extension, installed from its file into a real VS Code under a real browser.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { whyNoEditorTest } from "./programs.mjs";
import { openWorkbench } from "./workbench.mjs";

const pattern = fileURLToPath(new URL("pouch.crochet", import.meta.url));
const multiplier = { line: 8, column: 19 };

const reason = whyNoEditorTest();
if (reason) {
  if (process.env.LOOPLEDGER_REQUIRE_EDITOR) throw new Error(`The editor test cannot be run: ${reason}`);
  console.warn(`\n${"!".repeat(80)}\nNOT TESTED IN A REAL EDITOR: ${reason}\n${"!".repeat(80)}\n`);
}

const limits = { skip: reason ?? false, timeout: 300_000 };

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
