import type { WorkedPart } from "../fabric/parts";
import type { RowContent } from "../fabric/pattern";
import { turnsFirst, turnsLast } from "../fabric/turns";
import type { WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import { linesBetween } from "./outline";

/** What takes the work off the hook, or says how it lies. */
const rearranging =
  /\b(?:(?:do not|don['’]t|without)\s+turn|fasten|f\/?o|rejoin|join|attach|facing|flip|rotate|right side|wrong side|[rw]s)/i;

/** Turns from one row to the next; null where nothing tells. */
export function turnsBetween(before: WorkedRow, row: WorkedRow): number | null {
  const [above, own] = [turningOf(before.line.content), turningOf(row.line.content)];
  if (!above || !own || own.standsForOthers) return null;
  const turns = (above.last ? 1 : 0) + (own.first ? 1 : 0);
  // A row that says nothing of a turn may be turned all the same.
  return turns === 1 ? 1 : null;
}

/** How a row turns the work. */
export interface Turning {
  readonly first: boolean;
  readonly last: boolean;
  readonly isOnce: boolean;
  readonly standsForOthers: boolean;
}

/** Null where the work may lie otherwise for another reason than a turn. */
export const turningOf = keptBy(({ kind, plan, text }: RowContent): Turning | null => {
  if (kind !== "row" || !plan || rearranging.test(text)) return null;
  return {
    first: turnsFirst(plan),
    last: turnsLast(plan),
    isOnce: plan.instructions.filter(({ op }) => op === "turn").length < 2,
    standsForOthers: /^\W*(?:rep|as\b|same|work)/i.test(text),
  };
});

/** A line between two rows turns the work, or takes it off the hook. */
export function isRearranged(part: WorkedPart, before: WorkedRow, row: WorkedRow): boolean {
  const between = linesBetween(part, before.line.span, row.line.span);
  return between.some(
    ({ text, kind }) => kind === "prose" && (rearranging.test(text) || /\bturn/i.test(text)),
  );
}
