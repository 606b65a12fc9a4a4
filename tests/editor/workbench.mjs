// The editor as a person meets it: a page in a browser. Everything waits for what can be seen, never for a time.
import { copyFileSync, mkdirSync } from "node:fs";
import { basename, join } from "node:path";
import { chromium } from "playwright-core";
import { root } from "../npm.mjs";
import { freePort, freshProfile, installExtension, installHost, installSuite, serve } from "./host.mjs";
import { findBrowser } from "./programs.mjs";
import { addWebExtension, serveExtension } from "./web-extension.mjs";

const browserArguments = [
  "--headless",
  "--no-sandbox",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

const settings = {
  "workbench.tips.enabled": false,
  "telemetry.telemetryLevel": "off",
  "files.autoSave": "off",
};

const screenshots = join(root, ".screenshots");

/** @typedef {{ folder: string, result: string }} Suite an extension that tests, and the file it reports in */

/**
 * Opens a copy of a pattern in a fresh editor that has the extension in the page only, as VS Code for the Web does:
 * its parts come over http, which nothing but a worker of the page can run.
 * @param {string} pattern path of a file
 */
export async function openInPage(pattern) {
  const { address, stop } = await serveExtension();
  const { close, ...workbench } = await openWorkbench(pattern, { webExtension: address });
  const closeBoth = async () => {
    await close();
    stop();
  };
  return { ...workbench, close: closeBoth };
}

/**
 * Opens a copy of a pattern in a fresh editor that has the extension installed.
 * @param {string} pattern path of a file
 * @param {{ size?: { width: number, height: number }, moreSettings?: Record<string, unknown>, suite?: Suite, webExtension?: string, flags?: string[] }} options
 *   with the address of a web extension, that one takes the place of the installed one
 */
export async function openWorkbench(
  pattern,
  { size = { width: 1200, height: 800 }, moreSettings = {}, suite, webExtension, flags } = {},
) {
  installHost();
  const home = freshProfile("test", { ...settings, ...moreSettings });
  if (!webExtension) installExtension(home);
  if (suite) installSuite(home, suite.folder);
  const file = copyInto(join(home, "patterns"), pattern);
  const more = suite ? { LOOPLEDGER_SUITE_RESULT: suite.result } : {};
  const host = await serve(home, await freePort(), more, flags);
  const browser = await chromium.launch({
    executablePath: findBrowser() ?? "chromium",
    args: browserArguments,
  });
  const page = await browser.newPage({
    viewport: size,
    permissions: ["clipboard-read", "clipboard-write"],
    // The page lets in extensions from https only, which nobody serves here.
    bypassCSP: webExtension !== undefined,
  });
  if (webExtension) await addWebExtension(page, webExtension);
  await page.goto(addressOf(host.address, file));
  await page.waitForSelector(".monaco-editor .view-line");
  const close = async () => {
    await browser.close();
    host.stop();
  };
  return { page, close, home, file, ...actions(page) };
}

/**
 * @param {string} folder
 * @param {string} pattern
 */
function copyInto(folder, pattern) {
  mkdirSync(folder, { recursive: true });
  const copy = join(folder, basename(pattern));
  copyFileSync(pattern, copy);
  return copy;
}

/**
 * @param {string} address of the editor
 * @param {string} file
 */
function addressOf(address, file) {
  const url = new URL(address);
  const opened = [["openFile", `vscode-remote://${url.host}${file}`]];
  url.searchParams.set("folder", join(file, ".."));
  url.searchParams.set("payload", JSON.stringify(opened));
  return url.href;
}

/** @param {import("playwright-core").Page} page */
function actions(page) {
  return {
    /**
     * Puts the caret at a line and column, both from 1.
     * @param {number} line
     * @param {number} column
     */
    async goTo(line, column) {
      // Closes what was opened between the lines.
      await page.keyboard.press("Escape");
      await page.click(".monaco-editor .view-lines");
      await page.keyboard.press("Control+g");
      await page.waitForSelector(".quick-input-widget input:focus");
      await page.keyboard.type(`${line}:${column}`);
      await page.keyboard.press("Enter");
      await page.waitForSelector(".monaco-editor.focused");
    },
    /**
     * Puts other characters in place of those behind the caret.
     * @param {string} text as long as what it replaces
     */
    async overwrite(text) {
      for (const _ of text) await page.keyboard.press("Delete");
      await page.keyboard.type(text);
    },
    /** The message of the next finding behind the caret, as the editor shows it between the lines. */
    async nextFinding() {
      await page.keyboard.press("F8");
      const shown = await page.waitForSelector(".marker-widget .descriptioncontainer");
      return (await shown.textContent()) ?? "";
    },
    /** What the editor shows of the place at the caret. */
    async hover() {
      await page.keyboard.press("Control+k");
      await page.keyboard.press("Control+i");
      await page.waitForSelector(".monaco-hover:not(.hidden) .hover-contents table");
      return this.still(".monaco-hover:not(.hidden)");
    },
    /**
     * Waits until what comes sliding or fading in has come; gives its text.
     * @param {string} selector
     */
    async still(selector) {
      const shown = await page.waitForSelector(selector);
      await shown.evaluate((element) =>
        Promise.all(element.getAnimations({ subtree: true }).map(({ finished }) => finished)),
      );
      return (await shown.textContent()) ?? "";
    },
    /**
     * Runs a command by its title.
     * @param {string} title
     */
    async run(title) {
      await page.keyboard.press("F1");
      await page.waitForSelector(".quick-input-widget input:focus");
      await page.keyboard.type(title);
      await page.waitForSelector(`.quick-input-list .monaco-list-row.focused:has-text("${title}")`);
      await page.keyboard.press("Enter");
    },
    /**
     * The text of the frame that shows some words; a page of Markdown is shown in one of its own.
     * @param {string} words
     */
    async pageWith(words) {
      for (;;) {
        for (const frame of page.frames()) {
          const text = await frame.evaluate(() => document.body?.textContent ?? "").catch(() => "");
          if (text.includes(words)) return text;
        }
        await page.waitForTimeout(200);
      }
    },
    /** @param {string} name */
    screenshot: (name) => page.screenshot({ path: join(screenshots, `${name}.png`) }),
  };
}
