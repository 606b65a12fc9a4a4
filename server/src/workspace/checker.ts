import { type Pattern, RowReader, readPattern } from "../fabric/pattern";
import { Fabric, type WorkedPiece } from "../fabric/worked";
import { allRules } from "../rules/all-rules";
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
    const pattern = readPattern(text, this.reader);
    const pieces = this.fabric.work(pattern);
    return report(pattern, pieces);
  }
}

function report(pattern: Pattern, pieces: readonly WorkedPiece[]): PatternReport {
  const { sizes, terms } = pattern.context;
  return {
    terms,
    sizes,
    pieces: pieces.map(({ piece, rows }) => ({
      name: piece.name,
      make: piece.make,
      span: piece.span,
      rows: rows.map((row) => rowReport(row, sizes.length)),
    })),
    findings: pieces.flatMap(findingsOf),
  };
}

function findingsOf(piece: WorkedPiece): Finding[] {
  return piece.rows.flatMap((row) =>
    allRules.flatMap((rule) =>
      rule.check(row, piece).map((found) => ({ rule: rule.id, severity: rule.severity, ...found })),
    ),
  );
}
