import type { Span } from "../../server/src/text/span";
import type { Counts, PatternReport, RowReport } from "../../server/src/workspace/report";

/** What is wrong with a report as a report, whatever the pattern says; empty where nothing is. */
export function faultsOf(report: PatternReport, text: string): readonly string[] {
  const rows = report.pieces.flatMap((piece) => piece.rows);
  return [
    ...misplaced(report, text),
    ...rows.flatMap((row) => wrongNumbers(row, report.sizes.length).map((fault) => `${row.head}: ${fault}`)),
    ...rows.flatMap((row) => contradictions(row).map((fault) => `${row.head}: ${fault}`)),
  ];
}

/** Spans lie inside the text; pieces, the rows of a piece, and findings follow one another. */
function misplaced(report: PatternReport, text: string): readonly string[] {
  const pieces = report.pieces.map(({ span }) => span);
  const rows = report.pieces.flatMap((piece) => piece.rows.map(({ span }) => span));
  const findings = report.findings.map(({ span }) => span);
  const related = report.findings.flatMap((finding) => finding.related.map(({ span }) => span));
  return [
    ...[...pieces, ...rows, ...findings, ...related].flatMap((span) => outside(span, text)),
    ...overlaps(pieces, "pieces"),
    ...overlaps(rows, "rows"),
    ...report.pieces.flatMap((piece) => piece.rows.flatMap((row) => within(row.span, piece.span))),
    ...(inOrder(findings) ? [] : ["findings are not in the order of the text"]),
  ];
}

function outside({ start, end }: Span, text: string): readonly string[] {
  const fine =
    Number.isInteger(start) && Number.isInteger(end) && 0 <= start && start <= end && end <= text.length;
  return fine ? [] : [`span ${start}-${end} is not inside the text of ${text.length}`];
}

function within(inner: Span, outer: Span): readonly string[] {
  const fine = outer.start <= inner.start && inner.end <= outer.end;
  return fine ? [] : [`row ${inner.start}-${inner.end} is not inside its piece ${outer.start}-${outer.end}`];
}

function overlaps(spans: readonly Span[], what: string): readonly string[] {
  return spans.flatMap((span, index) => {
    const before = spans[index - 1];
    return before && before.end > span.start ? [`${what} ${before.end} and ${span.start} overlap`] : [];
  });
}

function inOrder(spans: readonly Span[]): boolean {
  return spans.every((span, index) => (spans[index - 1]?.start ?? 0) <= span.start);
}

/** Every list has one number a size, and every number is a whole number that a maker could count. */
function wrongNumbers(row: RowReport, sizes: number): readonly string[] {
  const kinds = [...Object.values(row.made), ...Object.values(row.statedKinds ?? {})];
  const readings = row.readings.flatMap(({ needs, makes, made }) => [needs, makes, ...Object.values(made)]);
  const lists = [row.needs, row.has, row.makes, row.stated, row.times, ...kinds, ...readings];
  return lists.flatMap((list) =>
    list === null || isCounts(list, sizes) ? [] : [`not one count a size: ${list}`],
  );
}

function isCounts(list: Counts, sizes: number): boolean {
  return (
    list.length === sizes &&
    list.every((number) => number === null || (Number.isSafeInteger(number) && number >= 0))
  );
}

/** Of several rows the numbers are those of the first, and a later one may be wrong. */
function isMany({ times }: RowReport): boolean {
  return times === null || times.some((n) => n !== null && n > 1);
}

/** The result must follow from the numbers beside it. */
function contradictions(row: RowReport): readonly string[] {
  const fits = agree(row.needs, row.has);
  const counts = agree(row.makes, row.stated);
  const checks: readonly (readonly [boolean, string])[] = [
    [row.result === "ok" && !fits, "ok although needs differs from has"],
    [row.result === "ok" && !counts, "ok although makes differs from stated"],
    [row.result === "does-not-fit" && fits && !isMany(row), "does not fit although needs equals has"],
    [row.result === "wrong-count" && !fits, "wrong count although it does not fit"],
    [
      (row.result === "unchecked") !== (row.reason !== null),
      "a reason belongs to unchecked rows and to no other",
    ],
    [row.readings.length === 1, "one reading alone is no doubt"],
    [row.readings.length > 0 && row.result !== "ambiguous", "readings on a row that is not ambiguous"],
  ];
  return checks.flatMap(([wrong, fault]) => (wrong ? [fault] : []));
}

/** A number that is not known differs from nothing. */
function agree(one: Counts | null, other: Counts | null): boolean {
  if (one === null || other === null) return true;
  return one.every((number, size) => number === null || other[size] === null || number === other[size]);
}

/** A report as plain data, the edits of its fixes worked out. */
export function plainReport(report: PatternReport): unknown {
  const findings = report.findings.map((finding) => ({
    ...finding,
    fixes: finding.fixes.map(({ title, edits }) => ({ title, edits: edits() })),
  }));
  return { ...report, findings };
}
