import { type SpawnSyncReturns, spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { bundle, temporaryFolder } from "./bundles";

/* What a pattern designer does in other editors, each driven by a script in its own language. */

// The buoy counts otherwise in each encoding, and stands before the slip on its line.
const pattern = `Bouée 🛟
Terms: US

Special stitches
Shell: 3 dc in one st.

Rnd 1: 6 sc in magic ring (6)
Rnd 2 (🛟): inc x5 (12)
Rnd 3: (shell in next st, sc in next st) x6 (6 shells, 6 sc)
`;

interface Outcome {
  readonly before: readonly { line: number; column?: number; message: string }[];
  readonly hover: string;
  readonly offered: string;
  readonly after: readonly object[];
  readonly text: readonly string[];
  readonly renamed: readonly object[];
}

interface Editor {
  readonly name: string;
  readonly program: string;
  /** Whether it is there, with all it needs. */
  readonly asked: readonly string[];
  readonly howToInstall: string;
  readonly words: (script: string) => readonly string[];
  readonly script: string;
  /** Where it tells columns, the one of the slip. */
  readonly column?: number;
}

const editors: readonly Editor[] = [
  {
    name: "Neovim",
    program: "nvim",
    asked: ["--version"],
    howToInstall: "no nvim on the PATH. On Debian: apt-get install neovim",
    words: (script) => ["--headless", "--clean", "-c", `luafile ${script}`, "-c", "cquit"],
    script: "neovim.lua",
    // Neovim counts its columns in bytes.
    column: Buffer.byteLength("Rnd 2 (🛟): "),
  },
  {
    name: "Emacs",
    program: "emacs",
    asked: ["--batch", "--eval", "(progn (require 'package) (package-initialize) (require 'eglot))"],
    howToInstall: "no Emacs with Eglot. On Debian: apt-get install emacs-nox elpa-eglot",
    words: (script) => ["--batch", "-q", "-l", script],
    script: "emacs.el",
  },
];

const there = editors.filter(({ name, program, asked, howToInstall }) => {
  const isHere = spawnSync(program, asked).status === 0;
  if (!isHere) console.warn(`NOT TESTED IN ${name.toUpperCase()}: ${howToInstall}`);
  return isHere;
});

for (const editor of editors)
  test.skipIf(!there.includes(editor))(
    `${editor.name} shows findings and hovers, mends and renames`,
    async () => {
      const folder = temporaryFolder();
      const { run, result } = await driven(editor, folder);
      expect(run.status, run.stderr).toBe(0);
      const outcome = JSON.parse(readFileSync(result, "utf8")) as Outcome;
      // Arithmetic: five increases are worked over 5 of 6 stitches.
      const slip = { line: 7, message: expect.stringContaining("needs 5 stitches") };
      const { column } = editor;
      expect(outcome.before).toMatchObject([column === undefined ? slip : { ...slip, column }]);
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

/** Runs the editor's script, whose home is the folder. */
async function driven(
  { program, words, script }: Editor,
  folder: string,
): Promise<{ readonly run: SpawnSyncReturns<string>; readonly result: string }> {
  const [file, result] = [join(folder, "buoy.crochet"), join(folder, "result.json")];
  writeFileSync(file, pattern);
  const server = [process.execPath, await bundle("cli/main.ts"), "lsp", "--stdio"];
  const run = spawnSync(program, words(fileURLToPath(new URL(script, import.meta.url))), {
    cwd: folder,
    encoding: "utf8",
    timeout: 90_000,
    env: {
      ...process.env,
      HOME: folder,
      XDG_STATE_HOME: folder,
      XDG_CACHE_HOME: folder,
      LANG: "C.UTF-8",
      LOOPLEDGER_SERVER: server.join("\t"),
      LOOPLEDGER_PATTERN: file,
      LOOPLEDGER_RESULT: result,
    },
  });
  return { run, result };
}
