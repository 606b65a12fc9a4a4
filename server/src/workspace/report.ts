import type { Finding } from "../rules/rule";
import type { Span } from "../text/span";

export type { Finding, Fix, Related, Severity } from "../rules/rule";

/** One number a size; null where the value is unknown or does not apply to that size. */
export type Counts = readonly (number | null)[];

export type RowResult = "ok" | "does-not-fit" | "wrong-count" | "ambiguous" | "unchecked";

/** One way to understand a doubtful row, with the numbers it leads to. */
export interface ReadingReport {
  readonly needs: Counts | null;
  readonly makes: Counts | null;
  readonly made: Readonly<Record<string, Counts>>;
  readonly assumption: string;
}

/** What is known of one row line; offsets are of the whole pattern text. */
export interface RowReport {
  readonly kind: "row" | "foundation";
  /** As typed, without the closing mark, side, label or colour: `Rnd 3`, `Rows 5-9`. */
  readonly head: string;
  readonly span: Span;
  /** How often the row is worked, one number a size; null for an open range. */
  readonly times: readonly number[] | null;
  readonly needs: Counts | null;
  readonly has: Counts | null;
  readonly makes: Counts | null;
  readonly stated: Counts | null;
  /** Every kind made, keyed as written, spaces apart: `{"dc":[12],"ch-2 sp":[4]}`. */
  readonly made: Readonly<Record<string, Counts>>;
  readonly statedKinds: Readonly<Record<string, Counts>> | null;
  readonly result: RowResult;
  readonly assumptions: readonly string[];
  readonly readings: readonly ReadingReport[];
  /** Why the row is unchecked; null otherwise. */
  readonly reason: string | null;
}

/** A row with the yarn it takes. */
export interface MeasuredRow extends RowReport {
  /** Metres for all repeats of the row, one number a size; null where nothing tells. */
  readonly yarnMetres: Counts | null;
}

export interface PieceReport {
  readonly name: string;
  /** How often the piece is made ("make 2"); 1 where nothing is said. */
  readonly make: number;
  readonly span: Span;
  readonly rows: readonly MeasuredRow[];
}

/** All that is known of one pattern text. */
export interface PatternReport {
  readonly terms: "US" | "UK";
  readonly sizes: readonly string[];
  readonly pieces: readonly PieceReport[];
  readonly findings: readonly Finding[];
  /** Of rules that are off until somebody turns them on; worked out when they are asked for. */
  readonly quietFindings?: readonly Finding[];
}
