import { nextSize } from "../../reshape/grading/add-size";
import { editsFromSheet, sheetOf } from "../../reshape/grading/sheet";
import { type SizedList, sizedListsOf } from "../../reshape/grading/size-lists";
import { isRefusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import type { TextEdit } from "../../text/span";
import type { Checked } from "../../workspace/checker";
import type { NotedEdit, Scene } from "../actions/action";
import { readNewSize } from "./new-size";

/** The answer to a sheet, or to a size, that somebody wants written into the pattern. */
export interface GradingAnswer {
  readonly fits: boolean;
  readonly says: string;
  /** What does not come out for a size then, a sentence each. */
  readonly notes: readonly string[];
  readonly edits: readonly NotedEdit[];
}

/** The page of a grading sheet; `of` names the pattern, for writing it back. */
export function gradingPage(worked: Checked["worked"], of: string): string {
  const { sizes } = worked.context;
  const lists = sizedListsOf(worked);
  if (lists.length === 0) return `${noSizes()}\n`;
  return `<!-- Grading sheet of ${of} -->

${say`All lists of the pattern, one column a size. Change numbers, or add a column with a name for one size more, and choose _Loopledger: Write the grading sheet back_.`}

${sheetOf(lists, sizes)}
`;
}

function noSizes(): string {
  return say`This pattern has one size. Write a line such as "Sizes: S (M, L)" and a number for each in the rows.`;
}

/** The pattern with the numbers of a sheet. */
export function sheetAnswer(scene: Scene, markdown: string): GradingAnswer {
  const { worked } = scene;
  const lists = sizedListsOf(worked);
  const edits = editsFromSheet(markdown, lists, worked.context.sizes);
  if (isRefusal(edits)) return refused(say`Nothing is written back: ${edits.why}.`);
  if (edits.length === 0) return refused(say`The pattern has these numbers already.`);
  return answer(scene, edits, lists, `${edits.length === 1 ? say`1 change` : say`${edits.length} changes`}`);
}

/** One size more in every list: `2XL x1.1`, or at the gauge `2XL 62 cm`. */
export function addSizeAnswer(scene: Scene, typed: string): GradingAnswer {
  const { worked } = scene;
  const lists = sizedListsOf(worked);
  if (lists.length === 0) return refused(noSizes());
  const wanted = readNewSize(typed, worked, lists);
  if (isRefusal(wanted)) return refused(wanted.why);
  const next = nextSize(lists, wanted.by);
  if (isRefusal(next)) return refused(`${next.why}.`);
  const added = lists.flatMap(({ cells, sign }, i): TextEdit[] => {
    const last = cells.at(-1);
    const newText = `${sign}${next[i] ?? wanted.name}`;
    return last ? [{ span: { start: last.end, end: last.end }, newText }] : [];
  });
  return answer(scene, added, lists, say`${wanted.name} in ${added.length} lists`);
}

function refused(says: string): GradingAnswer {
  return { fits: false, says, notes: [], edits: [] };
}

function answer(
  scene: Scene,
  edits: readonly TextEdit[],
  lists: readonly SizedList[],
  what: string,
): GradingAnswer {
  const placed = edits.map((edit): NotedEdit => {
    const list = lists.find(({ start, end }) => start <= edit.span.start && edit.span.end <= end);
    return list ? { ...edit, note: { label: say`Line ${list.line + 1}, ${list.of}` } } : edit;
  });
  const notes = (scene.prover.aftermath(placed, [])?.fresh ?? []).map(({ message }) => message);
  const rest =
    notes.length === 0
      ? say`Every row comes out.`
      : notes.length === 1
        ? say`1 query to look at then.`
        : say`${notes.length} queries to look at then.`;
  return { fits: true, says: `${what}. ${rest}`, notes, edits: placed };
}
