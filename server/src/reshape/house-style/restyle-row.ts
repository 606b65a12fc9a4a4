import type { RowPlan } from "../../fabric/instructions";
import { type Outcome, stateKey } from "../../fabric/outcome";
import { isRight, type Reworking, reworking } from "../../fabric/rework";
import { readerIn } from "../../fabric/row-reader";
import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { type TextEdit, withEdits } from "../../text/span";
import { styledCount } from "./counts";
import { styledRepeats } from "./repeats";
import { styledRuns } from "./runs";
import { styledSigns } from "./signs";
import type { HouseStyle } from "./styles";

/** One thing a house has its way with. */
type Aspect = (plan: RowPlan, style: HouseStyle) => readonly TextEdit[];

const aspects: readonly Aspect[] = [
  (plan, { number }) => styledRuns(plan, number),
  (plan, { repeats }) => styledRepeats(plan, repeats),
  (plan, { count }) => styledCount(plan, count),
  (plan, { signs }) => styledSigns(plan, signs),
];

/** Places looked at for one row. */
const placesTried = 100_000;
/** Characters; a longer row is left as it is. */
const longestRow = 2_000;

/** What a row instructs, in the house's way. Each change is read and worked again, and left out where anything comes out otherwise. */
export function restyledRow(row: WorkedRow, { context }: WorkedPiece, style: HouseStyle): string {
  const { line, found } = row;
  if (!found || line.kind !== "row" || line.text.length > longestRow) return line.text;
  const rework = reworking(row, context, placesTried);
  const reader = readerIn(context);
  return aspects.reduce((text, aspect) => {
    const plan = reader.read(text, line.sizes);
    const edits = plan ? aspect(plan, style) : [];
    return edits.length === 0 ? text : bornOut(text, edits, rework);
  }, line.text);
}

/** All edits together, else each that holds by itself. */
function bornOut(text: string, edits: readonly TextEdit[], rework: Reworking): string {
  const before = workOf(rework(text).all());
  if (before === "[]") return text;
  const holds = (some: readonly TextEdit[]) => workOf(rework(withEdits(text, some)).all()) === before;
  if (holds(edits)) return withEdits(text, edits);
  const good = edits.filter((edit) => edits.length > 1 && holds([edit]));
  return good.length > 0 && holds(good) ? withEdits(text, good) : text;
}

/** All that working a row comes to: in the ways in which it is right, else in every way it can be read. */
function workOf(outcomes: readonly Outcome[]): string {
  const right = outcomes.filter(isRight);
  const told = right.length > 0 ? right.map(resultOf) : outcomes.map((one) => [resultOf(one), doubtsOf(one)]);
  return JSON.stringify([...new Set(told.map((one) => JSON.stringify(one)))]);
}

function resultOf({ needs, has, makes, inAll, fits, counts, leaves, how }: Outcome): readonly unknown[] {
  return [needs, has, makes, inAll, fits, counts, stateKey(leaves.state), how?.plan.stated];
}

function doubtsOf({ stopsEarly, outOfReach, assumptions, meant, supposed }: Outcome): readonly unknown[] {
  return [stopsEarly, outOfReach, assumptions, meant, supposed];
}
