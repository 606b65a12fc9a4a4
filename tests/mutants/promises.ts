import {
  type Action,
  actionsAt,
  actionsOnAll,
  type Scene,
} from "../../server/src/features/actions/all-actions";
import { type Span, type TextEdit, withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";
import { Prover } from "../../server/src/workspace/prover";
import type { Finding } from "../../server/src/workspace/report";
import type { Mutant } from "./mutant";

/** A change that was offered, and what it did not keep of what an offer promises; null where it kept all. */
export interface Offer {
  readonly action: Action;
  readonly broken: string | null;
}

/** A pattern as the editor sees it. */
export function sceneOf(text: string): Scene {
  const { worked, report } = new Checker().work(text);
  const copies = new Checker(worked.copies());
  const prover = new Prover(text, report.findings, (copy) => copies.check(copy));
  return { text, worked, report, findings: report.findings, prover };
}

/** Every change offered anywhere in a text, made and looked at. */
export function offersIn(text: string): Offer[] {
  const scene = sceneOf(text);
  const rows = scene.report.pieces.flatMap((piece) => piece.rows);
  return offersAt(scene, [...scene.findings, ...rows]);
}

/** Every change offered for something that is found. */
export function offersAtFindings(text: string): Offer[] {
  const scene = sceneOf(text);
  return offersAt(scene, scene.findings);
}

function offersAt(scene: Scene, places: readonly { readonly span: Span }[]): Offer[] {
  const lines = new Map(places.map(({ span }) => [lineOf(scene.text, span.start), span]));
  const here = [...lines.values()].flatMap((span) => actionsAt(scene, span));
  return [...here, ...actionsOnAll(scene)].map((action) => ({ action, broken: brokenBy(scene, action) }));
}

/**
 * The promises: something is changed; what the change is said to mend is gone; nothing new is found; and the
 * same change is not offered again. Judged by lines, from scratch, apart from how the offer itself was proved.
 */
function brokenBy(scene: Scene, action: Action): string | null {
  const edits = action.edits();
  const after = sceneOf(withEdits(scene.text, edits));
  if (after.text === scene.text) return "nothing was changed";
  const place = (finding: Finding) =>
    `${finding.rule} in line ${lineAfter(scene.text, finding.span.start, edits)}`;
  const now = after.findings.map(({ rule, span }) => `${rule} in line ${lineOf(after.text, span.start)}`);
  const stays = action.mends.map(place).find((gone) => now.includes(gone));
  if (stays) return `still there: ${stays}`;
  const fresh = without(now, scene.findings.map(place))[0];
  if (fresh) return `new: ${fresh}`;
  return isOfferedIn(after, action, edits) ? "offered again" : null;
}

/**
 * What is changed without a look at it must be the slip itself: the number that was changed by one, whichever of its
 * digits differ.
 */
export function correctsTheSlip({ kind, edits }: Action, { start, shown }: Mutant): boolean {
  const slip = start + shown.search(/\{\d+[a-z]*→/);
  return kind !== "mend-safely" || edits().every(({ span }) => span.start <= slip && slip <= span.end);
}

function isOfferedIn(after: Scene, { title, kind }: Action, edits: readonly TextEdit[]): boolean {
  if (kind === "mend-safely") return isMendedAgain(after, edits);
  const places = edits.map(({ span }, i) => span.start + grownBy(edits.slice(0, i)));
  return places.some((start) => actionsAt(after, { start, end: start }).some((one) => one.title === title));
}

/** What was mended may make another slip plain; the same is not to be mended twice. */
function isMendedAgain(after: Scene, edits: readonly TextEdit[]): boolean {
  const starts = edits.map(({ span }, i) => span.start + grownBy(edits.slice(0, i)));
  const again = actionsOnAll(after).flatMap((action) => action.edits());
  return again.some(({ span }) => starts.includes(span.start));
}

function grownBy(edits: readonly TextEdit[]): number {
  return edits.reduce((sum, { span, newText }) => sum + newText.length - (span.end - span.start), 0);
}

function without(all: readonly string[], some: readonly string[]): string[] {
  const left = [...some];
  return all.filter((one) => {
    const at = left.indexOf(one);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

function lineOf(text: string, offset: number): number {
  return text.slice(0, offset).split("\n").length;
}

/** Edits that add lines push those below them down. */
function lineAfter(text: string, offset: number, edits: readonly TextEdit[]): number {
  const above = edits.filter(({ span }) => span.end <= offset);
  const added = above.map(
    ({ span, newText }) => linesIn(newText) - linesIn(text.slice(span.start, span.end)),
  );
  return lineOf(text, offset) + added.reduce((sum, n) => sum + n, 0);
}

function linesIn(text: string): number {
  return text.split("\n").length - 1;
}
