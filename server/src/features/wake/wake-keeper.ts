import type { Checked } from "../../workspace/checker";
import { aligned } from "./alignment";
import { type Left, wakeOf } from "./wake";

type Worked = Checked["worked"];

/**
 * Keeps what the changes of one pattern have left in their wake.
 *
 * The wake is counted from a version in whose own wake nothing was left to look at. Another such version takes its
 * place only when the designer goes on to change something elsewhere: so a row being typed is one change, however
 * often it makes sense in between, and looking after one thing does not make the others forgotten.
 */
export class WakeKeeper {
  private base: Worked | null = null;
  /** The last version in whose wake nothing was left. */
  private rest: Worked | null = null;
  private readonly accepted = new Set<string>();

  /** What is left to look at in this version, once nobody is in the middle of typing. */
  left(now: Checked): Left[] {
    this.goOn(now.worked);
    const base = this.base ?? now.worked;
    this.base = base;
    const left = wakeOf(base, now).filter(({ key }) => !this.accepted.has(key));
    if (left.length === 0) this.rest = now.worked;
    return left;
  }

  /** The designer has looked at this and leaves it as it is. */
  accept(keys: readonly string[]): void {
    for (const key of keys) this.accepted.add(key);
  }

  private goOn(now: Worked): void {
    const { base, rest } = this;
    if (!base || !rest || rest === base || now.text === rest.text) return;
    if (!isElsewhere(changedLines(base, rest).now, changedLines(rest, now).before)) return;
    this.base = rest;
    this.accepted.clear();
  }
}

/** Lines that differ between two versions, by their index in each; where lines are gone, the lines around them. */
interface Changed {
  readonly before: ReadonlySet<number>;
  readonly now: ReadonlySet<number>;
}

function changedLines({ lines: a }: Worked, { lines: b }: Worked): Changed {
  const was = aligned(
    a.map(({ text }) => text),
    b.map(({ text }) => text),
  );
  const changed = { before: new Set<number>(), now: new Set<number>() };
  let [last, index] = [-1, -1];
  for (const [now, before] of [...was.entries(), [b.length, a.length] as const]) {
    if (before === null) continue;
    const isSame = before === last + 1 && now === index + 1;
    if (!isSame) {
      for (let i = last; i <= before; i++) changed.before.add(i);
      for (let i = index; i <= now; i++) changed.now.add(i);
    }
    [last, index] = [before, now];
  }
  return changed;
}

function isElsewhere(one: ReadonlySet<number>, other: ReadonlySet<number>): boolean {
  return ![...one].some((line) => other.has(line));
}
