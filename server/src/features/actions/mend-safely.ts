import { isWorkedOnce } from "../../fabric/rework";
import type { WorkedRow } from "../../fabric/worked";
import { say } from "../../text/say";
import type { Finding } from "../../workspace/report";
import type { ActionSource, Scene } from "./action";
import { editsOf, mendable, provedTogether } from "./mend-alike";

/**
 * Everything that can be mended without a look at it: counts with nothing but the row's own line against them. The
 * row fits, it counts one kind of stitch, no other way to mend it is known, and the next row, which states a count of
 * its own, is right on what this one makes. No instruction is changed.
 */
export const mendSafely: ActionSource = (scene) => {
  const counts = mendable(scene.findings, ({ fixes }, { kind }) => kind === "count" && fixes.length === 1);
  const all = counts.filter(({ finding }) => isBorneOut(scene, finding));
  const proved = all.length === 0 ? [] : provedTogether(scene, all);
  if (proved.length === 0) return [];
  const mends = proved.map(({ finding }) => finding);
  const title = say`Correct the counts that can only be slips`;
  return [{ kind: "mend-safely", title, mends, preferred: false, edits: () => editsOf(proved) }];
};

function isBorneOut({ worked }: Scene, { span }: Finding): boolean {
  const [row, next] = rowAndNext(worked.pieces, span.start);
  // In a row that stands for another, the slip may be in that one.
  if (!row || !isWorkedOnce(row) || row.line.plan?.stated?.length !== 1) return false;
  return next?.result === "ok" && next.after === null && next.line.plan?.stated != null;
}

function rowAndNext(pieces: Scene["worked"]["pieces"], offset: number): readonly WorkedRow[] {
  for (const { rows } of pieces) {
    const at = rows.findIndex(({ line }) => line.span.start <= offset && offset <= line.span.end);
    if (at >= 0) return rows.slice(at, at + 2);
  }
  return [];
}
