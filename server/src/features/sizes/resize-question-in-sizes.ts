import { isRefusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import type { Scene } from "../actions/action";
import { pieceAround } from "../placed-row";
import { ofAmounts, type ResizeAnswer, refused, resizeAnswer } from "../resize/resize-question";
import { provedInAllSizes, saidOfAll } from "./in-all-sizes";
import { type SizeScene, sizeScenes } from "./size-scenes";
import { typedForSizes, waysToType } from "./typed-for-sizes";

/** As `resizeAnswer`, also of a piece in several sizes: each is resized by itself, and all are put into one text. */
export function resizeAnswerInSizes(scene: Scene, offset: number, typed: string | null): ResizeAnswer {
  const piece = pieceAround(scene.worked, offset);
  if (!piece || scene.worked.context.sizes.length < 2) return resizeAnswer(scene, offset, typed);
  const name = piece.piece.name || say`the piece`;
  const cannot = (why: string) => refused(name, say`${name} cannot be resized: ${why}.`);
  const all = sizeScenes(scene.worked);
  if (!all)
    return cannot(say`its sizes cannot be told apart. Change them in the grading sheet, or add one there`);
  const ask = ({ one, scene: own }: SizeScene, text: string | null): ResizeAnswer =>
    resizeAnswer(own, one.inSize(offset), text);
  const now = all.map((size) => ask(size, null));
  const stuck = now.find(({ fits }) => !fits);
  if (stuck) return { ...stuck, piece: name };
  const names = all.map(({ one }) => one.name);
  const widths = saidOfAll(now.map((one) => one.now ?? "")) ?? "";
  const asked = {
    piece: name,
    now: widths,
    ways: waysToType(names),
    where: now[0]?.where ?? say`at its widest`,
  };
  if (typed === null) return { ...refused(name, ""), ...asked, fits: true };
  const each = typedForSizes(typed, names);
  if (isRefusal(each)) return { ...refused(name, each.why), ...asked };
  const answers = each.map((text, i) => (text === null ? null : ask(all[i] as SizeScene, text)));
  return { ...together(scene, name, all, answers), ...asked };
}

function together(
  scene: Scene,
  name: string,
  all: readonly SizeScene[],
  answers: readonly (ResizeAnswer | null)[],
): ResizeAnswer {
  const at = answers.findIndex((one) => one?.fits === false);
  if (at >= 0) return refused(name, say`Size ${all[at]?.one.name}: ${answers[at]?.says ?? ""}`);
  const done = provedInAllSizes(
    scene,
    all.map((size, i) => ({ size, edits: answers[i]?.edits ?? [] })),
    ofAmounts,
  );
  if (isRefusal(done))
    return refused(name, say`One text does not do for all sizes then: ${done.why}. ${otherWays()}`);
  const told = answers.flatMap((one, i) => (one ? [say`Size ${all[i]?.one.name}: ${one.says}`] : []));
  const notes = [...done.told.map(({ message }) => message), ...answers.flatMap((one) => one?.notes ?? [])];
  return {
    ...refused(name, saidOfAll(answers.flatMap((one) => one?.says ?? [])) ?? told.join(" ")),
    fits: true,
    notes: [...new Set(notes)],
    edits: done.edits,
  };
}

function otherWays(): string {
  return say`Change the numbers in the grading sheet, or write the rounds that only some sizes work under a line such as "Size L only:"`;
}
