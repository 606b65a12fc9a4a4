import type { WorkedPattern, WorkedPiece, WorkedRow } from "../fabric/worked";
import type { Span, TextEdit } from "../text/span";

export type { WorkedPattern } from "../fabric/worked";

export type Severity = "error" | "warning" | "information" | "hint";

/** A way to mend what a rule found. */
export interface Fix {
  /** In a maker's words, as a button would say it: `Change the count to 18`. */
  readonly title: string;
  /** What sort of change it is: those of one rule and kind may be made together. None: it is to be made alone. */
  readonly kind?: string;
  /** The change, in offsets of the pattern text; worked out when it is asked for. */
  edits(): readonly TextEdit[];
}

/** Another place that a finding speaks of. */
export interface Related {
  readonly span: Span;
  readonly message: string;
}

/** What a rule reports, in offsets of the pattern text. */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly span: Span;
  readonly message: string;
  readonly fixes: readonly Fix[];
  readonly related: readonly Related[];
}

/** A finding before it is known which rule made it. */
export type Found = Omit<Finding, "rule" | "severity">;

/** What every rule has. Its documentation is what hover, pages and tests show. */
export interface Rule {
  readonly id: string;
  readonly severity: Severity;
  readonly documentation: string;
  /** Off until somebody turns it on. */
  readonly startsOff?: true;
}

/** A rule for one row. */
export interface RowRule extends Rule {
  check(row: WorkedRow, piece: WorkedPiece): Found[];
}

/** A rule that needs to see more than one row. */
export interface PatternRule extends Rule {
  check(pattern: WorkedPattern): Found[];
}
