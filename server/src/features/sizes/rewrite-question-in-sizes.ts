import type { WorkedRow } from "../../fabric/worked";
import { yarnUseOf } from "../../measure/yarn-used";
import { whyNoCount } from "../../reshape/count-from-above";
import { isRefusal, type Refusal } from "../../reshape/row-trial";
import { differentWords } from "../../reshape/sizes/all-sizes";
import { say } from "../../text/say";
import { sentence } from "../../text/sentence";
import { withEdits } from "../../text/span";
import type { NotedEdit, Scene } from "../actions/action";
import { rowHere } from "../actions/row-here";
import { linesBelow, nearestWords, type RewriteAnswer, refused, rewriteAnswer } from "../rewrite-question";
import { rowTitle } from "../row-names";
import { type Wanted, wantedIn } from "../wanted-count";
import { saidOfAll } from "./in-all-sizes";
import { inSize, type RowInSizes, rewriteInSizes, rowInSizes } from "./rewrite-in-sizes";
import { typedForSizes, waysToType } from "./typed-for-sizes";

/** As `rewriteAnswer`, also of a row that is written for several sizes. */
export function rewriteAnswerInSizes(scene: Scene, offset: number, typed: string | null): RewriteAnswer {
  const row = rowHere(scene, { start: offset, end: offset })?.row;
  if (!row || scene.worked.context.sizes.length < 2) return rewriteAnswer(scene, offset, typed);
  const cannot = (why: string) => refused(row, say`${rowTitle(row)} cannot be rewritten: ${why}.`);
  const found = rowInSizes(scene, row.line.span);
  if (!found) return cannot(say`its sizes cannot be told apart. Change its numbers in the grading sheet`);
  const none = found.rows.map(({ here }) => whyNoCount(here.row, here.piece)).find((why) => why !== null);
  if (none) return cannot(none.why);
  const names = found.all.map(({ one }) => one.name);
  const now = saidOfAll(found.rows.map((one) => `${one.now}`)) ?? "";
  const asked = { row: rowTitle(row), now, ways: waysToType(names) };
  if (typed === null) return { ...asked, fits: true, says: "", edits: [] };
  return { ...refused(row, ""), ...answerFor(scene, row, found, typed), ...asked };
}

function answerFor(
  scene: Scene,
  row: WorkedRow,
  found: RowInSizes,
  typed: string,
): Pick<RewriteAnswer, "fits" | "says" | "edits"> {
  const wanted = wantedEach(found, typed);
  if (isRefusal(wanted)) return { fits: false, says: wanted.why, edits: [] };
  const done = rewriteInSizes(
    scene,
    found,
    wanted.map((one) => one?.count ?? null),
  );
  if (isRefusal(done)) return { fits: false, says: whyNot(found, wanted, done), edits: [] };
  const counts = saidOfAll(found.rows.map(({ now }, i) => `${wanted[i]?.count ?? now}`));
  const says = say`${counts} sts fit: ${textWith(scene, row, done.edits)}${linesBelow(done.edits)}`;
  return { fits: true, says, edits: done.edits };
}

/** What the row says then; no line is put in before it. */
function textWith({ text }: Scene, { line }: WorkedRow, edits: readonly NotedEdit[]): string {
  const at = text.slice(0, line.start).split("\n").length - 1;
  const told = withEdits(text, edits).split("\n")[at] ?? "";
  return told.slice(line.start - (text.lastIndexOf("\n", line.start - 1) + 1)).trim();
}

/** What is wanted of each size that works the row. */
function wantedEach({ all, rows }: RowInSizes, typed: string): (Wanted | null)[] | Refusal {
  const each = typedForSizes(
    typed,
    all.map(({ one }) => one.name),
  );
  if (isRefusal(each)) return each;
  const idle = all.find((size, i) => each[i] != null && !rows.some((row) => row.size === size));
  if (idle && each.filter((one) => one !== null).length === 1)
    return { why: say`Size ${idle.one.name} does not work this row.` };
  const wanted: (Wanted | null)[] = [];
  for (const { size, now } of rows) {
    const own = each[all.indexOf(size)];
    const gauge = () => yarnUseOf(size.scene.worked).ground.basis?.gauge ?? null;
    const found = own == null ? null : wantedIn(own, now, gauge);
    if (found && isRefusal(found))
      return { why: own === "" ? found.why : say`Size ${size.one.name}: ${found.why}` };
    wanted.push(found);
  }
  return wanted;
}

/** With the nearest counts of the first size that cannot have what is wanted. */
function whyNot({ rows }: RowInSizes, wanted: readonly (Wanted | null)[], { why }: Refusal): string {
  const at = rows.findIndex(({ size }) => why.startsWith(inSize(size.one.name, "")));
  const [row, count] = [rows[at], wanted[at]];
  const near = row && count ? nearestWords(row.size.scene, row.here, count) : otherWay(why);
  return `${sentence(why)} ${near}`.trim();
}

/** Where the sizes do not go into one line. */
function otherWay(why: string): string {
  return why.includes(differentWords(""))
    ? say`Type counts that differ from the present ones by as much, or change the numbers in the grading sheet.`
    : "";
}
