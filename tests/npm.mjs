// What `npm start` and `npm test` need before anything is installed: only Node's own modules may be used here.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("..", import.meta.url));

const oldestNode = { major: 20, minor: 19 };

/**
 * Runs npm; what it says is shown unless told otherwise.
 * @param {string[]} words as typed after `npm`
 * @param {{ cwd?: string, env?: NodeJS.ProcessEnv, stdio?: "inherit" | "ignore" }} options
 * @returns {boolean} whether it succeeded
 */
export function npm(words, options = {}) {
  return start(words, { stdio: "inherit", ...options }).status === 0;
}

/**
 * Runs npm for what it says.
 * @param {string[]} words as typed after `npm`
 */
export function saidByNpm(words) {
  return start(words, { stdio: "pipe" });
}

/**
 * Runs npm, shows what it says while it goes on, and keeps the end of that.
 * @param {string[]} words as typed after `npm`
 * @returns {Promise<{ passed: boolean, end: string }>} `end`: about the last 8,000 characters
 */
export function watchNpm(words) {
  const { program, first, shell } = howToStart();
  const running = spawn(program, [...first, ...words], {
    cwd: root,
    shell,
    stdio: ["inherit", "pipe", "pipe"],
  });
  let end = "";
  for (const { from, to } of [
    { from: running.stdout, to: process.stdout },
    { from: running.stderr, to: process.stderr },
  ]) {
    from.setEncoding("utf8").on("data", (text) => {
      to.write(text);
      end = (end + text).slice(-8_000);
    });
  }
  return new Promise((resolve) => {
    running.on("error", (error) => resolve({ passed: false, end: error.message }));
    running.on("close", (status) => resolve({ passed: status === 0, end }));
  });
}

/**
 * @param {string[]} words
 * @param {import("node:child_process").SpawnSyncOptions} options
 */
function start(words, options) {
  const { program, first, shell } = howToStart();
  const maxBuffer = 64 * 1024 * 1024;
  return spawnSync(program, [...first, ...words], {
    cwd: root,
    shell,
    maxBuffer,
    ...options,
    encoding: "utf8",
  });
}

/** npm tells its scripts where it is; running that file needs no shell, on Windows either. */
function howToStart() {
  const itself = process.env.npm_execpath;
  if (itself?.endsWith("js")) return { program: process.execPath, first: [itself], shell: false };
  return { program: "npm", first: [], shell: process.platform === "win32" };
}

/** Ends the process unless the Node that runs it is new enough. */
export function requireNode() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major > oldestNode.major || (major === oldestNode.major && minor >= oldestNode.minor)) return;
  console.error(
    `Node ${process.versions.node} is too old: install Node ${oldestNode.major}.${oldestNode.minor} or newer.`,
  );
  process.exit(1);
}

/**
 * Installs the packages that package-lock.json names, unless they are all there.
 * @returns {boolean} whether they are there now
 */
export function installPackages() {
  if (installed()) return true;
  console.log("Installing packages…");
  return npm(["ci", "--no-audit", "--no-fund"]);
}

/** Whether every package of the lock file is there in its version. npm writes down what it installed. */
function installed() {
  const record = join(root, "node_modules/.package-lock.json");
  if (!existsSync(record)) return false;
  const there = lockedPackages(record);
  return Object.entries(lockedPackages(join(root, "package-lock.json"))).every(
    ([folder, wanted]) =>
      folder === "" || there[folder]?.version === wanted.version || (wanted.optional && !there[folder]),
  );
}

/**
 * @param {string} file
 * @returns {Record<string, { version?: string, optional?: boolean }>}
 */
function lockedPackages(file) {
  return JSON.parse(readFileSync(file, "utf8")).packages;
}
