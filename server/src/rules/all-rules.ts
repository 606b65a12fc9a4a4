import { againstNotes } from "./against-notes";
import { ambiguous } from "./ambiguous";
import { countMissing } from "./count-missing";
import { doesNotFit } from "./does-not-fit";
import { idleRemark } from "./idle-remark";
import { markNotClosed } from "./mark-not-closed";
import { noSuchRow } from "./no-such-row";
import { notUnderstood } from "./not-understood";
import { rowDoubled } from "./row-doubled";
import { rowSkipped } from "./row-skipped";
import type { PatternRule, RowRule, Rule } from "./rule";
import { sidesNotAlternating } from "./sides-not-alternating";
import { timesTwoWays } from "./times-two-ways";
import { wrongCount } from "./wrong-count";

/** Rules for single rows, in the order their findings are listed for one row. */
export const rowRules: readonly RowRule[] = [
  doesNotFit,
  wrongCount,
  ambiguous,
  notUnderstood,
  markNotClosed,
  noSuchRow,
];

/** Rules for a pattern as a whole. */
export const patternRules: readonly PatternRule[] = [
  againstNotes,
  rowSkipped,
  rowDoubled,
  countMissing,
  sidesNotAlternating,
  timesTwoWays,
];

export const allRules: readonly Rule[] = [...rowRules, ...patternRules, idleRemark];
