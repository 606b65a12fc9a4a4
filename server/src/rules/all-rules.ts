import { ambiguous } from "./ambiguous";
import { doesNotFit } from "./does-not-fit";
import { notUnderstood } from "./not-understood";
import type { RowRule } from "./rule";
import { wrongCount } from "./wrong-count";

/** Every rule, in the order their findings are listed for one row. */
export const allRules: readonly RowRule[] = [doesNotFit, wrongCount, ambiguous, notUnderstood];
