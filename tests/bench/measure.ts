import { execFileSync } from "node:child_process";
import { Random } from "./random";
import { type SubjectName, subjects } from "./subjects";

/** Milliseconds, of one sort, in the order they were measured. */
export type Times = number[];

export function timed(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

/** One check in a process that has checked nothing before; loading the code is not in it. */
export function coldInThisProcess(name: SubjectName, rows: number, seed: number): number {
  const text = subjects[name].text(rows, seed);
  const check = subjects[name].fresh();
  return timed(() => check(text));
}

export function cold(name: SubjectName, rows: number, seed: number): number {
  const script = process.argv[1] ?? "";
  const printed = execFileSync(process.execPath, [script, "--cold", name, `${rows}`, `${seed}`]);
  return Number(printed.toString());
}

/** The first check of a text never seen, by a fresh checker in a process that is warm. */
export function first(name: SubjectName, rows: number, seed: number): number {
  return coldInThisProcess(name, rows, seed);
}

/** Edits of one character in a text that is kept checked; each is undone, untimed, before the next. */
export function edits(name: SubjectName, rows: number, seed: number, many: number): Times {
  const text = subjects[name].text(rows, seed);
  const check = subjects[name].fresh();
  const random = new Random(seed);
  check(text);
  return Array.from({ length: many }, () => {
    const edited = withOneEdit(text, random);
    const time = timed(() => check(edited));
    check(text);
    return time;
  });
}

/** Puts in, takes away or changes one character; on the way through a word a text is often wrong. */
function withOneEdit(text: string, random: Random): string {
  const body = Math.floor(text.length / 20);
  const at = random.between(body, text.length - 1);
  const typed = random.oneOf(["1", "2", "7", "s", "c", ",", " ", "("]);
  const cut = random.between(0, 1);
  return text.slice(0, at) + (cut === 1 && random.fraction() < 0.5 ? "" : typed) + text.slice(at + cut);
}

export function median(times: Readonly<Times>): number {
  return quantile(times, 0.5);
}

export function quantile(times: Readonly<Times>, q: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? Number.NaN;
}
