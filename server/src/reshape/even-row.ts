import { type Group, linedUp, staggered } from "./even";
import { fold } from "./fold";
import type { Stitching } from "./shaped-row";
import { type Wording, written } from "./wording";

/** What a row is made of that goes from so many places to so many stitches by increases or decreases alone. */
export interface Shaping {
  readonly units: number;
  readonly plain: number;
  readonly unit: Stitching;
  /** What is worked between the units: plain stitches, or smaller increases or decreases. */
  readonly filler: Stitching;
}

const plainStitch: Stitching = { uses: 1, makes: 1 };

/** From half to double by `inc` or `dec`, to thrice or a third by three in one or together; else null. */
export function shapingOf(places: number, stitches: number): Shaping | null {
  const more = stitches >= places;
  const [few, many] = more ? [places, stitches] : [stitches, places];
  if (few < 1 || many > 3 * few || !Number.isInteger(few) || !Number.isInteger(many)) return null;
  const by = (n: number): Stitching => (more ? { uses: 1, makes: n } : { uses: n, makes: 1 });
  const units = many > 2 * few ? many - 2 * few : many - few;
  const filler = many > 2 * few ? by(2) : plainStitch;
  return { units, plain: few - units, unit: by(many > 2 * few ? 3 : 2), filler };
}

export type Spacing = "lined-up" | "staggered";

export function groupsFor({ units, plain }: Shaping, spacing: Spacing): Group[] {
  return spacing === "staggered" ? staggered(units, plain) : linedUp(units, plain);
}

interface Words {
  readonly wording: Wording;
  /** So many fillers. */
  readonly fill: (n: number) => string;
  readonly unitFirst: boolean;
  /** A chain stands for the first stitch. */
  readonly leads: boolean;
}

/** The stitches of such a row in words: `(sc 12, inc) x3, sc 11, inc`. */
export function evenText(groups: readonly Group[], words: Words): string {
  const [first, ...rest] = groups;
  if (!words.leads || !first || first.plain === 0) return groupsText(groups, words);
  // What the chain begins is told by itself: `ch 3, dc in next st, 2 dc in next st, *dc in next 2 sts…`.
  const begun = { plain: first.plain - 1, units: first.units };
  const head = begun.plain + begun.units > 0 ? [groupsText([begun], words)] : [];
  return [...head, ...(rest.length > 0 ? [groupsText(rest, words)] : [])].join(", ");
}

function groupsText(groups: readonly Group[], { wording, fill, unitFirst }: Words): string {
  const order = unitFirst ? [...groups].reverse() : groups;
  const word = ({ plain, units }: Group): string => {
    const parts = [...(plain > 0 ? [fill(plain)] : []), ...(units > 0 ? [wording.units(units)] : [])];
    return (unitFirst ? parts.reverse() : parts).join(", ");
  };
  return written(
    fold(order, ({ plain, units }) => `${plain} ${units}`),
    word,
    wording,
  );
}
