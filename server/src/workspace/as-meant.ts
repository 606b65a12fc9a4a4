import { type AsMeant, readAsMeant, withoutAsMeant } from "../notation/as-meant";
import { allRules, quietRules } from "../rules/all-rules";
import { type AnsweredNothing, idleRemarks } from "../rules/idle-remark";
import type { WorkedPattern } from "../rules/rule";
import type { Span, TextEdit } from "../text/span";
import type { Finding, PatternReport } from "./report";

const ids = allRules.map(({ id }) => id);
const quiet: ReadonlySet<string> = new Set(quietRules.map(({ id }) => id));

/** The rows of a report, as far as remarks need them. */
type Rows = readonly { readonly span: Span }[];

/** A remark with the line or row it speaks of. */
interface Placed extends AsMeant {
  readonly about: Span;
}

/**
 * The findings that no remark in the pattern answers, and a note on each remark that answers none.
 * A remark speaks of the row or line it stands in; alone on its line, of the next one.
 */
export function unanswered(
  { text, pieces }: Pick<WorkedPattern, "text" | "pieces">,
  findings: readonly Finding[],
): readonly Finding[] {
  const said = readAsMeant(text);
  if (said.length === 0) return findings;
  const rows = pieces.flatMap((piece) => piece.rows.map(({ line }) => line));
  const remarks = placed(said, text, rows);
  const kept = findings.filter((finding) => !remarks.some((remark) => answers(remark, finding)));
  const idle = remarks.flatMap((remark) => idleNames(remark, findings));
  return [...kept, ...idleRemarks(idle, text, ids)];
}

/** The change of the text that answers a finding with a remark at the end of its row or line. */
export function asMeantEdit(text: string, report: PatternReport, finding: Finding): TextEdit {
  const rows = report.pieces.flatMap((piece) => piece.rows);
  const about = homeOf(finding.span.start, withoutAsMeant(text), rows);
  const there = placed(readAsMeant(text), text, rows).findLast(
    (remark) => remark.about.start === about.start,
  );
  if (there) return { span: { start: there.end - 1, end: there.end - 1 }, newText: nextName(there, finding) };
  return { span: { start: about.end, end: about.end }, newText: ` [as meant: ${finding.rule}]` };
}

function nextName({ names }: AsMeant, { rule }: Finding): string {
  return names.length > 0 ? `, ${rule}` : ` ${rule}`;
}

function placed(remarks: readonly AsMeant[], text: string, rows: Rows): Placed[] {
  if (remarks.length === 0) return [];
  const plain = withoutAsMeant(text);
  return remarks.map((remark) => ({ ...remark, about: homeOf(saidOf(remark, plain), plain, rows) }));
}

/** An offset of what a remark speaks of: the words before it, else those behind it. */
function saidOf({ start, end }: AsMeant, plain: string): number {
  const before = plain.slice(lineAt(start, plain).start, start).trimEnd();
  if (before !== "") return lineAt(start, plain).start + before.length - 1;
  const blank = /^\s*/.exec(plain.slice(end))?.[0].length ?? 0;
  return end + blank;
}

/** The row at an offset, all its lines; else the line, without the blanks at its end. */
function homeOf(offset: number, plain: string, rows: Rows): Span {
  const row = rows.find(({ span }) => span.start <= offset && offset <= span.end);
  return row ? row.span : lineAt(offset, plain);
}

function lineAt(offset: number, text: string): Span {
  const start = Math.max(text.lastIndexOf("\n", offset - 1), text.lastIndexOf("\r", offset - 1)) + 1;
  const rest = text.slice(start).search(/[\r\n]/);
  const line = rest < 0 ? text.slice(start) : text.slice(start, start + rest);
  return { start, end: start + line.trimEnd().length };
}

function answers({ about, names }: Placed, { rule, span }: Finding): boolean {
  return about.start <= span.start && span.start <= about.end && names.some(({ name }) => name === rule);
}

function idleNames(remark: Placed, findings: readonly Finding[]): AnsweredNothing[] {
  if (remark.names.length === 0) return [{ remark, name: null }];
  const here = findings.filter((finding) => answers(remark, finding)).map(({ rule }) => rule);
  // A rule that is off may well have something to say.
  const idle = ({ name }: { readonly name: string }) => !here.includes(name) && !quiet.has(name);
  return remark.names.filter(idle).map((name) => ({ remark, name }));
}
