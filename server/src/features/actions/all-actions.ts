import type { Span } from "../../text/span";
import type { Action, ActionSource, Scene } from "./action";
import { addCount } from "./add-count";
import { asMeant } from "./as-meant";
import { declare } from "./declare";
import { declareLanguage } from "./declare-language";
import { declareTerms } from "./declare-terms";
import { explain } from "./explain";
import { inEachSize } from "./in-each-size";
import { matchSeams } from "./match-seams";
import { mend } from "./mend";
import { mendAlike } from "./mend-alike";
import { mendSafely } from "./mend-safely";
import { mirrorPiece } from "./mirror-piece";
import { respace } from "./respace";
import { retell } from "./retell";
import { rewriteRowInSizes } from "./rewrite-row-in-sizes";
import { rowRanges } from "./row-ranges";
import { updateFollowing } from "./update-following";
import { writeLists } from "./write-lists";
import { writeMaterials } from "./write-materials";
import { writeOtherLists } from "./write-other-lists";

export type { Action, ActionKind, NotedEdit, Scene } from "./action";

/** All sorts of actions at a place, in the order in which they are offered. */
const atPlace: readonly ActionSource[] = [
  mend,
  mendAlike,
  matchSeams,
  declare,
  declareTerms,
  declareLanguage,
  explain,
  addCount,
  asMeant,
  writeMaterials,
];

/** Those that better what is right: they come when someone asks for them, and light no lamp. */
const onRequest: readonly ActionSource[] = [
  inEachSize(updateFollowing),
  rewriteRowInSizes,
  ...[respace, retell, rowRanges, mirrorPiece].map(inEachSize),
  writeLists,
  writeOtherLists,
];

/** The actions on the lines that a stretch of the text touches. */
export function actionsAt(scene: Scene, span: Span): Action[] {
  const focus = wholeLines(scene.text, span);
  return atPlace.flatMap((source) => source(scene, focus));
}

/** The actions on those lines that nothing calls for. */
export function actionsOnRequest(scene: Scene, span: Span): Action[] {
  const focus = wholeLines(scene.text, span);
  return onRequest.flatMap((source) => source(scene, focus));
}

/** The actions on the whole pattern. */
export function actionsOnAll(scene: Scene): readonly Action[] {
  return mendSafely(scene, { start: 0, end: scene.text.length });
}

function wholeLines(text: string, { start, end }: Span): Span {
  const before = Math.max(text.lastIndexOf("\n", start - 1), text.lastIndexOf("\r", start - 1)) + 1;
  const behind = text.slice(end).search(/[\r\n]/);
  return { start: start === 0 ? 0 : before, end: behind < 0 ? text.length : end + behind };
}
