// Serves the extension as a gallery of web extensions does: file by file, to pages of any origin.
import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { root } from "../npm.mjs";
import { freePort } from "./host.mjs";

/** @type {Readonly<Record<string, string>>} */
const types = {
  ".js": "text/javascript",
  ".json": "application/json",
  ".png": "image/png",
  ".svg": "image/svg+xml",
};

/** Serves the built extension on this machine until it is stopped. */
export async function serveExtension() {
  const port = await freePort();
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? "/", "http://localhost");
    const file = join(root, pathname);
    const isThere = existsSync(file) && statSync(file).isFile();
    response.writeHead(isThere ? 200 : 404, {
      "Access-Control-Allow-Origin": "*",
      "Content-Type": types[extname(file)] ?? "text/plain",
    });
    if (isThere) createReadStream(file).pipe(response);
    else response.end();
  }).listen(port, "127.0.0.1");
  return { address: `http://localhost:${port}`, stop: () => void server.close() };
}

/**
 * Has the page of an editor hold one more web extension: the page is told of them in its own settings.
 * @param {import("playwright-core").Page} page
 * @param {string} address of the extension
 */
export async function addWebExtension(page, address) {
  const { protocol, host } = new URL(address);
  const extensions = [{ scheme: protocol.slice(0, -1), authority: host, path: "/" }];
  await page.addInitScript((additionalBuiltinExtensions) => {
    const watch = new MutationObserver(() => {
      const configuration = document.getElementById("vscode-workbench-web-configuration");
      if (!configuration?.dataset.settings) return;
      watch.disconnect();
      const settings = JSON.parse(configuration.dataset.settings);
      configuration.dataset.settings = JSON.stringify({ ...settings, additionalBuiltinExtensions });
    });
    watch.observe(document, { childList: true, subtree: true });
  }, extensions);
}
