import type { PatternContext } from "../fabric/context";
import { PatternReader } from "../fabric/pattern";
import { Fabric, type WorkedPiece } from "../fabric/worked";
import { withoutAsMeant } from "../notation/as-meant";
import { keptBy } from "../text/kept-by";

/** Copies of one pattern with changes in them: each is read and worked from the one before. */
export class Copies {
  private readonly reader = new PatternReader();
  private readonly fabric = new Fabric();

  work(text: string): readonly WorkedPiece[] {
    return this.fabric.work(this.reader.read(withoutAsMeant(text)));
  }
}

/** The copies of a pattern, also of its next versions, as long as they are read in the same context. */
export function copiesOf([piece]: readonly WorkedPiece[]): Copies {
  return piece ? copiesIn(piece.context) : new Copies();
}

const copiesIn = keptBy((_: PatternContext) => new Copies());
