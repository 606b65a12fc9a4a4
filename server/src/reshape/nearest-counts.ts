import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { shapingOf } from "./even-row";
import { rewriteToMake, shapedOf } from "./rewrite-row";
import type { Rewritten } from "./rewritten";
import { isRefusal, trialOf } from "./row-trial";
import { type Congruence, countsAround } from "./which-counts";

/** Counts tried on either side of the one that a row has. */
const triedAtMost = 24;

/** Like groups are looked for among so many counts at least. */
const leastNear = 6;

/** Of them, those that suit the row itself, and for which the rows that follow are looked at. */
const provedAtMost = 6;

export interface Nearest {
  readonly below: Rewritten | null;
  readonly above: Rewritten | null;
}

/** Whether a count suits whatever else has to be looked at. */
export type Suits = (rewritten: Rewritten) => boolean;

/** The counts nearest to `from` that suit a row: all its groups alike where it is shaped, whole repeats elsewhere. */
export function nearestCounts(row: WorkedRow, piece: WorkedPiece, from: number, suitsAll: Suits): Nearest {
  const own = { row, piece, from, suitsAll };
  const search = { ...own, suits: suitsFor(row, piece), within: Math.max(leastNear, from / 4) };
  const any = { ...own, suits: (makes: number) => makes >= 1, within: triedAtMost };
  const behind = suitingBehind(row, piece);
  const likely = behind && {
    ...search,
    within: triedAtMost,
    suits: (makes: number) => makes % behind.of === behind.plus && search.suits(makes),
  };
  const near = (by: 1 | -1) => (likely && nearest(likely, by)) ?? nearest(search, by) ?? nearest(any, by);
  return { below: near(-1), above: near(1) };
}

/** The counts that the rows suit which are worked on what a row makes: tried before others. */
function suitingBehind(row: WorkedRow, piece: WorkedPiece): Congruence | null {
  const next = piece.rows[piece.rows.indexOf(row) + 1];
  return next && next.outcome?.has[0] === row.outcome?.makes[0] ? countsAround(next, piece) : null;
}

/** Like groups are easier to work, so that they are looked for; a count that is asked for needs none. */
function suitsFor(row: WorkedRow, piece: WorkedPiece): (makes: number) => boolean {
  const trial = trialOf(row, piece);
  const places = isRefusal(trial) || !shapedOf(trial) ? null : (trial.outcome.has[0] ?? null);
  if (places === null) return (makes) => makes >= 1;
  return (makes) => {
    const shaping = shapingOf(places, makes);
    if (!shaping) return false;
    const { units, plain } = shaping;
    return units === 0 || plain === 0 || plain % units === 0 || units % plain === 0;
  };
}

interface Search {
  readonly row: WorkedRow;
  readonly piece: WorkedPiece;
  readonly from: number;
  readonly suits: (makes: number) => boolean;
  readonly suitsAll: Suits;
  /** How far from the count they are looked for. */
  readonly within: number;
}

function nearest({ row, piece, from, suits, suitsAll, within }: Search, by: 1 | -1): Rewritten | null {
  let proved = 0;
  for (let i = 1; i <= Math.min(within, triedAtMost) && proved < provedAtMost; i++) {
    const makes = from + by * i;
    if (!suits(makes)) continue;
    const found = rewriteToMake(row, piece, makes);
    if (isRefusal(found)) continue;
    proved++;
    if (suitsAll(found)) return found;
  }
  return null;
}
