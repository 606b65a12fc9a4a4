// What holds for each test in a real editor: its time, and whether it can be run here at all.
import { whyNoEditorTest } from "./programs.mjs";

const reason = whyNoEditorTest();
if (reason) {
  if (process.env.LOOPLEDGER_REQUIRE_EDITOR) throw new Error(`The editor test cannot be run: ${reason}`);
  console.warn(`\n${"!".repeat(80)}\nNOT TESTED IN A REAL EDITOR: ${reason}\n${"!".repeat(80)}\n`);
}

export const editorLimits = { skip: reason ?? false, timeout: 300_000 };
