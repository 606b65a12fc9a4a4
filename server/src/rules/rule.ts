import type { WorkedPattern, WorkedPiece, WorkedRow } from "../fabric/worked";
import { type Span, shift, type TextEdit } from "../text/span";

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
  /** The whole of it, with what may have been meant. */
  readonly message: string;
  /** What is wrong, where to find out what may have been meant costs more; else the message is all. */
  readonly brief?: string;
  readonly fixes: readonly Fix[];
  readonly related: readonly Related[];
}

/** A finding before it is known which rule made it. */
export interface Found extends Pick<Finding, "span" | "fixes" | "related"> {
  /** What is wrong. */
  readonly message: string;
  /** What may have been meant, as whole sentences; worked out when it is asked for, null where nobody can tell. */
  asks?(): string | null;
}

/** A finding of a rule; its fixes and what it asks are worked out when somebody looks at them. */
export function findingOf({ id, severity }: Rule, found: Found): Finding {
  const { span, message, related } = found;
  return {
    rule: id,
    severity,
    span,
    related,
    ...(found.asks ? { brief: message } : {}),
    get message() {
      const ask = found.asks?.() ?? null;
      return ask === null ? message : `${message} ${ask}`;
    },
    get fixes() {
      return found.fixes;
    },
  };
}

/** The same finding, as loud as is wanted. */
export function withSeverity(finding: Finding, severity: Severity): Finding {
  return alike(finding, { severity });
}

/** The same finding so many characters further on. */
export function moved(finding: Finding, by: number): Finding {
  const related = finding.related.map(({ span, message }) => ({ span: shift(span, by), message }));
  return alike(finding, { span: shift(finding.span, by), related }, (fix) => ({
    ...fix,
    edits: () => fix.edits().map(({ span, newText }) => ({ span: shift(span, by), newText })),
  }));
}

function alike(
  finding: Finding,
  other: Partial<Pick<Finding, "severity" | "span" | "related">>,
  asFix: (fix: Fix) => Fix = (fix) => fix,
): Finding {
  const { rule, severity, span, brief, related } = finding;
  return {
    ...{ rule, severity, span, related, ...(brief === undefined ? {} : { brief }), ...other },
    get message() {
      return finding.message;
    },
    get fixes() {
      return finding.fixes.map(asFix);
    },
  };
}

/** What every rule has. Its documentation is what the manifest, the README and tests show; what is shipped goes without. */
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
