import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import type { RowReport } from "../../server/src/workspace/report";

/** Shares of each folder's rows: at least so many are ok, at most so many are told wrong although they are right. */
const floors: Readonly<Record<string, { readonly ok: number; readonly falseErrors: number }>> = {
  "first-contact": { ok: 0.965, falseErrors: 0 },
  garments: { ok: 0.978, falseErrors: 0 },
  lace: { ok: 0.99, falseErrors: 0 },
  motifs: { ok: 0.967, falseErrors: 0 },
  toys: { ok: 0.991, falseErrors: 0 },
};

interface CheckedRow {
  readonly name: string;
  readonly row: RowReport;
}

const here = new URL(".", import.meta.url);

function rowsOf(folder: string): CheckedRow[] {
  const files = readdirSync(new URL(`${folder}/`, here)).filter((file) => file.endsWith(".crochet"));
  return files.sort().flatMap((file) => {
    const report = new Checker().check(readFileSync(new URL(`${folder}/${file}`, here), "utf8"));
    return report.pieces.flatMap((piece) =>
      piece.rows
        .filter(({ kind }) => kind === "row")
        .map((row) => ({ name: `${file} > ${piece.name} > ${row.head}`, row })),
    );
  });
}

/** `file > piece > row | result | why`. */
function listed(folder: string): string[] {
  const lines = readFileSync(new URL(`${folder}/not-ok.txt`, here), "utf8").split("\n");
  return lines.filter((line) => line.trim() !== "");
}

const isError = ({ result }: RowReport): boolean => result === "does-not-fit" || result === "wrong-count";

const folders = readdirSync(here, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name);

describe.each(folders)("%s", (folder) => {
  const rows = rowsOf(folder);
  const known = listed(folder).map((line) => line.split(" | "));

  test("only the listed rows are not ok, with the result that is listed", () => {
    const notOk = rows.filter(({ row }) => row.result !== "ok");
    expect(notOk.map(({ name, row }) => `${name} | ${row.result}`)).toEqual(
      known.map(([name, result]) => `${name} | ${result}`),
    );
  });

  test("an ok row makes what it states", () => {
    const ok = rows.filter(({ row }) => row.result === "ok" && row.stated !== null);
    expect(ok.length).toBeGreaterThan(0.5 * rows.length);
    expect(ok.filter(({ row }) => `${row.makes}` !== `${row.stated}`).map(({ name }) => name)).toEqual([]);
  });

  test("as many rows are ok as ever, and no more are told wrong that are right", () => {
    const floor = floors[folder];
    if (!floor) throw new Error(`no floor for ${folder}`);
    const ok = rows.filter(({ row }) => row.result === "ok").length / rows.length;
    const rightOnes = new Set(known.filter(([, , why]) => why?.startsWith("false:")).map(([name]) => name));
    const wrongly = rows.filter(({ name, row }) => isError(row) && rightOnes.has(name)).length / rows.length;
    expect(ok, `${folder}: ${(100 * ok).toFixed(2)} % of ${rows.length} rows ok`).toBeGreaterThan(floor.ok);
    expect(wrongly).toBeLessThanOrEqual(floor.falseErrors);
  });
});
