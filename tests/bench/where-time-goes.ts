import { Checker } from "../../server/src/workspace/checker";
import { type Hot, profileOf } from "./hottest";
import { longPattern, mixOf } from "./long-pattern";
import { edits, first, median } from "./measure";
import { stagesOf } from "./stages";
import { subjects } from "./subjects";

/** What the measured text is made of. */
export function mix(seed: number): string {
  const text = longPattern(5_000, seed);
  const { bytes, lines, distinct } = mixOf(text);
  const sheet = subjects.css.text(5_000, seed);
  const results = new Map<string, number>();
  for (const piece of new Checker().check(text).pieces)
    for (const { result } of piece.rows) results.set(result, (results.get(result) ?? 0) + 1);
  const shares = [...results].map(([result, n]) => `${n} ${result}`).join(", ");
  return [
    `The pattern of 5,000 rows: ${lines} lines, ${bytes} bytes; ${Math.round(distinct * 100)} % of its rows are like no other.`,
    `Its rows: ${shares}.`,
    `The style sheet beside it: ${sheet.split("\n").length} lines, ${Buffer.byteLength(sheet)} bytes.`,
  ].join("\n");
}

export function stages(rows: number, seed: number): string {
  const runs = [1, 2, 3].map((run) => stagesOf(rows, seed * 3 + run));
  const lines = Object.keys(runs[0] ?? {}).map((name) => {
    const times = runs.map((run) => run[name] ?? 0);
    return `| ${name} | ${median(times).toFixed(2)} | ${((median(times) * 1000) / rows).toFixed(2)} |`;
  });
  return ["| stage | ms | µs a row |", "|---|---|---|", ...lines].join("\n");
}

/** Of first checks, and of edits of a long text. */
export async function profiles(seed: number): Promise<string> {
  const firstChecks = await profile("First check, 1,000 rows, three texts", () => {
    for (let run = 0; run < 3; run++) first("loopledger", 1_000, seed * 7 + run);
  });
  const editedChecks = await profile("40 edits at 5,000 rows and their undoing, first check included", () => {
    edits("loopledger", 5_000, seed * 11, 40);
  });
  return `${firstChecks}\n\n${editedChecks}`;
}

async function profile(title: string, work: () => unknown): Promise<string> {
  const { functions, files } = await profileOf(work);
  return [
    `### ${title}`,
    ownTimes("function", functions.slice(0, 15)),
    ownTimes("file", files.slice(0, 12)),
  ].join("\n\n");
}

function ownTimes(what: string, hot: readonly Hot[]): string {
  const lines = hot.map(({ name, file, self }) => `| ${(self * 100).toFixed(1)} % | ${name} ${file} |`);
  return [`| own time | ${what} |`, "|---|---|", ...lines].join("\n");
}
