// From an empty editor to a pattern that is ready, with no other means than the keyboard; then the same in four themes.
import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { editorLimits as limits } from "./limits.mjs";
import { openWorkbench } from "./workbench.mjs";

const pattern = fileURLToPath(new URL("pouch.crochet", import.meta.url));
const compact = { "loopledger.style.rows": "compact" };

/**
 * The keys that a person presses; no mouse.
 * @param {import("playwright-core").Page} page
 */
function keys(page) {
  const press = (/** @type {string} */ key) => page.keyboard.press(key);
  const type = (/** @type {string} */ text) => page.keyboard.type(text);
  return {
    press,
    type,
    /** @param {string} place line and column */
    async goTo(place) {
      await press("Escape");
      await press("Control+1");
      await press("Control+g");
      await page.waitForSelector(".quick-input-widget input:focus");
      await type(place);
      await press("Enter");
      await page.waitForSelector(".monaco-editor.focused");
    },
    /**
     * Chooses from a list that is open.
     * @param {string} item
     */
    async choose(item) {
      await page.waitForSelector(".quick-input-widget input:focus");
      await type(item);
      await page.waitForSelector(`.quick-input-list .monaco-list-row.focused:has-text("${item}")`);
      await press("Enter");
    },
  };
}

test("a pouch, by the keyboard alone: from New File to a page without a query", limits, async (t) => {
  const workbench = await openWorkbench(pattern, { moreSettings: compact });
  t.after(workbench.close);
  const { page, run } = workbench;
  const { press, type, goTo } = keys(page);
  const row = (/** @type {string} */ text) => page.waitForSelector(`.view-line:has-text("${text}")`);
  try {
    await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
    // New File…, Crochet Pattern, Pouch: three actions to the first count.
    await run("Create: New File...");
    await page.waitForSelector(".quick-input-list .monaco-list-row:has-text('Crochet Pattern')");
    const focused = page.locator(".quick-input-list .monaco-list-row.focused:has-text('Crochet Pattern')");
    // What is typed there would name a file.
    while ((await focused.count()) === 0) await press("ArrowDown");
    await press("Enter");
    await page.waitForSelector(".quick-input-list .monaco-list-row.focused:has-text('Pouch')");
    await press("Enter");
    await page.waitForSelector(".tab.active:has-text('Untitled-1')");
    await page.waitForSelector(".codelens-decoration:has-text('14 rounds')");

    // A slip is found, told and mended.
    await goTo("27:19");
    await press("Delete");
    await type("5");
    await page.waitForSelector(".squiggly-error");
    await goTo("27:1");
    await press("Control+.");
    await page.waitForSelector('.action-widget .focused:has-text(\'Change "x5" to "x6"\')');
    await press("Enter");
    await page.waitForSelector(".squiggly-error", { state: "detached" });

    // Another name for the piece, in its heading and in the assembly.
    await goTo("35:1");
    await press("F2");
    await page.waitForSelector(".rename-box input:focus");
    await press("Control+a");
    await type("String");
    await press("Enter");
    await row("Lace the string through the 6 eyelets.");

    // Rows in a style, terms and back.
    await goTo("28:1");
    for (const _ of "Rnd 4:") await press("Delete");
    await type("R4 -");
    await row("R4 - (2 sc, inc) x6 (24)");
    await run("Format Document");
    await row("Rnd 4: (2 sc, inc) x6 (24)");
    await run("Loopledger: Turn into UK terms");
    await row("Rnd 4: (2 dc, inc) x6 (24)");
    await workbench.screenshot("keyboard-uk");
    await run("Loopledger: Turn into US terms");
    await row("Rnd 4: (2 sc, inc) x6 (24)");

    // The page to read before publishing.
    await run("Loopledger: Check before publishing");
    const shown = await workbench.pageWith("Not checked");
    await workbench.screenshot("keyboard-publishing");
    assert.match(shown, /14 rounds|14 of 14|Body/);
    assert.equal(await page.locator(".squiggly-error, .squiggly-warning").count(), 0);
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test("the walkthrough opens with its pictures", limits, async (t) => {
  const workbench = await openWorkbench(pattern);
  t.after(workbench.close);
  const { page, run } = workbench;
  try {
    await run("Welcome: Open Walkthrough...");
    await keys(page).choose("Write crochet patterns with Loopledger");
    await page.waitForSelector(".getting-started-step.expanded");
    await page.waitForSelector(
      ".getting-started-media img, .getting-started-media iframe, .getting-started-media svg",
    );
    await workbench.still(".getting-started-step.expanded");
    await workbench.screenshot("walkthrough");
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test("the pattern is copied for a word processor, with headings and bold row heads", limits, async (t) => {
  const workbench = await openWorkbench(pattern);
  t.after(workbench.close);
  const { page, run } = workbench;
  try {
    await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
    await run("Loopledger: Copy for a word processor");
    await workbench.pageWith("Rnd 3:");
    // The button has the focus: Enter presses it.
    await page.keyboard.press("Enter");
    await workbench.still(".notification-toast:has-text('The pattern is copied')");
    await workbench.screenshot("word-processor");
    const html = await page.evaluate(async () => {
      const [item] = await navigator.clipboard.read();
      return (await item?.getType("text/html"))?.text() ?? "";
    });
    assert.match(html, /<h2[^>]*>Body<\/h2>/);
    assert.match(html, /<strong[^>]*>Rnd 3:<\/strong> ?\(sc, inc\) x6 \(18\)/);
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test("rows are brought into the style of one's own file", limits, async (t) => {
  const workbench = await openWorkbench(pattern, { moreSettings: { "loopledger.style.rows": "own" } });
  t.after(workbench.close);
  const { page, run, goTo } = workbench;
  const write = (/** @type {object} */ style) =>
    writeFileSync(join(dirname(workbench.file), "house-style.json"), JSON.stringify(style));
  write({ round: "Round", repeats: "times", count: "square" });
  try {
    await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
    await goTo(8, 1);
    await run("Format Document");
    await page.waitForSelector(".view-line:has-text('Round 3: (sc, inc) 6 times [18]')");
    await workbench.screenshot("own-style");
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

test("a draft in another language opens in a window of its own", limits, async (t) => {
  const workbench = await openWorkbench(pattern);
  t.after(workbench.close);
  const { page, run } = workbench;
  try {
    await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
    await run("Loopledger: Draft in another language");
    await keys(page).choose("German");
    await page.waitForSelector(".view-line:has-text('(fM, M verd) x6 (18)')");
    await page.waitForSelector(".codelens-decoration:has-text('180 sts')");
    await workbench.screenshot("draft");
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});

const themes = ["Light Modern", "Dark Modern", "Dark High Contrast", "Light High Contrast"];

/** WCAG 2.2, 1.4.3: what text of this size must have against its background. */
const contrastAtLeast = 4.5;

/**
 * The least contrast of the words of the pattern that are on the screen, as WCAG 2.2 defines it.
 * @param {import("playwright-core").Page} page
 */
function leastContrast(page) {
  return page.evaluate(() => {
    const numbers = (/** @type {string} */ colour) => (colour.match(/[\d.]+/g) ?? []).map(Number);
    const luminance = (/** @type {string} */ colour) => {
      const [r = 0, g = 0, b = 0] = numbers(colour).map((n) => {
        const part = n / 255;
        return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const ground = document.querySelector(".monaco-editor-background");
    const back = luminance(ground ? getComputedStyle(ground).backgroundColor : "rgb(255,255,255)");
    const words = [...document.querySelectorAll(".monaco-editor .view-line > span > span")];
    const told = words
      .filter((word) => word.textContent?.trim() && !/ghost|inlay|dyn-rule/.test(word.className))
      .map((word) => {
        const front = luminance(getComputedStyle(word).color);
        const [high, low] = front > back ? [front, back] : [back, front];
        return { word: word.textContent ?? "", contrast: (high + 0.05) / (low + 0.05) };
      });
    return told.sort((a, b) => a.contrast - b.contrast)[0] ?? { word: "", contrast: 0 };
  });
}

test("what is told can be read in four themes", limits, async (t) => {
  const workbench = await openWorkbench(pattern);
  t.after(workbench.close);
  const { page, goTo, overwrite } = workbench;
  try {
    await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");
    await goTo(8, 19);
    await overwrite("5");
    await page.waitForSelector(".squiggly-error");
    for (const theme of themes) {
      await page.keyboard.press("Control+k");
      await page.keyboard.press("Control+t");
      await page.waitForSelector(".quick-input-widget input:focus");
      await page.keyboard.type(theme);
      await page.waitForSelector(`.quick-input-list .monaco-list-row.focused:has-text("${theme}")`);
      await page.keyboard.press("Enter");
      await page.waitForSelector(".quick-input-widget", { state: "hidden" });
      await goTo(8, 19);
      await workbench.nextFinding();
      await workbench.screenshot(`theme-${theme.toLowerCase().replaceAll(" ", "-")}`);
      const least = await leastContrast(page);
      t.diagnostic(`${theme}: ${least.contrast.toFixed(2)} ("${least.word}")`);
      assert.ok(
        least.contrast >= contrastAtLeast,
        `${theme}: ${least.word} has ${least.contrast.toFixed(2)}`,
      );
    }
  } catch (fault) {
    await workbench.screenshot("failed");
    throw fault;
  }
});
