import {
  type Diagnostic,
  type DiagnosticRelatedInformation,
  DiagnosticSeverity,
} from "vscode-languageserver";
import { say } from "../text/say";
import type { Finding, Related, Severity } from "../workspace/report";
import { turnedOn, withSeverities } from "../workspace/severities";
import type { Advice } from "./advice";
import type { ClientAbilities } from "./capabilities";
import type { Snapshot } from "./open-document";
import { type ClientLines, rangeOf } from "./positions";
import { findingsToShow } from "./quiet-caret";
import type { Settings } from "./settings";

const SOURCE = "Loopledger";

const SEVERITY: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/** The findings of one version as the protocol has them, for this client and these settings. */
export function diagnosticsOf(
  snapshot: Snapshot,
  settings: Settings,
  client: ClientAbilities,
  advice: Pick<Advice, "messageOf"> = wholeMessages,
): Diagnostic[] {
  return shownFindings(snapshot, settings).map((finding) => ({
    ...markOf(finding, snapshot, client),
    message: advice.messageOf(finding, snapshot),
  }));
}

const wholeMessages: Pick<Advice, "messageOf"> = { messageOf: ({ message }) => message };

/** The findings of one version that are shown: as loud as is set, of no word being typed. */
export function shownFindings({ report, text, caret }: Snapshot, { severities }: Settings): Finding[] {
  return [
    ...withSeverities(findingsToShow(report, text, caret), severities),
    ...turnedOn(report, severities),
  ];
}

/** Stands for the findings of a text on which checking failed: silence would look like "all is well". */
export function faultDiagnostic(): Diagnostic {
  return {
    range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
    severity: DiagnosticSeverity.Warning,
    code: "not-checked",
    source: SOURCE,
    message:
      say`Nothing in this pattern was checked, because of a fault in Loopledger. ` +
      say`Your text is safe. Undo the last change to see the checks again, and please report the fault.`,
  };
}

/** Stands for the findings of a file that cannot be read. */
export function unreadableDiagnostic(reason: string): Diagnostic {
  return {
    range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
    severity: DiagnosticSeverity.Warning,
    code: "not-checked",
    source: SOURCE,
    message: say`Nothing in this file was checked. ${reason}`,
  };
}

/** A finding that is shown, as the protocol has it. */
export function diagnosticOf(finding: Finding, snapshot: Snapshot, client: ClientAbilities): Diagnostic {
  return { ...markOf(finding, snapshot, client), message: finding.message };
}

function markOf(
  { span, severity, rule, related }: Finding,
  { uri, lines }: Snapshot,
  client: ClientAbilities,
): Omit<Diagnostic, "message"> {
  const mark = { range: rangeOf(span, lines), severity: SEVERITY[severity], code: rule, source: SOURCE };
  if (!client.showsRelatedPlaces || related.length === 0) return mark;
  return { ...mark, relatedInformation: related.map((place) => relatedOf(place, uri, lines)) };
}

function relatedOf(
  { span, message }: Related,
  uri: string,
  lines: ClientLines,
): DiagnosticRelatedInformation {
  return { location: { uri, range: rangeOf(span, lines) }, message };
}
