import type { MeasureOptions } from "../../measure/materials";
import type { Span, TextEdit } from "../../text/span";
import type { Checked } from "../../workspace/checker";
import type { Prover } from "../../workspace/prover";
import type { Finding, PatternReport } from "../../workspace/report";

/** `mend`: mends what was found; `rewrite`: betters what is right; `mend-safely`: may be done at every saving. */
export type ActionKind = "mend" | "rewrite" | "mend-safely";

/** An edit that is looked at before it is made, and may be left out. */
export interface NotedEdit extends TextEdit {
  readonly note?: EditNote;
}

/** Edits with the same note are left out together. */
export interface EditNote {
  /** Which row, and what becomes of it. */
  readonly label: string;
  readonly description?: string;
}

/** A change of the text that is offered at a place. Nothing is offered that was not proved. */
export interface Action {
  readonly kind: ActionKind;
  /** In a maker's words, as a button would say it. */
  readonly title: string;
  /** The findings that are gone afterwards. */
  readonly mends: readonly Finding[];
  /** Whether it is the likeliest way to mend them. */
  readonly preferred: boolean;
  /** In offsets of the text it was offered for; worked out when it is asked for. */
  edits(): readonly NotedEdit[];
}

/** One version of a pattern, as actions see it. */
export interface Scene {
  readonly text: string;
  readonly report: PatternReport;
  readonly worked: Checked["worked"];
  /** What is shown: no rule that is turned off, nothing about a word that is being typed. */
  readonly findings: readonly Finding[];
  readonly prover: Prover;
  /** What the designer set for yarn to spare and pace; the usual ones where nothing is set. */
  readonly measures?: MeasureOptions;
}

/** One sort of action; `focus` is whole lines. */
export type ActionSource = (scene: Scene, focus: Span) => readonly Action[];

/** More findings on the lines asked about are left alone. */
const findingsAtMost = 12;

/** The findings on some lines. */
export function findingsAt({ findings }: Scene, { start, end }: Span): Finding[] {
  return findings.filter(({ span }) => span.start <= end && span.end >= start).slice(0, findingsAtMost);
}
