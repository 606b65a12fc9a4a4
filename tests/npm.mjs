// What `npm start` and `npm test` need before anything is installed: only Node's own modules may be used here.
import { spawnSync } from "node:child_process";
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
 * @param {string[]} words
 * @param {import("node:child_process").SpawnSyncOptions} options
 */
function start(words, options) {
  // npm tells its scripts where it is; running that file needs no shell, on Windows either.
  const itself = process.env.npm_execpath;
  const [program, first] = itself?.endsWith("js") ? [process.execPath, [itself]] : ["npm", []];
  const shell = program === "npm" && process.platform === "win32";
  const maxBuffer = 64 * 1024 * 1024;
  return spawnSync(program, [...first, ...words], {
    cwd: root,
    shell,
    maxBuffer,
    ...options,
    encoding: "utf8",
  });
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
