import type { Instruction, Take } from "../../fabric/instructions";
import type { Noun } from "../../rules/wording";

const short: Readonly<Record<Noun, string>> = {
  stitch: "st",
  chain: "ch",
  "chain space": "sp",
  loop: "loop",
  gap: "gap",
  "stitch or space": "place",
};

/** `sts`, `sts and sps`. */
export function placesShort(noun: Noun): string {
  return noun === "stitch or space" ? "sts and sps" : `${short[noun]}s`;
}

export function takesOf(instruction: Instruction | undefined): readonly Take[] {
  return instruction && "takes" in instruction ? instruction.takes : [];
}

/** What an instruction is worked into; where it does not say, what its row is worked into. */
export function placeOf(instruction: Instruction | undefined, noun: Noun): string {
  const [take] = takesOf(instruction);
  const of = take?.how === "each" ? take.of : take?.how === "next" || take?.how === "last" ? [take.of] : [];
  if (of.some(({ sort }) => sort === "space"))
    return noun === "loop" ? "loop" : of.length > 1 ? "st or sp" : "sp";
  if (of.some(({ sort }) => sort === "gap")) return "gap";
  return noun === "stitch or space" ? "st" : short[noun];
}

/** `st 3`, `sts 1–2`: places of a row by their numbers. */
export function numbered(noun: Noun, places: string): string {
  return `${short[noun]}${/[–(]/.test(places) ? "s" : ""} ${places}`;
}

/** `in one sp`, `in each sp`; a stitch is what all else is worked into, and is not named. */
export function intoPlaces(place: string, places: number): string {
  return places === 1 ? `in one ${place}` : `in each${place === "st" ? "" : ` ${place}`}`;
}
