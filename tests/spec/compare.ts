import type { Finding, PatternReport, RowReport } from "../../server/src/workspace/report";
import type { ExpectedRow, SpecCase } from "./case-file";
import {
  type Amount,
  amountOf,
  type Numbers,
  printKinds,
  printNumbers,
  readingsOf,
} from "./expected-numbers";

/** A row of a report with the piece it stands in. */
export interface PlacedRow {
  readonly piece: string;
  readonly row: RowReport;
}

/** A row line in one readable piece of text for each cell that differs; empty where all agree. */
export interface RowOutcome {
  readonly head: string;
  readonly differences: readonly string[];
}

/** All rows in order; a starting chain or ring of its own is no line of the tables. */
export function rowsOf(report: PatternReport): readonly PlacedRow[] {
  const all = report.pieces.flatMap((piece) => piece.rows.map((row) => ({ piece: piece.name, row })));
  return all.filter(({ row }) => row.kind === "row");
}

/** One outcome for each line of the case's table. */
export function compareRows(spec: SpecCase, report: PatternReport): readonly RowOutcome[] {
  const got = rowsOf(report);
  return spec.rows.map((expected, index) => ({
    head: expected.head,
    differences: differencesOf(expected, got[index]),
  }));
}

/** What is wrong beyond the single rows: rows too many, errors that are missing or on the wrong row. */
export function compareWhole(spec: SpecCase, report: PatternReport): readonly string[] {
  return [...surplusRows(spec, report), ...misplacedErrors(spec, report)];
}

function differencesOf(expected: ExpectedRow, got: PlacedRow | undefined): readonly string[] {
  if (!got) return ["row: expected this row, got none"];
  const { row } = got;
  return [
    ...headDifferences(expected, got),
    ...difference("needs", expected.needs, printNumbers(row.needs)),
    ...difference("has", expected.has, printNumbers(row.has)),
    ...(expected.makes.includes(" or ")
      ? readingDifferences(expected.makes, row)
      : makesDifferences(expected, row)),
    ...amountDifferences("stated", amountOf(expected.stated), row.stated, row.statedKinds ?? {}),
    ...difference(
      "verdict",
      expected.verdict,
      row.reason ? `${row.result} (${row.reason})` : row.result,
      row.result,
    ),
  ];
}

function difference(what: string, expected: string, shown: string, got: string = shown): readonly string[] {
  return expected === got ? [] : [`${what}: expected ${expected}, got ${shown}`];
}

/** `Piece > Rnd 1`; a line without a row head of its own shows only its first words. */
function headDifferences(expected: ExpectedRow, got: PlacedRow): readonly string[] {
  const split = expected.head.split(" > ");
  const head = split.at(-1) ?? "";
  const piece = split.length > 1 ? difference("piece", split[0] ?? "", got.piece) : [];
  const agrees = /^(\[?rep|dec|inc|work)\b/i.test(head)
    ? got.row.head.startsWith(head)
    : got.row.head === head;
  return [...piece, ...(agrees ? [] : difference("head", head, got.row.head))];
}

function makesDifferences(expected: ExpectedRow, row: RowReport): readonly string[] {
  return amountDifferences("makes", amountOf(expected.makes), row.makes, row.made);
}

/** The sum, and each kind that the table lists where it lists several. */
function amountDifferences(
  what: string,
  expected: Amount,
  got: Numbers | null,
  kinds: Readonly<Record<string, Numbers>>,
): readonly string[] {
  const sums = difference(what, printNumbers(expected.numbers), printNumbers(got));
  const names = Object.keys(expected.kinds);
  if (names.length < 2 && what === "stated") return sums;
  const wrong = names.filter(
    (kind) => printNumbers(expected.kinds[kind] ?? null) !== printNumbers(kinds[kind] ?? null),
  );
  const listed =
    wrong.length > 0
      ? [`${what}: expected ${printKinds(expected.kinds)}, got ${printKinds(kinds) || "no kinds"}`]
      : [];
  return [...sums, ...listed];
}

/** Every reading of the cell must be a reading of the row, and there must be no other. */
function readingDifferences(cell: string, row: RowReport): readonly string[] {
  const expected = readingsOf(cell);
  const matched = expected.every((amount) => row.readings.some((reading) => agrees(amount, reading)));
  if (matched && row.readings.length === expected.length) return [];
  const got = row.readings.map(({ makes, made }) => `${printNumbers(makes)} {${printKinds(made)}}`);
  return [`makes: expected ${cell}, got readings ${got.join(" or ") || "none"}`];
}

function agrees(expected: Amount, reading: Pick<RowReport, "makes" | "made">): boolean {
  return amountDifferences("makes", expected, reading.makes, reading.made).length === 0;
}

function surplusRows(spec: SpecCase, report: PatternReport): readonly string[] {
  const surplus = rowsOf(report).slice(spec.rows.length);
  return surplus.map(({ row }) => `row "${row.head}": not in the table`);
}

/** Errors lie on the rows that do not fit or count wrongly, and nowhere else. */
function misplacedErrors(spec: SpecCase, report: PatternReport): readonly string[] {
  const errors = report.findings.filter((finding) => finding.severity === "error");
  const found = errors.map((finding) => rowIndexOf(finding, report));
  const wrong = spec.rows.flatMap((row, index) => (isWrong(row) ? [index] : []));
  const headAt = (index: number): string => spec.rows[index]?.head ?? "no row of the table";
  const missing = wrong
    .filter((index) => !found.includes(index))
    .map((index) => `no error reported at ${headAt(index)}`);
  const extra = errors.flatMap((finding, n) => {
    const index = found[n] ?? -1;
    return wrong.includes(index) ? [] : [`error reported at ${headAt(index)}: ${finding.message}`];
  });
  return [...missing, ...extra, ...firstErrorElsewhere(spec, found)];
}

function isWrong(row: ExpectedRow): boolean {
  return row.verdict === "does-not-fit" || row.verdict === "wrong-count";
}

function firstErrorElsewhere(spec: SpecCase, found: readonly number[]): readonly string[] {
  if (spec.reportAt === null || found.length === 0) return [];
  const first = spec.rows[found[0] ?? -1]?.head ?? "no row of the table";
  return difference("first error", spec.reportAt, first);
}

/** Which of the report's rows a finding starts on; -1 where it is on none. */
function rowIndexOf(finding: Finding, report: PatternReport): number {
  return rowsOf(report).findIndex(
    ({ row }) => row.span.start <= finding.span.start && finding.span.start <= row.span.end,
  );
}
