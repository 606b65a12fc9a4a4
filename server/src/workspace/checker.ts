import { RowReader, readPattern } from "../fabric/pattern";
import { Fabric, type WorkedPiece } from "../fabric/worked";
import { withoutAsMeant } from "../notation/as-meant";
import { patternRules, rowRules } from "../rules/all-rules";
import type { Found, Rule, WorkedPattern } from "../rules/rule";
import { unanswered } from "./as-meant";
import type { Finding, PatternReport } from "./report";
import { rowReport } from "./row-report";

/**
 * Checks pattern texts. One checker may be kept for many versions of a text: it remembers rows
 * it has worked, so that a small edit costs little. The report never depends on what was
 * checked before.
 */
export class Checker {
  private readonly reader = new RowReader();
  readonly fabric = new Fabric();

  check(text: string): PatternReport {
    return this.work(text).report;
  }

  /** The report with what it was made from: one reading of a text for all who ask about it. */
  work(text: string): Checked {
    const pattern = readPattern(withoutAsMeant(text), this.reader);
    const worked = { ...pattern, text, pieces: this.fabric.work(pattern) };
    return { worked, report: reportOf(worked) };
  }
}

/** All that one reading of a text gave. */
export interface Checked {
  readonly worked: WorkedPattern;
  readonly report: PatternReport;
}

function reportOf(worked: WorkedPattern): PatternReport {
  const { sizes, terms } = worked.context;
  return {
    terms,
    sizes,
    pieces: worked.pieces.map(({ piece, rows }) => ({
      name: piece.name,
      make: piece.make,
      span: piece.span,
      rows: rows.map((row) => rowReport(row, sizes.length)),
    })),
    findings: findingsOf(worked),
  };
}

/** In the order of the text. */
function findingsOf(pattern: WorkedPattern): Finding[] {
  const all = [
    ...pattern.pieces.flatMap(rowFindings),
    ...patternRules.flatMap((rule) => named(rule, rule.check(pattern))),
  ];
  return [...unanswered(pattern, all)].sort((a, b) => a.span.start - b.span.start);
}

function rowFindings(piece: WorkedPiece): Finding[] {
  return piece.rows.flatMap((row) => rowRules.flatMap((rule) => named(rule, rule.check(row, piece))));
}

function named({ id, severity }: Rule, found: readonly Found[]): Finding[] {
  return found.map((one) => ({ rule: id, severity, ...one }));
}
