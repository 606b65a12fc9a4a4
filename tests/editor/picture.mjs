// `npm run picture`: takes the README's picture again.
import { join } from "node:path";
import { root } from "../npm.mjs";
import { openWorkbench } from "./workbench.mjs";

const picture = join(root, "client/media/loopledger.png");

// The line of the first slip in the sample.
const firstSlip = 32;
const size = { width: 960, height: 600 };
const moreSettings = {
  "editor.minimap.enabled": false,
  "breadcrumbs.enabled": false,
  "editor.fontSize": 15,
  "editor.occurrencesHighlight": "off",
};

const { page, goTo, nextFinding, close } = await openWorkbench(join(root, "samples/first-draft.crochet"), {
  size,
  moreSettings,
});
await page.keyboard.press("Control+b");
await goTo(firstSlip - 1, 1);
await page.waitForSelector(".squiggly-error");
await nextFinding();
await page.screenshot({ path: picture });
await close();
console.log(`The picture is in ${picture}: look at it before it is committed.`);
