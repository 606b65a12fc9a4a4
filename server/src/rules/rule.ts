import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { Span } from "../text/span";

export type Severity = "error" | "warning" | "information" | "hint";

/** What a rule reports, in offsets of the pattern text. */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly span: Span;
  readonly message: string;
  readonly fixes: readonly string[];
  readonly related: readonly { readonly span: Span; readonly message: string }[];
}

/** A rule for one row. Its documentation is what hover, pages and tests show. */
export interface RowRule {
  readonly id: string;
  readonly severity: Severity;
  readonly documentation: string;
  check(row: WorkedRow, piece: WorkedPiece): Omit<Finding, "rule" | "severity">[];
}
