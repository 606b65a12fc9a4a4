import { asBroken, type Broken } from "./broken";
import type { Session } from "./operations";
import { newTally, Player } from "./player";

/** What a session breaks on a fresh server; null where all is kept. */
export async function failureOf(session: Session): Promise<Broken | null> {
  const player = await Player.start(newTally());
  try {
    await player.play(session);
    return null;
  } catch (fault) {
    return asBroken(fault);
  }
}

/** The same failure with as little as can be: fewer operations, a shorter text. */
export async function shrunk(session: Session, { sort }: Broken): Promise<Session> {
  const stillFails = async (smaller: Session) => (await failureOf(smaller))?.sort === sort;
  const fewer = async ({ start, operations }: Session): Promise<Session> => ({
    start,
    operations: await reduced(operations, (some) => stillFails({ start, operations: some })),
  });
  const shorter = async ({ start, operations }: Session): Promise<Session> => {
    const withLines = (lines: readonly string[]) => ({ start: lines.join("\n"), operations });
    return withLines(await reduced(start.split("\n"), (lines) => stillFails(withLines(lines))));
  };
  return fewer(await shorter(await fewer(session)));
}

/** Leaves out parts of a list, large ones first, as long as `holds` (delta debugging, Zeller and Hildebrandt 2002). */
export async function reduced<T>(
  list: readonly T[],
  holds: (some: readonly T[]) => Promise<boolean>,
): Promise<readonly T[]> {
  let left = list;
  for (let size = Math.ceil(list.length / 2); size > 0; size = size === 1 ? 0 : Math.ceil(size / 2)) {
    for (let at = 0; at < left.length; ) {
      const without = left.toSpliced(at, size);
      if (await holds(without)) left = without;
      else at += size;
    }
  }
  return left;
}
