import { Versions } from "../fabric/versions";
import type { WorkedPiece } from "../fabric/worked";
import { inMetres, rowYarn } from "../measure/row-yarn";
import { yarnUseOf } from "../measure/yarn-used";
import { patternRules, quietRules, rowRules } from "../rules/all-rules";
import { type Found, findingOf, moved, type Rule, type WorkedPattern } from "../rules/rule";
import { unanswered } from "./as-meant";
import { beyondReach, reachOf } from "./reach";
import type { Finding, PatternReport, PieceReport } from "./report";
import { rowReport } from "./row-report";

/**
 * Checks pattern texts. One checker may be kept for many versions of a text: it remembers what it
 * read and worked, so that a small edit costs little. The report never depends on what was
 * checked before.
 */
export class Checker {
  constructor(private readonly versions = new Versions()) {}

  check(text: string): PatternReport {
    return this.work(text).report;
  }

  /** The report with what it was made from: one reading of a text for all who ask about it. */
  work(text: string): Checked {
    const reach = reachOf(text);
    const read = this.versions.work(text.slice(0, reach));
    const worked = read.text === text ? read : { ...read, text };
    return { worked, report: reportOf(worked, [...this.findingsOf(worked), ...beyondReach(text, reach)]) };
  }

  /** In the order of the text. */
  private findingsOf(pattern: WorkedPattern): Finding[] {
    const all = [
      ...pattern.pieces.flatMap((piece) => this.rowFindings(piece)),
      ...patternRules.flatMap((rule) => named(rule, rule.check(pattern))),
    ];
    return [...unanswered(pattern, all)].sort((a, b) => a.span.start - b.span.start);
  }

  private rowFindings(piece: WorkedPiece): readonly Finding[] {
    const { start } = piece.piece.span;
    const known = ofPieces.get(piece.work);
    if (known)
      return known.start === start
        ? known.findings
        : known.findings.map((one) => moved(one, start - known.start));
    const findings = piece.rows.flatMap((row) =>
      rowRules.flatMap((rule) => named(rule, rule.check(row, piece))),
    );
    ofPieces.set(piece.work, { start, findings });
    return findings;
  }
}

/** What was found in the rows of a piece, by the work that it is of, with where the piece stood. */
const ofPieces = new WeakMap<object, { start: number; findings: readonly Finding[] }>();

/** All that one reading of a text gave. */
export interface Checked {
  readonly worked: WorkedPattern;
  readonly report: PatternReport;
}

/** The rows are put into the report when they are asked for: an editor shows findings only. */
function reportOf(pattern: WorkedPattern, findings: readonly Finding[]): PatternReport {
  const { terms, sizes } = pattern.context;
  let pieces: readonly PieceReport[] | undefined;
  return {
    terms,
    sizes,
    findings,
    get quietFindings() {
      const quiet = quietRules.flatMap((rule) => named(rule, rule.check(pattern)));
      return unanswered(pattern, quiet).filter(({ rule }) => quietRules.some(({ id }) => id === rule));
    },
    get pieces() {
      pieces ??= pattern.pieces.map((piece) => pieceReport(piece, pattern));
      return pieces;
    },
  };
}

function pieceReport(piece: WorkedPiece, pattern: WorkedPattern): PieceReport {
  const { name, make, span } = piece.piece;
  const sizes = pattern.context.sizes.length;
  const rows = piece.rows.map((row) => ({
    ...rowReport(row, sizes),
    get yarnMetres() {
      const yarn = yarnUseOf(pattern);
      return inMetres(rowYarn(row, piece, yarn), yarn);
    },
  }));
  return { name, make, span, rows };
}

function named(rule: Rule, found: readonly Found[]): Finding[] {
  return found.map((one) => findingOf(rule, one));
}
