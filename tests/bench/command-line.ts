import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Figure } from "./figure";
import { longPattern } from "./long-pattern";
import { median } from "./measure";

const rowsOfEach = 100;

/** The command line on one sample, and on so many patterns; Node alone beside it. */
export function commandLine(script: string, files: number): Figure[] {
  const folder = mkdtempSync(join(tmpdir(), "loopledger-files-"));
  try {
    for (let i = 0; i < files; i++)
      writeFileSync(join(folder, `${i}.crochet`), longPattern(rowsOfEach, 9_000 + i));
    const bare = several(11, ["-e", ""]);
    const one = several(11, [script, "check", "samples/cord-pouch.crochet"]);
    const all = once([script, "check", folder]);
    return [
      { what: "command line, 1 file", value: one, unit: "ms", goal: 150 },
      { what: "Node alone", value: bare, unit: "ms" },
      {
        what: `command line, ${files} files of ${rowsOfEach} rows, all cores`,
        value: all,
        unit: "ms",
        goal: 4 * files,
      },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function several(times: number, words: readonly string[]): number {
  return median(Array.from({ length: times }, () => once(words)));
}

function once(words: readonly string[]): number {
  const started = performance.now();
  const { status, stderr } = spawnSync(process.execPath, words, { maxBuffer: 2 ** 30 });
  if (status !== 0 && status !== 1) throw new Error(`${words.join(" ")} ended with ${status}: ${stderr}`);
  return performance.now() - started;
}
