import { isRefusal } from "../../reshape/row-trial";
import { provedInAllSizes, saidOfAll, shapeOf } from "../sizes/in-all-sizes";
import { type SizeScene, sizeScenes } from "../sizes/size-scenes";
import type { Action, ActionSource, Scene } from "./action";

/** Actions on a pattern of several sizes: what is offered in each size that works the lines, done in all of them. */
export function inEachSize(source: ActionSource): ActionSource {
  return (scene, focus) => {
    if (scene.worked.context.sizes.length < 2) return source(scene, focus);
    const all = sizeScenes(scene.worked) ?? [];
    const working = all.filter(({ one }) => one.works(focus.start));
    const offers = working.map((size) => ({ size, actions: source(size.scene, inSize(size, focus)) }));
    const [first] = offers;
    return (first?.actions ?? []).flatMap((action, i) => {
      const alike = offers.map(({ size, actions }) => ({
        size,
        action: likeAt(action, i, first?.actions ?? [], actions),
      }));
      return inAll(scene, all, alike);
    });
  };
}

function inSize({ one }: SizeScene, { start, end }: { readonly start: number; readonly end: number }) {
  return { start: one.inSize(start), end: one.inSize(end) };
}

interface ActionOfSize {
  readonly size: SizeScene;
  readonly action: Action | undefined;
}

/** The action of another size that says the same but for numbers, and is as far down among those. */
function likeAt(
  { title }: Action,
  at: number,
  own: readonly Action[],
  others: readonly Action[],
): Action | undefined {
  const isAlike = (one: Action): boolean => shapeOf(one.title) === shapeOf(title);
  return others.filter(isAlike)[own.slice(0, at).filter(isAlike).length];
}

function inAll(scene: Scene, sizes: readonly SizeScene[], alike: readonly ActionOfSize[]): Action[] {
  const title = saidOfAll(alike.flatMap(({ action }) => action?.title ?? []));
  const [first] = alike;
  if (!first?.action || title === null || alike.some(({ action }) => !action)) return [];
  const editsOf = (size: SizeScene) => alike.find((one) => one.size === size)?.action?.edits() ?? [];
  const done = provedInAllSizes(
    scene,
    sizes.map((size) => ({ size, edits: editsOf(size) })),
  );
  return isRefusal(done) ? [] : [{ ...first.action, title, mends: [], edits: () => done.edits }];
}
