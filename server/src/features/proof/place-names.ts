import type { Instruction, Take } from "../../fabric/instructions";
import type { Noun } from "../../rules/wording";
import { say, sayings } from "../../text/say";

/** What a place is called where room is scarce. */
export type PlaceName = "st" | "ch" | "sp" | "loop" | "gap" | "place" | "st or sp";

export const onePlace = sayings<PlaceName>({
  st: "st",
  ch: "ch",
  sp: "sp",
  loop: "loop",
  gap: "gap",
  place: "place",
  "st or sp": "st or sp",
});

export const manyPlaces = sayings<PlaceName>({
  st: "sts",
  ch: "chs",
  sp: "sps",
  loop: "loops",
  gap: "gaps",
  place: "places",
  "st or sp": "st or sps",
});

const short: Readonly<Record<Noun, PlaceName>> = {
  stitch: "st",
  chain: "ch",
  "chain space": "sp",
  loop: "loop",
  gap: "gap",
  "stitch or space": "place",
};

/** `sts`, `sts and sps`. */
export function placesShort(noun: Noun): string {
  return noun === "stitch or space" ? say`sts and sps` : manyPlaces(short[noun]);
}

export function takesOf(instruction: Instruction | undefined): readonly Take[] {
  return instruction && "takes" in instruction ? instruction.takes : [];
}

/** What an instruction is worked into; where it does not say, what its row is worked into. */
export function placeOf(instruction: Instruction | undefined, noun: Noun): PlaceName {
  const [take] = takesOf(instruction);
  const of = take?.how === "each" ? take.of : take?.how === "next" || take?.how === "last" ? [take.of] : [];
  if (of.some(({ sort }) => sort === "space"))
    return noun === "loop" ? "loop" : of.length > 1 ? "st or sp" : "sp";
  if (of.some(({ sort }) => sort === "gap")) return "gap";
  return noun === "stitch or space" ? "st" : short[noun];
}

/** `st 3`, `sts 1–2`: places of a row by their numbers. */
export function numbered(noun: Noun, places: string): string {
  return `${/[–(]/.test(places) ? manyPlaces(short[noun]) : onePlace(short[noun])} ${places}`;
}

/** `in one sp`, `in each sp`; a stitch is what all else is worked into, and is not named. */
export function intoPlaces(place: PlaceName, places: number): string {
  if (places === 1) return say`in one ${onePlace(place)}`;
  return place === "st" ? say`in each` : say`in each ${onePlace(place)}`;
}
