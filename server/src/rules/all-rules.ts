import { againstNotes } from "./against-notes";
import { ambiguous } from "./ambiguous";
import { chainTwice } from "./chain-twice";
import { chainTwoWays } from "./chain-two-ways";
import { chainUnlike } from "./chain-unlike";
import { countMissing } from "./count-missing";
import { definedTwice } from "./defined-twice";
import { doesNotFit } from "./does-not-fit";
import { doesNotLieFlat } from "./does-not-lie-flat";
import { edgesDiffer } from "./edges-differ";
import { goesOnUntold } from "./goes-on-untold";
import { hookMismatch } from "./hook-mismatch";
import { idleRemark } from "./idle-remark";
import { incompleteGauge } from "./incomplete-gauge";
import { leftOverText } from "./left-over-text";
import { lengthsDisagree } from "./lengths-disagree";
import { markNotClosed } from "./mark-not-closed";
import { mixedTerms } from "./mixed-terms";
import { noSuchPlace } from "./no-such-place";
import { noSuchPlacement } from "./no-such-placement";
import { noSuchRow } from "./no-such-row";
import { notUnderstood } from "./not-understood";
import { nothingWorked } from "./nothing-worked";
import { oddEyelets } from "./odd-eyelets";
import { oneForSeveral } from "./one-for-several";
import { otherStitches } from "./other-stitches";
import { pieceNotFinished } from "./piece-not-finished";
import { pieceNotMade } from "./piece-not-made";
import { pieceNotUsed } from "./piece-not-used";
import { placedTooLate } from "./placed-too-late";
import { rowDoubled } from "./row-doubled";
import { rowSkipped } from "./row-skipped";
import type { PatternRule, RowRule, Rule } from "./rule";
import { saidTwice } from "./said-twice";
import { sidesNotAlternating } from "./sides-not-alternating";
import { sizeDiffers } from "./size-differs";
import { timesTwoWays } from "./times-two-ways";
import { tooLittleYarn } from "./too-little-yarn";
import { tooMuchYarn } from "./too-much-yarn";
import { undefinedAbbreviation } from "./undefined-abbreviation";
import { unevenSizes } from "./uneven-sizes";
import { unlistedHook } from "./unlisted-hook";
import { unlistedNotion } from "./unlisted-notion";
import { unlistedSize } from "./unlisted-size";
import { unlistedYarn } from "./unlisted-yarn";
import { untoldTerms } from "./untold-terms";
import { unusedAbbreviation } from "./unused-abbreviation";
import { unusedYarn } from "./unused-yarn";
import { wrongCount } from "./wrong-count";
import { wrongNumberOfPieces } from "./wrong-number-of-pieces";
import { wrongNumberOfRows } from "./wrong-number-of-rows";

/** Rules for single rows, in the order their findings are listed for one row. */
export const rowRules: readonly RowRule[] = [
  doesNotFit,
  wrongCount,
  ambiguous,
  notUnderstood,
  nothingWorked,
  markNotClosed,
  noSuchRow,
  noSuchPlace,
  chainTwice,
  saidTwice,
  otherStitches,
];

/** Rules on what the front matter lists and the rows use. */
export const frontRules: readonly PatternRule[] = [
  mixedTerms,
  untoldTerms,
  undefinedAbbreviation,
  definedTwice,
  unusedAbbreviation,
  unlistedYarn,
  unusedYarn,
  unlistedHook,
  hookMismatch,
  lengthsDisagree,
  unevenSizes,
  unlistedSize,
  unlistedNotion,
];

/** Rules for a pattern as a whole. */
export const patternRules: readonly PatternRule[] = [
  goesOnUntold,
  oneForSeveral,
  againstNotes,
  chainTwoWays,
  chainUnlike,
  rowSkipped,
  rowDoubled,
  wrongNumberOfRows,
  countMissing,
  sidesNotAlternating,
  timesTwoWays,
  ...frontRules,
  wrongNumberOfPieces,
  pieceNotMade,
  pieceNotUsed,
  edgesDiffer,
  noSuchPlacement,
  placedTooLate,
  pieceNotFinished,
  leftOverText,
  oddEyelets,
  tooLittleYarn,
  tooMuchYarn,
  incompleteGauge,
  sizeDiffers,
];

/** Rules for a pattern as a whole that are off until somebody turns them on. */
export const quietRules: readonly PatternRule[] = [doesNotLieFlat];

export const allRules: readonly Rule[] = [...rowRules, ...patternRules, ...quietRules, idleRemark];
