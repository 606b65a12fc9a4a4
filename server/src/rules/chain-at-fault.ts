import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { type Span, shift } from "../text/span";
import { mendsOf } from "./mends";
import { firstChain } from "./mends/first-chain";
import { chainThatFits } from "./mends/starting-chain";
import { trialOf } from "./mends/trial";
import type { Related } from "./rule";
import { rowName, says } from "./wording";
import { laterRows } from "./written-for";

/**
 * The number of a starting chain that a wrong first row speaks against together with a witness: another chain makes
 * the row fit and brings its count with it, or later rows are written for that count. Null where the row itself may be
 * the slip.
 */
export function chainAtFault(row: WorkedRow, piece: WorkedPiece): Span | null {
  const { below, outcome, line } = row;
  if (below?.kind !== "foundation" || !outcome || !line.plan?.stated) return null;
  const isBorneOut = !outcome.fits || laterRows(row, piece).length > 0;
  const trial = isBorneOut && !isNumberOff(row, piece) ? trialOf(row, piece.context) : null;
  const [chain] = trial && firstChain(trial).length === 0 ? chainThatFits(trial) : [];
  const [edit] = chain?.edits ?? [];
  return edit ? shift(edit.span, below.start) : null;
}

/** A number of a row that is wrong in both ways puts both right. */
function isNumberOff(row: WorkedRow, piece: WorkedPiece): boolean {
  const { outcome } = row;
  if (!outcome || outcome.fits || outcome.counts) return false;
  return mendsOf(row, piece).instructions.some(({ kind }) => kind === "number");
}

/** The row that tells of it. */
export function workedOnIt(row: WorkedRow): Related {
  return { span: row.line.span, message: say`${says(rowName(row), "is")} worked on it.` };
}
