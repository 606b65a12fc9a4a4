// `npm run picture`: takes the pictures of the README and of the walkthrough again, from the real thing.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { root } from "../npm.mjs";
import { openWorkbench } from "./workbench.mjs";

const media = join(root, "client/media");
const walkthrough = join(media, "walkthrough");

const plain = {
  "editor.minimap.enabled": false,
  "breadcrumbs.enabled": false,
  "editor.fontSize": 15,
  "editor.occurrencesHighlight": "off",
  "window.commandCenter": false,
  "workbench.layoutControl.enabled": false,
};

// The line of the first slip in the sample.
const firstSlip = 32;

async function pictureOfReadme() {
  const size = { width: 960, height: 600 };
  const draft = join(root, "samples/first-draft.crochet");
  const { page, goTo, nextFinding, close } = await openWorkbench(draft, { size, moreSettings: plain });
  await page.keyboard.press("Control+b");
  await goTo(firstSlip - 1, 1);
  await page.waitForSelector(".squiggly-error");
  await nextFinding();
  await page.screenshot({ path: join(media, "loopledger.png") });
  await close();
}

async function picturesOfWalkthrough() {
  mkdirSync(walkthrough, { recursive: true });
  const pouch = fileURLToPath(new URL("pouch.crochet", import.meta.url));
  const moreSettings = { ...plain, "workbench.activityBar.location": "hidden" };
  const workbench = await openWorkbench(pouch, { size: { width: 760, height: 440 }, moreSettings });
  const { page, goTo, overwrite, nextFinding, run, close } = workbench;
  const take = (/** @type {string} */ name) => page.screenshot({ path: join(walkthrough, `${name}.png`) });
  await page.keyboard.press("Control+b");
  await page.waitForSelector(".codelens-decoration:has-text('9 rounds, 180 sts')");

  await goTo(8, 19);
  await overwrite("5");
  await page.keyboard.press("Escape");
  await page.waitForSelector(".squiggly-error");
  await nextFinding();
  await page.keyboard.press("Escape");
  await goTo(7, 1);
  await nextFinding();
  await take("slip");
  await page.keyboard.press("Escape");
  await goTo(8, 10);
  await page.keyboard.press("Control+.");
  await page.waitForSelector(".action-widget .focused");
  await take("mend");
  await page.keyboard.press("Enter");
  await page.waitForSelector(".squiggly-error", { state: "detached" });

  await goTo(10, 1);
  await page.keyboard.press("Control+Shift+k");
  await goTo(9, 29);
  await page.keyboard.press("Enter");
  await page.keyboard.press("Escape");
  await page.waitForSelector(".codelens-decoration:has-text('4 rounds, 60 sts')");
  await page.waitForSelector(".ghost-text-decoration, .ghost-text");
  await take("next");

  await run("Loopledger: New crochet pattern");
  await page.waitForSelector(".quick-input-list .monaco-list-row.focused:has-text('Pouch')");
  await page.keyboard.press("Enter");
  await page.waitForSelector(".tab:has-text('Untitled-1')");
  await goTo(31, 1);
  await take("begin");

  await page.click(".tab:has-text('pouch.crochet')");
  await run("Loopledger: Check before publishing");
  await workbench.pageWith("rows checked");
  await take("publish");
  await close();
}

const pictures = { readme: pictureOfReadme, walkthrough: picturesOfWalkthrough };

for (const [name, take] of Object.entries(pictures)) {
  if (process.argv[2] && process.argv[2] !== name) continue;
  await take();
  console.log(`The ${name}'s pictures are in ${media}: look at them before they are committed.`);
}
