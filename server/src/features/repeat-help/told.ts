import { counted, type Noun } from "../../rules/wording";
import { say } from "../../text/say";
import { placesShort } from "../proof/place-names";
import { type Block, line } from "../shown/blocks";
import { sized } from "../shown/sized";
import type { Share } from "../step-sums";

/** How a repeat goes in one size. */
export interface Going {
  readonly times: number;
  /** One time; null where the last one is not worked to its end. */
  readonly each: Share | null;
  /** Places used from the beginning of the row to the end of the repeat. */
  readonly used: number;
  /** Places there are; null where they are not counted, as in a ring. */
  readonly has: number | null;
}

export interface Told {
  readonly below: string;
  readonly noun: Noun;
  /** It is being written: how often it is worked is found out, not said. */
  readonly isTried: boolean;
}

/** A repeat in a few short lines: each time, how many times, used and left. */
export function toldGoings(goings: readonly (Going | null)[], told: Told): Block[] {
  const texts = [eachTime(goings, told), howOften(goings, told), left(goings, told)];
  return texts.flatMap((text) => (text === null ? [] : [line(text)]));
}

function eachTime(goings: readonly (Going | null)[], { noun }: Told): string | null {
  const each = goings.map((going) => going?.each ?? null);
  if (!each.some((one) => one)) return null;
  const [uses, makes] = [sizedBy(each, ({ uses }) => uses), sizedBy(each, ({ makes }) => makes)];
  return say`Each time it uses ${uses} ${placesShort(noun)} and makes ${makes}.`;
}

function howOften(goings: readonly (Going | null)[], { isTried }: Told): string {
  const times = sizedBy(goings, ({ times }) => times);
  const word = times === "1" ? say`once` : say`${times} times`;
  return isTried ? say`As a repeat it fits ${word}.` : say`Worked ${word}.`;
}

function left(goings: readonly (Going | null)[], { below, noun }: Told): string | null {
  const known = goings.filter((going) => going?.has != null);
  if (known.length === 0) return null;
  const used = sizedBy(goings, ({ used }) => used);
  const has = goings.map((going) => going?.has ?? null);
  const rest = goings.map((going) => (going?.has == null ? null : going.has - going.used));
  if (rest.some((n) => n !== null && n < 0)) return say`${used} used by its end; ${below} has ${sized(has)}.`;
  const [first] = has;
  const places = has.length === 1 ? counted(first ?? 0, noun) : `${sized(has)} ${counted(2, noun).slice(2)}`;
  return say`Of the ${places} of ${below}, ${used} are used by its end: ${sized(rest)} left.`;
}

function sizedBy<T>(list: readonly (T | null)[], numberOf: (one: T) => number): string {
  return sized(list.map((one) => (one === null ? null : numberOf(one))));
}
