import type { Scene } from "../../server/src/features/actions/all-actions";
import { rewriteWithFollowing } from "../../server/src/features/actions/rewrite-row";
import { rewriteInSizes, rowInSizes } from "../../server/src/features/sizes/rewrite-in-sizes";
import { isRefusal, type Refusal } from "../../server/src/reshape/row-trial";
import { type TextEdit, withEdits } from "../../server/src/text/span";
import type { Random } from "../bench/random";
import type { CorpusText } from "../corpus";
import { sceneOf } from "../mutants/promises";
import { type RealRow, rowsIn, understoodRows } from "./corpus";

/** A row of a real pattern, and the counts that it is to come to: one a size that works it. */
export interface RandomCase extends RealRow {
  readonly counts: readonly (number | null)[];
}

/** What came of it: it was refused, or kept what it promised, or not. */
export interface Tried {
  readonly asked: RandomCase;
  readonly refused: string | null;
  readonly broken: string | null;
  /** The pattern as it is then, checked from scratch. */
  readonly after: Scene;
}

/** Any other number from half to double, in each size by the same share. */
export function randomCase(row: RealRow, random: Random): RandomCase {
  const now = row.row.outcome?.makes ?? [];
  const share = 0.5 + 1.5 * random.fraction();
  const counts = now.map((n) => (n ? Math.max(1, Math.round(n * share)) : null));
  return `${counts}` === `${now}` ? randomCase(row, random) : { ...row, counts };
}

/** Makes the change that is had for a count, and holds it to its promises. */
export function tried(asked: RandomCase): Tried {
  const { scene } = asked;
  const edits = editsFor(asked);
  if (isRefusal(edits)) return { asked, refused: edits.why, broken: null, after: scene };
  const after = sceneOf(withEdits(scene.text, edits));
  return { asked, refused: null, broken: brokenBy(asked, edits, after), after };
}

function editsFor({ scene, piece, row, counts }: RandomCase): readonly TextEdit[] | Refusal {
  if (counts.length === 1) {
    const done = rewriteWithFollowing(scene, { row, piece, next: null }, counts[0] ?? 0);
    return isRefusal(done) ? done : done.edits;
  }
  const found = rowInSizes(scene, row.line.span);
  if (!found) return { why: "its sizes cannot be told apart" };
  const own = found.rows.map(({ size }) => counts[found.all.indexOf(size)] ?? null);
  const done = rewriteInSizes(scene, found, own);
  return isRefusal(done) ? done : done.edits;
}

function brokenBy(
  { scene, row, counts }: RandomCase,
  edits: readonly TextEdit[],
  { worked, report }: Scene,
): string | null {
  const at = row.line.start + movedBy(row.line.start, edits);
  const own = worked.pieces.flatMap(({ rows }) => rows).find(({ line }) => line.start === at);
  if (own?.result !== "ok") return `it is ${own?.result ?? "gone"} then`;
  const makes = own.outcome?.makes ?? [];
  if (counts.some((n, size) => n !== null && makes[size] !== n)) return `it makes ${makes} for ${counts}`;
  const [before, after] = [rulesOf(scene.findings), rulesOf(report.findings)];
  const more = after.find((rule) => timesOf(after, rule) > timesOf(before, rule));
  return more ? `a new query: ${more}` : null;
}

function movedBy(offset: number, edits: readonly TextEdit[]): number {
  return edits
    .filter(({ span }) => span.end <= offset && span.start < offset)
    .reduce((sum, { span, newText }) => sum + newText.length - (span.end - span.start), 0);
}

function rulesOf(findings: Scene["findings"]): string[] {
  return findings.map(({ rule }) => rule);
}

function timesOf(all: readonly string[], rule: string): number {
  return all.filter((one) => one === rule).length;
}

/** Cases one after another: a pattern that was changed is the one to begin with for another, three times at most. */
export function* cases(texts: readonly CorpusText[], random: Random, many: number): Generator<Tried> {
  const known = new Map<CorpusText, readonly RealRow[]>();
  for (let done = 0; done < many; ) {
    const text = texts[random.between(0, texts.length - 1)] as CorpusText;
    let rows = known.get(text) ?? understoodRows(text);
    known.set(text, rows);
    for (let depth = 0; depth < 3 && done < many; depth++) {
      const row = rows[random.between(0, rows.length - 1)];
      if (!row) break;
      const one = tried(randomCase(row, random));
      done++;
      yield one;
      if (one.refused !== null || one.broken !== null) break;
      rows = rowsIn(text.name, one.after);
    }
  }
}
