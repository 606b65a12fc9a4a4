import type { Checked } from "../../workspace/checker";
import { type Left, wakeOf } from "./wake";

/**
 * Keeps what the changes of one pattern have left in their wake. It is counted from the last version in whose wake
 * there was nothing left to look at, so that looking after one thing does not make the others forgotten.
 */
export class WakeKeeper {
  private last: Checked["worked"] | null = null;
  private readonly accepted = new Set<string>();

  /** What is left to look at in this version, once nobody is in the middle of typing. */
  left(now: Checked): Left[] {
    const left = this.last ? wakeOf(this.last, now).filter(({ key }) => !this.accepted.has(key)) : [];
    if (left.length === 0) this.restFrom(now);
    return left;
  }

  /** The designer has looked at this and leaves it as it is. */
  accept(keys: readonly string[]): void {
    for (const key of keys) this.accepted.add(key);
  }

  private restFrom({ worked }: Checked): void {
    this.last = worked;
    this.accepted.clear();
  }
}
