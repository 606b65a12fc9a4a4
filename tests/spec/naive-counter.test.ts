import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type ExpectedRow, readCases, type SpecCase } from "./case-file";
import { type Amount, amountOf, type Numbers, printNumbers } from "./expected-numbers";
import { tidy } from "./naive/spelling";
import { type CountedRow, canCount, countPattern } from "./naive-counter";

interface Pair {
  readonly name: string;
  readonly spec: SpecCase;
  readonly expected: ExpectedRow;
  readonly got: CountedRow | undefined;
}

const cases = readCases();
const pairs: readonly Pair[] = cases.flatMap((spec) => {
  const counted = countPattern(spec.text);
  return spec.rows.map((expected, index) => ({
    name: `${spec.name} > ${expected.head}`,
    spec,
    expected,
    got: counted[index],
  }));
});
const ok = pairs.filter(({ expected }) => expected.verdict === "ok");
const counted = pairs.filter(({ got }) => got !== undefined && got.verdict !== "unreadable");

function differencesOf({ expected, got }: Pair): readonly string[] {
  if (!got) return ["no such row"];
  const doubtful = expected.makes.includes(" or ");
  return [
    ...difference("needs", expected.needs, printNumbers(got.needs)),
    ...difference("has", expected.has, printNumbers(got.has)),
    ...(doubtful ? [] : makesDifferences(amountOf(expected.makes), got)),
    ...difference("verdict", expected.verdict, got.verdict),
  ];
}

function difference(what: string, expected: string, got: string): readonly string[] {
  return expected === got ? [] : [`${what}: the table has ${expected}, counted ${got}`];
}

function makesDifferences(expected: Amount, got: CountedRow): readonly string[] {
  const kinds: readonly (readonly [string, Numbers])[] = Object.entries(expected.kinds);
  return [
    ...difference("makes", printNumbers(expected.numbers), printNumbers(got.makes)),
    ...kinds.flatMap(([kind, numbers]) =>
      difference(kind, printNumbers(numbers), printNumbers(got.kinds[tidy(kind)] ?? null)),
    ),
  ];
}

test("agrees with the table on every row that it can count", () => {
  const wrong = counted
    .filter(({ spec }) => spec.beyondSecondCount === null)
    .flatMap((pair) => differencesOf(pair).map((text) => `${pair.name} | ${text}`));
  expect(wrong).toEqual([]);
});

const missed = ok.filter(({ got }) => got === undefined || got.verdict === "unreadable");

test("counts all ok rows but those of cases that say why not", () => {
  const unexplained = missed.filter(({ spec }) => spec.beyondSecondCount === null);
  expect(unexplained.map(({ name }) => name)).toEqual([]);
});

test("no case says so that is counted", () => {
  const said = cases.filter(({ beyondSecondCount }) => beyondSecondCount !== null);
  const differs = [...missed, ...counted.filter((pair) => differencesOf(pair).length > 0)];
  expect(said.filter((spec) => !differs.some((pair) => pair.spec === spec))).toEqual([]);
});

test("reaches far more than it leaves out", () => {
  expect((ok.length - missed.length) / ok.length).toBeGreaterThan(0.85);
});

/** Counts that either reading of the words would give, so that one more is no fault. */
const eitherCount: readonly string[] = ["hdc-in-third-not-counted"];

/** A counter that says ok to everything would agree with most tables: it must see what is changed. */
test("sees a count that is one too high, on its row and on no other", () => {
  const counted = cases.filter(({ beyondSecondCount }) => beyondSecondCount === null);
  const plain = counted.filter(({ rows }) =>
    rows.every(({ verdict, stated }) => verdict === "ok" && /^\d+$/.test(stated)),
  );
  const inFigures = plain.filter(({ text, rows }) =>
    rows.every(({ head, stated }) =>
      text.split("\n").some((line) => line.startsWith(head) && raised(line, Number(stated)) !== line),
    ),
  );
  const single = inFigures.filter(({ name, text }) => !eitherCount.includes(name) && !/\) Rnd/.test(text));
  expect(single.length).toBeGreaterThan(100);
  const unseen = single.flatMap(({ name, text, rows }) =>
    rows.flatMap(({ head, stated }, index) => {
      const verdicts = countPattern(withOneMore(text, head, Number(stated))).map(({ verdict }) => verdict);
      const wanted = rows.map((_, at) => (at === index ? "wrong-count" : "ok"));
      return verdicts.join() === wanted.join() ? [] : [`${name} > ${head}: ${verdicts}`];
    }),
  );
  expect(unseen).toEqual([]);
});

/** The text with the last such number of the row's line raised by one. */
function withOneMore(text: string, head: string, count: number): string {
  const lines = text.split("\n");
  return lines.map((line) => (line.startsWith(head) ? raised(line, count) : line)).join("\n");
}

function raised(line: string, count: number): string {
  const last = [...line.matchAll(new RegExp(`(?<!\\d)${count}(?!\\d)`, "g"))].at(-1);
  return last ? line.slice(0, last.index) + (count + 1) + line.slice(last.index + last[0].length) : line;
}

describe("samples", () => {
  const folder = new URL("../../samples/", import.meta.url);
  const read = (file: string): string => readFileSync(new URL(file, folder), "utf8");
  const files = readdirSync(folder).filter((file) => file.endsWith(".crochet"));

  test.each(files.filter((file) => file !== "first-draft.crochet"))(
    "%s adds up by this count too",
    (file) => {
      expect(canCount(read(file))).toBe(true);
      const wrong = countPattern(read(file)).filter(({ verdict }) => verdict !== "ok");
      expect(wrong).toEqual([]);
    },
  );

  test("the first draft has its six slips", () => {
    const wrong = countPattern(read("first-draft.crochet")).filter(({ verdict }) => verdict !== "ok");
    expect(wrong.map(({ piece, head, verdict }) => `${piece} > ${head}: ${verdict}`)).toEqual([
      "Tower > Rnd 3: does-not-fit",
      "Tower > Rnd 5: wrong-count",
      "Tower > Rnd 20: does-not-fit",
      "Gallery > Row 1: does-not-fit",
      "Rock > Row 3: does-not-fit",
      "Wave > Row 2: does-not-fit",
    ]);
  });
});
