import type { WorkedRow } from "../../fabric/worked";
import { numbers } from "../../rules/wording";
import { say } from "../../text/say";
import type { Finding } from "../../workspace/report";
import type { Stale, StaleSort } from "./stale";
import type { RowTwins } from "./twins";

/** Rows that were right and are not now, and rows that are right with other numbers. */
export function staleRows(rows: readonly RowTwins[], findings: readonly Finding[]): Stale[] {
  const stale: Stale[] = [];
  const run: RowTwins[] = [];
  for (const twins of rows) {
    if (run.length > 0 && !goesOn(run, twins)) stale.push(...numbersOf(run.splice(0)));
    if (hasOtherNumbers(twins)) run.push(twins);
    else if (isWorse(twins)) stale.push(worse(twins, findings));
  }
  return [...stale, ...numbersOf(run)];
}

const sorts: Partial<Record<WorkedRow["result"], StaleSort>> = {
  "does-not-fit": "fit",
  "wrong-count": "count",
  ambiguous: "doubt",
  unchecked: "doubt",
};

function isWorse({ before, now }: RowTwins): boolean {
  return before.result === "ok" && now.result !== "ok";
}

function worse({ now, piece }: RowTwins, findings: readonly Finding[]): Stale {
  const { span, headText } = now.line;
  const finding = findings.find((one) => span.start <= one.span.start && one.span.start <= span.end);
  return {
    sort: sorts[now.result] ?? "doubt",
    span,
    name: headText,
    piece: piece.piece.name,
    says: finding?.message ?? say`${headText} was right before and is not now.`,
    mend: null,
  };
}

function hasOtherNumbers({ before, now }: RowTwins): boolean {
  if (before.outcome === now.outcome || before.result !== "ok" || now.result !== "ok") return false;
  return madeAndNeeded(before) !== madeAndNeeded(now);
}

function madeAndNeeded({ outcome }: WorkedRow): string {
  return JSON.stringify([outcome?.needs, outcome?.makes]);
}

/** Rows that change alike, one after the other, are told once. */
function goesOn(run: readonly RowTwins[], next: RowTwins): boolean {
  const last = run.at(-1);
  return last?.piece === next.piece && hasOtherNumbers(next) && changeOf(last) === changeOf(next);
}

function changeOf({ before, now }: RowTwins): string {
  return `${before.outcome?.makes} ${now.outcome?.makes}`;
}

function numbersOf(run: readonly RowTwins[]): Stale[] {
  const [first, last] = [run[0], run.at(-1)];
  if (!first || !last) return [];
  const { span, headText } = first.now.line;
  const name = run.length === 1 ? headText : say`${headText} to ${last.now.line.headText}`;
  const says = numbersSay(first, run.length > 1);
  return [{ sort: "numbers", span, name, piece: first.piece.piece.name, says, mend: null }];
}

function numbersSay({ before, now }: RowTwins, plural: boolean): string {
  const [was, is] = [numbers(before.outcome?.makes ?? []), numbers(now.outcome?.makes ?? [])];
  const [needed, needs] = [numbers(before.outcome?.needs ?? []), numbers(now.outcome?.needs ?? [])];
  if (was === is)
    return plural
      ? say`They are worked over ${needs} now; before, over ${needed}.`
      : say`It is worked over ${needs} now; before, over ${needed}.`;
  return plural ? say`They make ${is} now; they made ${was}.` : say`It makes ${is} now; it made ${was}.`;
}
