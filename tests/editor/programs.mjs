// Programs of the machine that are not npm packages.
import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";

const windows = process.platform === "win32";

/**
 * The first of some programs that is on the PATH, as a whole path.
 * @param {...string} names
 */
export function findProgram(...names) {
  const endings = windows ? (process.env.PATHEXT ?? ".EXE;.CMD").split(";") : [""];
  const folders = (process.env.PATH ?? "").split(delimiter).filter(Boolean);
  return names
    .flatMap((name) => folders.flatMap((folder) => endings.map((ending) => join(folder, name + ending))))
    .find(canRun);
}

/** @param {string} file */
function canRun(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** The browser that tests the extension: `LOOPLEDGER_CHROMIUM`, or Chromium as the system has it. */
export function findBrowser() {
  return process.env.LOOPLEDGER_CHROMIUM || findProgram("chromium", "chromium-browser");
}

/** What is missing here to set up the editor that runs in a browser. */
export function missingForHost() {
  const needed = [
    { name: "python3", found: findProgram("python3") },
    { name: "make", found: findProgram("make") },
    { name: "a C++ compiler (g++)", found: findProgram("g++", "clang++") },
  ];
  return needed.filter(({ found }) => !found).map(({ name }) => name);
}

/** What is missing here to test the extension in a real editor, with what to do about it; null if nothing is. */
export function whyNoEditorTest() {
  const missing = [...(findBrowser() ? [] : ["Chromium"]), ...missingForHost()];
  if (missing.length === 0) return null;
  return `not found: ${missing.join(", ")}. On Debian: apt-get install chromium python3 make g++`;
}
