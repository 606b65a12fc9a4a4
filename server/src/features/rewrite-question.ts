import type { WorkedRow } from "../fabric/worked";
import { type Rewritten, rewriteToMake } from "../reshape/rewrite-row";
import { isRefusal, type Refusal, trialOf } from "../reshape/row-trial";
import type { NotedEdit, Scene } from "./actions/action";
import { editsOf, withFollowing } from "./actions/following";
import { nearestWithFollowing } from "./actions/rewrite-row";
import { type RowHere, rowHere } from "./actions/row-here";
import { rowTitle } from "./row-names";
import { sts } from "./shown/counts";

/** The answer to a number that somebody types for a row. */
export interface RewriteAnswer {
  /** What the row is called; null where no row that can be rewritten is at the caret. */
  readonly row: string | null;
  /** The stitches that it makes now. */
  readonly now: number | null;
  /** Whether the number can be had; `says` is why not, with the nearest that can. */
  readonly fits: boolean;
  readonly says: string;
  readonly edits: readonly NotedEdit[];
}

/** No pattern has a row of more stitches. */
const stitchesAtMost = 100_000;

/** Whether the row at an offset can be rewritten for a count, as it is typed; `null`: nothing is typed yet. */
export function rewriteAnswer(scene: Scene, offset: number, typed: string | null): RewriteAnswer {
  const lineStart = scene.text.lastIndexOf("\n", offset - 1) + 1;
  const here = rowHere(scene, { start: lineStart, end: offset });
  if (!here) return refused(null, "There is no row at the caret. Put the caret on a row and try again.");
  const trial = trialOf(here.row, here.piece);
  if (isRefusal(trial)) return refused(here.row, `${rowTitle(here.row)} cannot be rewritten: ${trial.why}.`);
  const now = here.row.outcome?.makes[0] ?? null;
  if (typed === null) return { row: rowTitle(here.row), now, fits: true, says: "", edits: [] };
  const count = countIn(typed);
  if (typeof count !== "number") return { ...refused(here.row, count.why), row: rowTitle(here.row), now };
  return { ...answer(scene, here, count), now };
}

function countIn(typed: string): number | Refusal {
  const text = typed.trim();
  if (text === "") return { why: "Type a number of stitches." };
  if (/^\d+\s*[(/,]/.test(text)) return { why: "Type one number: a row is rewritten for one count." };
  if (!/^[-−]?\d+([.,]\d+)?$/.test(text)) return { why: `"${text}" is no number of stitches.` };
  const n = Number(text.replace("−", "-").replace(",", "."));
  if (!Number.isInteger(n)) return { why: "A number of stitches is whole." };
  if (n < 1) return { why: "A row has one stitch or more." };
  return n > stitchesAtMost ? { why: `No row has more than ${stitchesAtMost} stitches.` } : n;
}

function refused(row: WorkedRow | null, says: string): RewriteAnswer {
  return { row: row && rowTitle(row), now: null, fits: false, says, edits: [] };
}

function answer(scene: Scene, here: RowHere, count: number): RewriteAnswer {
  const row = rowTitle(here.row);
  const found = rewriteToMake(here.row, here.piece, count);
  const edits = isRefusal(found) ? found : withFollowing(scene, here.next, editsOf(here.row, found));
  if (isRefusal(found) || isRefusal(edits)) {
    const { why } = isRefusal(found) ? found : (edits as Refusal);
    return refused(here.row, `${sentence(why)} ${nearestWords(scene, here, count)}`.trim());
  }
  const others = new Set(edits.flatMap(({ note }) => note?.label ?? [])).size;
  return { row, now: null, fits: true, says: fitsWords(found, others), edits };
}

function sentence(why: string): string {
  return `${why.charAt(0).toUpperCase()}${why.slice(1)}.`;
}

function fitsWords({ makes, text }: Rewritten, others: number): string {
  const lines = others === 1 ? "1 line below changes too" : `${others} lines below change too`;
  return `${sts(makes)} fit: ${text}${others > 0 ? ` (${lines})` : ""}`;
}

function nearestWords(scene: Scene, here: RowHere, count: number): string {
  const { below, above } = nearestWithFollowing(scene, here, count);
  const near = [below, above].flatMap((one) => one?.makes ?? []);
  return near.length > 0 ? `The nearest that fit: ${near.join(" and ")}.` : "";
}
