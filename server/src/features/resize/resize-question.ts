import type { WorkedPiece } from "../../fabric/worked";
import { isNew } from "../../reshape/resize/draft";
import { nearestSizes } from "../../reshape/resize/nearest-sizes";
import { type Resized, resizePiece } from "../../reshape/resize/resize";
import { silhouetteOf } from "../../reshape/resize/silhouette";
import { isRefusal, type Refusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import { sentence } from "../../text/sentence";
import { withEdits } from "../../text/span";
import type { Finding } from "../../workspace/report";
import type { NotedEdit, Scene } from "../actions/action";
import { gaugeLine } from "../gauge-line";
import { pieceAround } from "../placed-row";
import { roundsOrRows, rowWords } from "../row-names";
import { sts } from "../shown/counts";
import { editsOf } from "./edits";
import { measuresOf, type PieceMeasures } from "./piece-measures";
import { type WantedSize, wantedSize } from "./wanted-size";
import { whatElse } from "./what-else";

/** The answer to a size that somebody types for a piece. */
export interface ResizeAnswer {
  /** What the piece is called; null where none that can be resized is at the caret. */
  readonly piece: string | null;
  /** Stitches of its widest row now; of a piece with lace that is wider, of its widest plain row. */
  readonly now: string | null;
  /** What may be typed. */
  readonly ways: string;
  readonly where: string;
  /** Whether the size can be had; `says` is why not, with the nearest that can. */
  readonly fits: boolean;
  readonly says: string;
  /** What else is to be looked at, a sentence each. */
  readonly notes: readonly string[];
  readonly edits: readonly NotedEdit[];
}

/** Whether the piece at an offset can be had in a size, as it is typed; `null`: nothing is typed yet. */
export function resizeAnswer(scene: Scene, offset: number, typed: string | null): ResizeAnswer {
  const piece = pieceAround(scene.worked, offset);
  if (!piece)
    return refused(null, say`There is no piece at the caret. Put the caret on a row and try again.`);
  const name = piece.piece.name || say`the piece`;
  const shape = silhouetteOf(piece);
  if (isRefusal(shape)) return refused(name, say`${name} cannot be resized: ${shape.why}.`);
  const where = shape.isWiderInLace ? say`in its plain rows` : say`at its widest`;
  const asked = { piece: name, now: `${shape.widest}`, ways: ways(), where };
  if (typed === null) return { ...asked, fits: true, says: "", notes: [], edits: [] };
  const measures = measuresOf(scene.worked, piece, shape);
  const wanted = wantedSize(typed, measures);
  if (isRefusal(wanted)) return { ...refused(name, wanted.why), ...gaugeLine(scene, wanted), ...asked };
  const found = resizedWith(scene, piece, wanted);
  if (isRefusal(found)) {
    const near = nearestWords(scene, piece, wanted, shape.widest);
    return { ...refused(name, `${sentence(found.why)} ${near}`.trim()), ...asked };
  }
  const after = scene.worked.copies().work(withEdits(scene.text, found.edits));
  const { resized, edits, left } = found;
  const notes = [...left, ...whatElse({ pattern: scene.worked, piece, after, resized, measures })];
  return { ...asked, fits: true, says: fitsWords(piece, found, wanted, measures), notes, edits };
}

function ways(): string {
  return say`60, x1.5, start 8 or, at your gauge, 40 cm, 16 in across, 20 cm high`;
}

export function refused(piece: string | null, says: string): ResizeAnswer {
  return { piece, now: null, ways: "", where: say`at its widest`, fits: false, says, notes: [], edits: [] };
}

interface ResizedWith {
  readonly resized: Resized;
  readonly edits: readonly NotedEdit[];
  readonly left: readonly string[];
}

/** The piece in that size with all that names its rows, if nothing new is found then. */
function resizedWith(scene: Scene, piece: WorkedPiece, { goal }: WantedSize): ResizedWith | Refusal {
  const found = resizePiece(scene.worked, piece, goal);
  return isRefusal(found) ? found : proved(scene, piece, found);
}

function proved(scene: Scene, piece: WorkedPiece, resized: Resized): ResizedWith | Refusal {
  const { edits, left } = editsOf(scene.worked, piece, resized);
  const after = scene.prover.aftermath(edits, []);
  if (!after) return { why: say`it has that size already` };
  const wrong = after.fresh.find(
    ({ rule }) => !ofAmounts.has(rule) && isMore(scene, edits, rule, after.fresh),
  );
  if (wrong) return { why: say`something else would be wrong then: ${wrong.message}` };
  return { resized, edits, left: [...left, ...after.fresh.map(({ message }) => message)] };
}

/** Whether more is found than has gone: what was found in a row that is left out may be found in the next one now. */
function isMore(scene: Scene, edits: readonly NotedEdit[], rule: string, fresh: readonly Finding[]): boolean {
  const own = scene.findings.filter((one) => one.rule === rule);
  const stays = scene.prover.aftermath(edits, own)?.stays.length ?? 0;
  return fresh.filter((one) => one.rule === rule).length > own.length - stays;
}

/** What a list says of yarn and sizes is not true any more of another size: that is told, and stands in no one's way. */
export const ofAmounts = new Set(["too-little-yarn", "too-much-yarn", "size-differs"]);

function nearestWords(scene: Scene, piece: WorkedPiece, { goal, sized }: WantedSize, now: number): string {
  const near = nearestSizes(scene.worked, piece, goal, (one) => !isRefusal(proved(scene, piece, one)));
  const word = (width: number): string =>
    `${width}${sized(width)}${width === now ? say` (as it is now)` : ""}`;
  const words = (all: readonly number[]): string => all.map(word).join(say` and `);
  if (near.whole.length === 0 && near.partial.length === 0) return "";
  const partial =
    near.partial.length > 0 ? say`; with one round that adds or takes fewer, ${words(near.partial)}` : "";
  return near.whole.length === 0
    ? say`The nearest that fit: ${words(near.partial)}.`
    : say`The nearest that fit: ${words(near.whole)}${partial}.`;
}

function fitsWords(
  piece: WorkedPiece,
  { resized, edits }: ResizedWith,
  wanted: WantedSize,
  { isRound }: PieceMeasures,
): string {
  const { before, rows, widest } = resized;
  const were = before.rungs.reduce(
    (sum, one) => sum + (one.row.line.kind === "foundation" ? 0 : one.rows),
    0,
  );
  const are = rows.reduce(
    (sum, { row }) => sum + (row.state === "gone" || row.row.line.kind === "foundation" ? 0 : row.rows),
    0,
  );
  const [line] = piece.rows.filter(({ line: { kind } }) => kind !== "foundation");
  const noun = line ? roundsOrRows(line.line, piece) : isRound ? "rounds" : "rows";
  const partial = partialWords(resized);
  const lines = new Set(edits.flatMap(({ note }) => note?.label ?? [])).size;
  return say`${inItsCount(resized)}${wanted.sized(widest)} fit: ${are} ${rowWords(noun)} for ${were}.${partial} ${lines === 1 ? say`1 line changes` : say`${lines} lines change`}.`;
}

/** `36 sts`; of a piece that is counted in blocks, `3 blocks`. */
function inItsCount({ before: { rungs, first }, widest }: Resized): string {
  const [term] = rungs[first]?.row.line.plan?.stated ?? [];
  return term?.sort === "unit" ? `${widest} ${term.noun}` : sts(widest);
}

/** Which of the new rows adds fewer stitches than its fellows. */
function partialWords({ rows, after, before }: Resized): string {
  const there = rows.filter(({ row }) => row.state !== "gone");
  const [odd] = there.flatMap(({ row }, i) => {
    const { outcome, line } = after.rows[i] ?? {};
    const by = (outcome?.makes[0] ?? 0) - (outcome?.has[0] ?? 0);
    return isNew(row) && by > 0 && by !== before.rate ? [{ by, name: line?.headText ?? "" }] : [];
  });
  return odd ? say` ${odd.name} adds ${odd.by}, where the others add ${before.rate}.` : "";
}
