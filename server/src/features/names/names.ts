import { usualOptions } from "../../measure/materials";
import type { WorkedPattern } from "../../rules/rule";
import { say } from "../../text/say";
import type { TextEdit } from "../../text/span";
import type { Prover } from "../../workspace/prover";
import { Place } from "../hover/place";
import { isNotRenamed, type NamedThing, type NameSource, type NotRenamed } from "./named-thing";
import { pieces } from "./pieces";
import { rowNumbers } from "./row-numbers";
import { specialStitches } from "./special-stitches";
import { yarnLetters } from "./yarn-letters";

export { isNotRenamed, type NamedThing } from "./named-thing";

/** The first that knows what a place names tells it. */
const sources: readonly NameSource[] = [rowNumbers, pieces, yarnLetters, specialStitches];

/** What is named at an offset, with all the places that name it; null where nothing is. */
export function namedAt(pattern: WorkedPattern, offset: number): NamedThing | null {
  const place = new Place(pattern, offset, usualOptions);
  for (const source of sources) {
    const found = source.at(place);
    if (found) return found;
  }
  return null;
}

/** The edits that give it another name, if the pattern still reads and counts as before; else why not. */
export function renamed(thing: NamedThing, to: string, prover: Prover): readonly TextEdit[] | NotRenamed {
  if (thing.fixed !== null) return { why: thing.fixed };
  const edits = thing.renamed(to.trim());
  if (isNotRenamed(edits)) return edits;
  const [fresh] = prover.aftermath(edits, [])?.fresh ?? [];
  return fresh
    ? { why: say`With that name the pattern would not read as it does now: ${fresh.message}` }
    : edits;
}
