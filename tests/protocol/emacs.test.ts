import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { bundle, temporaryFolder } from "./bundles";

const isHere =
  spawnSync("emacs", [
    "--batch",
    "--eval",
    "(progn (require 'package) (package-initialize) (require 'eglot))",
  ]).status === 0;
if (!isHere)
  console.warn("NOT TESTED IN EMACS: no Emacs with Eglot. On Debian: apt-get install emacs-nox elpa-eglot");

// The buoy counts otherwise in each encoding, and stands before the slip on its line.
const PATTERN = `Bouée 🛟
Terms: US

Special stitches
Shell: 3 dc in one st.

Rnd 1: 6 sc in magic ring (6)
Rnd 2 (🛟): inc x5 (12)
Rnd 3: (shell in next st, sc in next st) x6 (6 shells, 6 sc)
`;

interface Outcome {
  readonly before: readonly { line: number; message: string }[];
  readonly hover: string;
  readonly offered: string;
  readonly after: readonly object[];
  readonly text: readonly string[];
  readonly renamed: readonly object[];
}

test.skipIf(!isHere)(
  "Emacs shows findings and hovers, mends and renames, as set up on the page",
  async () => {
    const folder = temporaryFolder();
    const [pattern, result] = [join(folder, "buoy.crochet"), join(folder, "result.json")];
    writeFileSync(pattern, PATTERN);
    const server = [process.execPath, await bundle("cli/main.ts"), "lsp", "--stdio"];
    const script = fileURLToPath(new URL("emacs.el", import.meta.url));
    const run = spawnSync("emacs", ["--batch", "-q", "-l", script], {
      cwd: folder,
      encoding: "utf8",
      timeout: 90_000,
      env: {
        ...process.env,
        HOME: folder,
        LANG: "C.UTF-8",
        LOOPLEDGER_SERVER: server.join("\t"),
        LOOPLEDGER_PATTERN: pattern,
        LOOPLEDGER_RESULT: result,
      },
    });
    expect(run.status, run.stderr).toBe(0);
    const outcome = JSON.parse(readFileSync(result, "utf8")) as Outcome;
    // Arithmetic: five increases are worked over 5 of 6 stitches.
    expect(outcome.before).toMatchObject([{ line: 7, message: expect.stringContaining("needs 5 stitches") }]);
    expect(outcome.hover).toContain("5 of 6");
    expect(outcome.offered).toBe('Change "x5" to "x6"');
    expect(outcome.after).toEqual([]);
    expect(outcome.text.slice(4, 9)).toEqual([
      "Tideling: 3 dc in one st.",
      "",
      "Rnd 1: 6 sc in magic ring (6)",
      "Rnd 2 (🛟): inc x6 (12)",
      "Rnd 3: (tideling in next st, sc in next st) x6 (6 tidelings, 6 sc)",
    ]);
    expect(outcome.renamed).toEqual([]);
  },
  100_000,
);
