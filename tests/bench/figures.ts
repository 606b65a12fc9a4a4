import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";

const begin = "<!-- Figures: written by `npm run bench -- --write` -->";
const end = "<!-- End of the figures -->";

/** Puts tables, by their titles, in place of those that a page has between its two marks. */
export function writeFigures(page: string, tables: Readonly<Record<string, string>>): void {
  writeFileSync(page, withFigures(readFileSync(page, "utf8"), tables, machine()));
  // The page is laid out like all others.
  execFileSync("npx", ["biome", "format", "--write", page], { shell: process.platform === "win32" });
}

/** The page with the tables; throws where it lacks the marks, so that no figures go astray. */
export function withFigures(
  page: string,
  tables: Readonly<Record<string, string>>,
  measuredOn: string,
): string {
  const [from, to] = [page.indexOf(begin), page.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`The page has no lines "${begin}" and "${end}" in this order.`);
  const sections = Object.entries(tables).map(([title, table]) => `### ${title}\n\n${table}`);
  const figures = [begin, measuredOn, ...sections, end].join("\n\n");
  return page.slice(0, from) + figures + page.slice(to + end.length);
}

/** Figures drift from machine to machine: compare those of one run. */
function machine(): string {
  const today = new Date().toISOString().slice(0, 10);
  return `Measured on ${today}, Node ${process.version}, ${availableParallelism()} cores. Compare figures of one run only: on another machine, or a busier one, all of them are others.`;
}
