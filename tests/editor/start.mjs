// `npm start`: Loopledger in a real editor, with the samples open. Works on a fresh clone.
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { installPackages, npm, requireNode, root } from "../npm.mjs";
import { freePort, installExtension, installHost, profile, serve, vsix } from "./host.mjs";
import { findProgram, missingForHost } from "./programs.mjs";

const samples = join(root, "samples");

/** @param {string} why */
function giveUp(why) {
  console.error(why);
  process.exit(1);
}

/**
 * Opens the samples in the VS Code that is installed here.
 * @param {string} code
 * @returns {boolean} whether that worked
 */
function openIn(code) {
  // Through a shell, since on Windows `code` is a script.
  const run = (/** @type {string[]} */ ...words) =>
    spawnSync([code, ...words].map((word) => `"${word}"`).join(" "), { stdio: "inherit", shell: true })
      .status === 0;
  return run("--install-extension", vsix, "--force") && run("--new-window", samples);
}

/** Serves an editor with the samples to this machine's browsers, until it is interrupted. */
async function openInBrowser() {
  const missing = missingForHost();
  if (missing.length > 0) {
    giveUp(
      `No VS Code is installed here, and to set one up ${missing.join(", ")} would be needed.\n` +
        "Either install VS Code, so that `code` is on the PATH, or install those (on Debian: apt-get install python3 make g++), and run npm start again.",
    );
  }
  installHost();
  const home = profile("start");
  installExtension(home);
  const { child, address } = await serve(home, Number(process.env.LOOPLEDGER_PORT) || (await freePort()));
  console.log(`\nOpen ${address}/?folder=${encodeURI(samples)}\n\nStop with Ctrl+C.`);
  child.once("exit", (status) => process.exit(status ?? 0));
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.once(signal, () => process.exit(0));
}

requireNode();
if (!installPackages() || !npm(["run", "--silent", "package"])) {
  giveUp("Loopledger could not be built; the reason stands above.");
}
const code = findProgram("code");
if (code && openIn(code)) console.log("The samples are open in VS Code.");
else await openInBrowser();
