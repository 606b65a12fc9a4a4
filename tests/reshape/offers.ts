import { rewriteRowInSizes } from "../../server/src/features/actions/rewrite-row-in-sizes";
import { rewriteAnswerInSizes } from "../../server/src/features/sizes/rewrite-question-in-sizes";
import { type RealRow, realTexts, understoodRows } from "./corpus";

/** Which rows have the action in their list, and why the others have not. */
export function offers(): string {
  const all = realTexts().flatMap(understoodRows);
  const refused = all.filter(({ scene, row }) => rewriteRowInSizes(scene, row.line.span).length === 0);
  const groups = new Map<string, RealRow[]>();
  for (const one of refused) groups.set(reasonFor(one), [...(groups.get(reasonFor(one)) ?? []), one]);
  const sorted = [...groups].sort((a, b) => b[1].length - a[1].length);
  return [
    `## The action is offered on ${share(all.length - refused.length, all.length)} of the rows that are understood`,
    ...sorted.map(([reason, rows]) => `### ${reason}: ${rows.length}\n\n${rows.map(shown).join("\n")}`),
  ].join("\n\n");
}

function share(some: number, all: number): string {
  return `${some} of ${all} (${((100 * some) / all).toFixed(2)} %)`;
}

/** What is said to one who asks for one stitch more, without its numbers. */
function reasonFor({ scene, row }: RealRow): string {
  const more = (row.outcome?.makes ?? []).map((n) => (n ?? 0) + 1);
  const typed = more.length > 1 ? `${more[0]} (${more.slice(1).join(", ")})` : `${more[0]}`;
  return rewriteAnswerInSizes(scene, row.line.start, typed).says.replace(/\d+/g, "#").slice(0, 90);
}

function shown({ name, row }: RealRow): string {
  return `- ${name}: ${row.line.headText}: ${row.line.text}`;
}
