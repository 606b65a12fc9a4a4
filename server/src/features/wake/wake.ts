import type { Checked } from "../../workspace/checker";
import { stalePieces } from "./pieces";
import { stalePlacements, staleReferences } from "./references";
import { staleRows } from "./rows";
import type { Stale } from "./stale";
import { twinsOf } from "./twins";

export type { Mending, Stale, StaleSort } from "./stale";

/** `key` stays equal as long as the same is said of the same line. */
export type Left = Stale & { readonly key: string };

/**
 * What a change has left in its wake: what the designer did not touch and what is out of date because of what was
 * touched, in the order of the text. What is wrong in the changed lines themselves is not told here.
 */
export function wakeOf(before: Checked["worked"], { worked: now, report }: Checked): Left[] {
  if (before.text === now.text) return [];
  const twins = twinsOf(before, now);
  const stale = [
    ...staleRows(twins.rows, report.findings),
    ...staleReferences(twins),
    ...stalePlacements(twins, now),
    ...stalePieces(twins, before, now),
  ];
  return withKeys(stale.sort((a, b) => a.span.start - b.span.start));
}

/** Of lines of which just the same is said, each has a key of its own. */
function withKeys(all: readonly Stale[]): Left[] {
  const times = new Map<string, number>();
  return all.map((stale) => {
    const { sort, piece, name, says } = stale;
    const said = JSON.stringify([sort, piece, name, says]);
    const time = (times.get(said) ?? 0) + 1;
    times.set(said, time);
    return { ...stale, key: `${said} ${time}` };
  });
}
