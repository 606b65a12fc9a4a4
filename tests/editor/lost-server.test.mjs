// The server is killed in the middle of a word, in a real VS Code: whoever types is not to notice.
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { editorLimits } from "./limits.mjs";
import { openWorkbench } from "./workbench.mjs";

const pattern = fileURLToPath(new URL("pouch.crochet", import.meta.url));
/**
 * The process that runs the installed extension's server: the one that names its script and this profile.
 * @param {string} home
 */
function serverOf(home) {
  const all = readdirSync("/proc").filter((name) => /^\d+$/.test(name));
  const found = all.filter((id) => {
    const words = wordsOf(id);
    return words.includes(home) && words.includes("dist/server.js") && words.includes("--node-ipc");
  });
  return found.map(Number);
}

/** @param {string} id */
function wordsOf(id) {
  try {
    return readFileSync(`/proc/${id}/cmdline`, "utf8");
  } catch {
    return "";
  }
}

/**
 * The pattern in an editor whose server has checked it.
 * @param {import("node:test").TestContext} t
 */
async function openPouch(t) {
  const workbench = await openWorkbench(pattern);
  t.after(workbench.close);
  await workbench.page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
  return workbench;
}

const supported = process.platform === "linux" ? {} : { skip: "processes are looked up in /proc" };

test("a server that is killed while someone types is back at once, and nothing is lost", {
  ...editorLimits,
  ...supported,
}, async (t) => {
  const workbench = await openPouch(t);
  const { page } = workbench;
  try {
    const [before = 0, ...others] = serverOf(workbench.home);
    assert.deepEqual([before > 0, others], [true, []]);
    await workbench.goTo(9, 29);
    await page.keyboard.press("Enter");
    await page.keyboard.press("Escape");
    // 24 stitches are there: (3 sc, inc) is worked over 4 of them, so five of it leave 4 over.
    await page.keyboard.type("Rnd 5: (3 sc, i");
    process.kill(before, "SIGKILL");
    const killed = Date.now();
    await page.keyboard.type("nc) x5 (30)");
    const typed = page.locator(".view-line:has-text('x5 (30)') span[class*='mtk']");
    await typed.first().waitFor();
    const colours = await typed.evaluateAll((spans) => new Set(spans.map(({ className }) => className)).size);
    await page.waitForSelector(".squiggly-error");
    const took = Date.now() - killed;
    // Aimed at is one second; a test does not judge by the clock.
    t.diagnostic(`queries are back ${took} ms after the kill`);
    await workbench.screenshot("lost-server");
    assert.ok(colours > 2, `the line had ${colours} colours while there was no server`);
    const after = serverOf(workbench.home);
    assert.equal(after.length, 1);
    assert.notEqual(after[0], before);
    await workbench.goTo(10, 1);
    assert.match(await workbench.nextFinding(), /Rnd 5 needs 20 stitches; Rnd 4 has 24: 4 left over/);
    await page.keyboard.press("Escape");
    await page.waitForSelector(".view-line:has-text('Rnd 5: (3 sc, inc) x5 (30)')");
    assert.equal(await page.locator(".notification-toast").count(), 0);
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test("a server that is killed while it starts is followed by another one", {
  ...editorLimits,
  ...supported,
}, async (t) => {
  const workbench = await openPouch(t);
  const { page } = workbench;
  try {
    const killed = new Set();
    for (let times = 0; times < 3; times++) {
      const [id = 0] = await until(() => {
        const others = serverOf(workbench.home).filter((one) => !killed.has(one));
        return others.length > 0 ? others : undefined;
      });
      process.kill(id, "SIGKILL");
      killed.add(id);
    }
    await workbench.goTo(9, 29);
    await page.keyboard.press("Enter");
    await page.keyboard.press("Escape");
    await page.keyboard.type("Rnd 5: (3 sc, inc) x5 (30)");
    await page.waitForSelector(".squiggly-error");
    assert.equal(serverOf(workbench.home).filter((one) => !killed.has(one)).length, 1);
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test("a server that breaks down again and again is given up with a word, and writing goes on", {
  ...editorLimits,
  ...supported,
}, async (t) => {
  const workbench = await openPouch(t);
  const { page } = workbench;
  try {
    // Five times in three minutes are borne.
    for (const [line, says] of [
      [7, "Rnd 2: 12 sts"],
      [8, "Rnd 3: 18 sts"],
      [7, "Rnd 2"],
      [8, "Rnd 3"],
      [7, "Rnd 2"],
    ]) {
      await workbench.goTo(Number(line), 2);
      await page.waitForSelector(`.statusbar-item:has-text('${says}')`);
      for (const id of serverOf(workbench.home)) process.kill(id, "SIGKILL");
    }
    await workbench.still(".notification-toast:has-text('Loopledger has stopped checking')");
    await workbench.screenshot("given-up");
    assert.deepEqual(serverOf(workbench.home), []);

    await workbench.goTo(10, 40);
    await page.keyboard.press("Enter");
    await page.keyboard.type("flat");
    await page.keyboard.press("Control+Space");
    await page.waitForSelector(".suggest-widget.visible .monaco-list-row:has-text('flat piece')");
    await page.keyboard.press("Escape");
    await page.keyboard.press("Enter");
    await page.keyboard.type("Rnd 6: (3 sc, inc) x6 (30)");
    const line = page.locator(".view-line:has-text('x6 (30)') span[class*='mtk']");
    await line.first().waitFor();
    const colours = await line.evaluateAll((spans) => new Set(spans.map(({ className }) => className)).size);
    assert.ok(colours > 2, `the line has ${colours} colours`);
    await page.keyboard.press("Control+s");
    await until(
      () => /flat\r?\nRnd 6: \(3 sc, inc\) x6 \(30\)/.test(readFileSync(workbench.file, "utf8")) || undefined,
    );
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

/**
 * Waits until there is something; the time limit of the test ends a wait in vain.
 * @template T
 * @param {() => T | undefined} get
 * @returns {Promise<T>}
 */
async function until(get) {
  for (;;) {
    const value = get();
    if (value !== undefined) return value;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}
