import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { listed, type Noun, placesNoun, sizeName } from "../../rules/wording";
import { say } from "../../text/say";
import { instructionsBehind, wordsBehind } from "../row-instructions";
import { belowTitle, isMany } from "../row-names";
import { mergedSizes } from "../shown/sized";
import type { Telling } from "./done";
import { passesOf } from "./passes";
import { type ProofLine, proofLines } from "./proof-lines";

/** A row worked stitch by stitch, what is alike drawn together. */
export interface Proof {
  /** What it is worked over; of a line for several rows, what the last of them is worked over. */
  readonly noun: Noun;
  readonly below: string;
  /** One for all sizes, or several where sizes are worked in other ways. */
  readonly tables: readonly ProofTable[];
}

export interface ProofTable {
  readonly sizes: readonly number[];
  readonly lines: readonly ProofLine[];
}

/** The proof of a row; null where it was not checked, or where its line tells no stitches one by one. */
export function proofOf(row: WorkedRow, piece: WorkedPiece): Proof | null {
  const { outcome } = row;
  if (outcome === null || row.result === "unchecked") return null;
  const words = wordsBehind(row, piece);
  const noun = placesNoun({ ...row, line: words });
  const telling: Telling = {
    instructions: instructionsBehind(row, words),
    noun,
    onRing: outcome.needs.every((n) => n === null),
  };
  const bySize = outcome.steps.map((steps) =>
    steps.length === 0 ? null : proofLines(passesOf(steps, telling)),
  );
  if (bySize.every((lines) => lines === null)) return null;
  return {
    noun,
    below: isMany(row) ? say`the row before it` : belowTitle(row, piece),
    tables: tablesOf(bySize),
  };
}

/** `size M and size L`: the sizes a table is for; null where it is for all. */
export function sizesOf({ sizes }: ProofTable, piece: WorkedPiece): string | null {
  if (sizes.length === piece.context.sizes.length) return null;
  return listed(
    sizes.map((size) => sizeName(size, piece)),
    "and",
  );
}

function tablesOf(bySize: readonly (readonly ProofLine[] | null)[]): ProofTable[] {
  const groups: { sizes: number[]; bySize: (readonly ProofLine[])[] }[] = [];
  for (const [size, lines] of bySize.entries()) {
    if (lines === null) continue;
    const alike = groups.find((group) => merged([...group.bySize, lines]) !== null);
    if (alike) {
      alike.sizes.push(size);
      alike.bySize.push(lines);
    } else groups.push({ sizes: [size], bySize: [lines] });
  }
  return groups.map((group) => ({ sizes: group.sizes, lines: merged(group.bySize) ?? [] }));
}

/** The lines of several sizes as one list, with a number for each size; null where they tell other things. */
function merged(bySize: readonly (readonly ProofLine[])[]): ProofLine[] | null {
  const [first = []] = bySize;
  if (bySize.some((lines) => lines.length !== first.length)) return null;
  const out = first.map((_, i) => mergedLine(bySize.flatMap((lines) => lines[i] ?? [])));
  return out.every((line) => line !== null) ? out : null;
}

function mergedLine(bySize: readonly ProofLine[]): ProofLine | null {
  const cell = (name: keyof ProofLine) => mergedSizes(bySize.map((line) => line[name]));
  const [places, does, makes, sum] = [cell("places"), cell("does"), cell("makes"), cell("sum")];
  if (places === null || does === null || makes === null || sum === null) return null;
  return { places, does, makes, sum };
}
