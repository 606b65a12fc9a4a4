import type {
  Counts,
  PatternReport,
  ReadingReport,
  RowReport,
  RowResult,
  Severity,
} from "../workspace/report";

/** A stretch of a file: lines and columns from 1, columns in UTF-16 units, the end not included. */
export interface Extent {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export interface RowEntry extends Extent {
  readonly kind: RowReport["kind"];
  readonly head: string;
  readonly times: readonly number[] | null;
  readonly needs: Counts | null;
  readonly has: Counts | null;
  readonly makes: Counts | null;
  readonly stated: Counts | null;
  readonly made: Readonly<Record<string, Counts>>;
  readonly statedKinds: Readonly<Record<string, Counts>> | null;
  readonly result: RowResult;
  readonly assumptions: readonly string[];
  readonly readings: readonly ReadingReport[];
  readonly reason: string | null;
  readonly yarnMetres: Counts | null;
}

export interface PieceEntry {
  readonly name: string;
  readonly make: number;
  readonly line: number;
  readonly rows: readonly RowEntry[];
}

export interface RelatedEntry extends Extent {
  readonly message: string;
}

export interface FindingEntry extends Extent {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly fixes: readonly string[];
  readonly related: readonly RelatedEntry[];
}

export interface FileEntry {
  readonly file: string;
  readonly terms: PatternReport["terms"];
  readonly sizes: readonly string[];
  readonly pieces: readonly PieceEntry[];
  readonly findings: readonly FindingEntry[];
}

export interface UnreadableEntry {
  readonly file: string;
  /** Why, and what to do about it, in whole sentences. */
  readonly reason: string;
}

/** Everything `loopledger check` has to say; `check-report.schema.json` describes the same. */
export interface CheckReport {
  readonly version: 1;
  readonly files: readonly FileEntry[];
  readonly unreadable: readonly UnreadableEntry[];
}

/** How a file read from standard input is named. */
export const STANDARD_INPUT = "-";
