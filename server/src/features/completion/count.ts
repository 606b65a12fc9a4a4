import type { Outcome } from "../../fabric/outcome";
import { RowLine } from "../../fabric/pattern";
import { isRight, reworking } from "../../fabric/rework";
import type { WorkedRow } from "../../fabric/worked";
import { countLike } from "../../rules/count-like";
import { say } from "../../text/say";
import type { PlacedRow } from "../placed-row";
import { line } from "../shown/blocks";
import { sized } from "../shown/sized";
import type { CompletionEntry, CompletionSource } from "./entry";
import type { WritingPlace } from "./writing-place";

/** The count of a row that fits, at its end or behind the bracket that opens it. */
export const count: CompletionSource = (place) => {
  const { current } = place;
  if (!place.isInRow || current?.row.line.kind !== "row" || !/^\s*[)\]]?\s*\.?\s*$/.test(place.behind))
    return [];
  const [, bare = "", typed = ""] = /^(.*?)([([]?[ \d]*)$/s.exec(place.written) ?? [];
  const text = bare.trimEnd();
  if (text === "" || /[,;:*([]$/.test(text)) return [];
  const outcome = workedAlone(text, current);
  const shown = outcome && shownCount(text, outcome, current, place);
  return shown ? [entryOf(shown, typed, outcome, place)] : [];
};

/** The row without the count that is being typed, if it uses up its places and all ways to read it come to the same. */
function workedAlone(text: string, { row, piece }: PlacedRow): Outcome | null {
  const right = reworking(row, piece.context)(text).all().filter(isRight);
  const [first] = right;
  const isPlain = right.every(({ makes }) => `${makes}` === `${first?.makes}`);
  return first && isPlain ? first : null;
}

/** As the pattern writes its counts; in round brackets where it has none yet. */
function shownCount(text: string, outcome: Outcome, placed: PlacedRow, place: WritingPlace): string | null {
  const { row, piece } = placed;
  const content = { ...row.line.content, text };
  const bare: WorkedRow = { ...row, line: new RowLine(content, row.line.start) };
  return countLike(bare, outcome, piece, place.pattern)?.shown ?? plainCount(outcome);
}

function plainCount({ makes }: Outcome): string | null {
  return makes.every((n) => n !== null) ? `(${sized(makes)})` : null;
}

function entryOf(shown: string, typed: string, { makes }: Outcome, place: WritingPlace): CompletionEntry {
  const closing = typed === "" ? 0 : (/^\s*[)\]]/.exec(place.behind)?.[0].length ?? 0);
  const start = place.offset - typed.trimStart().length;
  return {
    kind: "count",
    label: shown,
    detail: say`the count of this row`,
    span: { start, end: place.offset + closing },
    newText: shown,
    rank: 0,
    blocks: () => [line(say`Worked on the row below, this row makes ${sized(makes)} sts.`)],
  };
}
