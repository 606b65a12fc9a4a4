import { expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { readCases } from "../spec/case-file";
import { rowsOf } from "../spec/compare";
import { countPattern } from "../spec/naive-counter";
import { runs } from "./pattern-texts";

/** A pattern with one number of one row changed by one. */
interface Slip {
  readonly text: string;
  readonly line: string;
}

/** The first row that the second count finds wrong; null where the slip changes no sum or is beyond it. */
interface Fault {
  readonly index: number;
  readonly head: string;
  readonly verdict: string;
}

const rowHead = /^(?:(?:R|Row|Rnd|Round)s? ?\d[^:]*:|\d+\w* (?:row|rnd):)/;
/** Cases that are right, to both counters: what the second one finds in a slipped text is the slip then. */
const good = readCases().filter(
  ({ rows, text }) => rows.every(({ verdict }) => verdict === "ok") && faultOf(text) === null,
);

function slipsOf(text: string): readonly Slip[] {
  const lines = text.split("\n");
  return lines.flatMap((line, at) => {
    const head = rowHead.exec(line)?.[0].length;
    const numbers = head ? [...line.matchAll(/\d+/g)].filter(({ index }) => index >= head) : [];
    return numbers.flatMap((found) =>
      [-1, 1].flatMap((by) => {
        const changed = replaced(line, found, Number(found[0]) + by);
        return Number(found[0]) + by < 1 ? [] : [{ text: lines.with(at, changed).join("\n"), line: changed }];
      }),
    );
  });
}

function replaced(line: string, found: RegExpExecArray, number: number): string {
  return line.slice(0, found.index) + number + line.slice(found.index + found[0].length);
}

function faultOf(text: string): Fault | null {
  const rows = countPattern(text);
  const index = rows.findIndex(({ verdict }) => verdict !== "ok");
  const row = rows[index];
  if (!row || (row.verdict !== "wrong-count" && row.verdict !== "does-not-fit")) return null;
  return { index, head: row.head, verdict: row.verdict };
}

/** The aim is that of every hundred slips of this kind at most one goes unseen. */
test("a slip of one that the second count sees is not called ok", () => {
  const checker = new Checker();
  const stride = Math.max(1, Math.round(100 / runs));
  const seen = good.flatMap(({ name, text }, nth) =>
    slipsOf(text)
      .filter((_, i) => (i + nth) % stride === 0)
      .flatMap(({ text: slipped, line }) => {
        const fault = faultOf(slipped);
        return fault
          ? [{ name, line, fault, result: rowsOf(checker.check(slipped))[fault.index]?.row.result }]
          : [];
      }),
  );
  const missed = seen
    .filter(({ result }) => result === "ok")
    .map(({ name, line, fault }) => `${name} | ${fault.verdict} | ${line}`);
  expect(seen.length).toBeGreaterThan(1000 / stride);
  expect(
    missed.length / seen.length,
    `${missed.length} of ${seen.length}\n${missed.join("\n")}`,
  ).toBeLessThanOrEqual(0.01);
}, 300_000);
