import type { WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import type { Basis } from "./basis";
import { inBothUnits } from "./lengths";
import { isInRounds, startsInMiddle } from "./row-shape";
import type { RoundOfPiece } from "./size";

/** Where a piece stands at the end of a row: `26.5 cm (10½ in) around, 13.5 cm (5¼ in) laid flat; 12 cm (4¾ in) from the middle`. */
export function rowSizeInWords({ around, along }: RoundOfPiece, rows: readonly WorkedRow[]): string | null {
  if (around <= 0) return null;
  const far = inBothUnits(along);
  const from = startsInMiddle(rows) ? say`${far} from the middle` : say`${far} from the start`;
  if (!isInRounds(rows)) return say`${inBothUnits(around)} wide; ${from}`;
  return say`${inBothUnits(around)} around, ${inBothUnits(around / 2)} laid flat; ${from}`;
}

/** `2 of about 9 cm (3½ in)`: slits that a row leaves; null where it leaves none. */
export function openingsInWords({ openings }: RoundOfPiece, { size }: Basis): string | null {
  if (openings === null) return null;
  const { n, chains } = openings;
  return say`${n} of about ${inBothUnits(chains * size.width)}`;
}
