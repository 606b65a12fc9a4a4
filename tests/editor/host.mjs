// A real VS Code that is served to a browser, for machines without one of their own and for the editor test.
// All of it lives in the ignored folder .vscode-host: nothing is written to anyone's home folder.
import { spawn, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { dirname, join } from "node:path";
import { npm, root } from "../npm.mjs";

// The last line of versions that runs on Node 20; it holds VS Code 1.100.
const wanted = "code-server@4.100.3";

const folder = join(root, ".vscode-host");
const program = join(folder, "node_modules/code-server");
const entry = join(program, "out/node/entry.js");
const stamp = join(folder, "installed.txt");

export const vsix = join(root, "loopledger.vsix");

/** Sets the editor up in about half a minute, unless that was done before for this version of Node. */
export function installHost() {
  const complete = `${wanted} on Node ABI ${process.versions.modules}\n`;
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === complete) return;
  console.log("Setting up the editor in .vscode-host (once, about 300 MB)…");
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  writeFileSync(join(folder, "package.json"), '{ "private": true }\n');
  installParts();
  writeFileSync(stamp, complete);
}

/**
 * The package's own install step wants to download a search tool that is not needed here. So no install step is
 * run, and what must be compiled is compiled by name.
 */
function installParts() {
  const vscode = join(program, "lib/vscode");
  run(["install", "--ignore-scripts", wanted], folder);
  run(["install", "--ignore-scripts", "--omit=dev"], vscode);
  run(["rebuild", "@vscode/spdlog", "native-watchdog", "@parcel/watcher"], vscode);
  // Only the terminal needs this one, and a step after its compiling fails on some machines, which does no harm.
  npm(["rebuild", "node-pty"], { ...quietlyIn(vscode), stdio: "ignore" });
  run(["install", "--ignore-scripts", "--omit=dev"], join(vscode, "extensions"));
  run(["rebuild", "argon2"], folder);
}

/**
 * @param {string[]} words
 * @param {string} cwd
 */
function run(words, cwd) {
  if (!npm(words, quietlyIn(cwd)))
    throw new Error(`The editor could not be set up: npm ${words.join(" ")} failed.`);
}

/** @param {string} cwd */
function quietlyIn(cwd) {
  /** @type {NodeJS.ProcessEnv} */
  const env = {
    ...process.env,
    npm_config_loglevel: "error",
    npm_config_audit: "false",
    npm_config_fund: "false",
  };
  // A Node that brings its own C headers spares their download.
  const nodeFolder = dirname(dirname(process.execPath));
  if (existsSync(join(nodeFolder, "include/node/node.h"))) env.npm_config_nodedir ??= nodeFolder;
  return { cwd, env };
}

const firstSettings = { "workbench.startupEditor": "none", "git.openRepositoryInParentFolders": "never" };

/**
 * The settings, extensions and logs of one use of the editor, kept apart from those of other uses.
 * @param {string} name
 */
export function profile(name) {
  const home = join(folder, name);
  if (!existsSync(join(home, "data"))) writeSettings(home, firstSettings);
  return home;
}

/**
 * A profile in which nothing was ever done.
 * @param {string} name
 * @param {Record<string, unknown>} settings
 */
export function freshProfile(name, settings) {
  const home = join(folder, name);
  rmSync(home, { recursive: true, force: true });
  writeSettings(home, { ...firstSettings, ...settings });
  return home;
}

/**
 * @param {string} home
 * @param {Record<string, unknown>} settings
 */
function writeSettings(home, settings) {
  mkdirSync(join(home, "data/User"), { recursive: true });
  writeFileSync(join(home, "data/User/settings.json"), JSON.stringify(settings, null, 2));
}

/**
 * Installs the extension into a profile as a user would, from its file.
 * @param {string} home
 */
export function installExtension(home) {
  const words = [...places(home), "--force", "--install-extension", vsix];
  const { status } = spawnSync(process.execPath, [entry, ...words], {
    env: environment(home),
    stdio: "inherit",
  });
  if (status !== 0) throw new Error("The editor refused the extension; it says why above.");
}

/**
 * Puts an extension that tests the other one into a profile.
 * @param {string} home
 * @param {string} folder
 */
export function installSuite(home, folder) {
  cpSync(folder, join(home, "extensions/loopledger.loopledger-suite-0.0.1"), { recursive: true });
  // The list of what is installed is made anew from what is there.
  rmSync(join(home, "extensions/extensions.json"), { force: true });
}

/**
 * Serves the editor on this machine only, until it is stopped or this process ends.
 * @param {string} home the profile
 * @param {number} port
 * @param {Record<string, string>} more of the environment
 * @param {readonly string[]} flags every folder is trusted, if nothing else is said
 */
export async function serve(home, port, more = {}, flags = ["--disable-workspace-trust"]) {
  const words = [
    ...places(home),
    ...["--auth", "none", "--bind-addr", `127.0.0.1:${port}`, "--ignore-last-opened"],
    ...["--disable-telemetry", "--disable-update-check"],
    ...flags,
    "--disable-getting-started-override",
  ];
  // A group of its own, so that it ends with all the processes it starts.
  const child = spawn(process.execPath, [entry, ...words], {
    env: { ...environment(home), ...more },
    detached: true,
  });
  const stop = () => void (child.exitCode === null && child.pid && process.kill(-child.pid, "SIGTERM"));
  process.once("exit", stop);
  await listening(child);
  return { child, stop, address: `http://localhost:${port}` };
}

/** @param {import("node:child_process").ChildProcessWithoutNullStreams} child */
function listening(child) {
  let said = "";
  return new Promise((resolve, reject) => {
    const listen = (/** @type {Buffer} */ chunk) => {
      said += chunk;
      if (said.includes("HTTP server listening")) resolve(undefined);
    };
    child.stdout.on("data", listen);
    child.stderr.on("data", listen);
    child.once("exit", (status) => reject(new Error(`The editor ended with status ${status}:\n${said}`)));
  });
}

/** A port nobody listens on. */
export async function freePort() {
  const server = createServer().listen(0, "127.0.0.1");
  await new Promise((resolve) => server.once("listening", resolve));
  const address = server.address();
  await new Promise((resolve) => server.close(resolve));
  if (typeof address !== "object" || !address) throw new Error("No free port was found.");
  return address.port;
}

/** @param {string} home */
function places(home) {
  return [
    ...["--config", join(home, "config.yaml")],
    ...["--user-data-dir", join(home, "data")],
    ...["--extensions-dir", join(home, "extensions")],
  ];
}

/**
 * The environment without what would send the editor elsewhere: another port, or another editor that runs already.
 * @param {string} home
 */
function environment(home) {
  const entries = Object.entries(process.env).filter(
    ([name]) => name !== "PORT" && !name.startsWith("VSCODE_"),
  );
  const folders = { XDG_DATA_HOME: home, XDG_CONFIG_HOME: home, XDG_CACHE_HOME: home };
  return { ...Object.fromEntries(entries), ...folders };
}
