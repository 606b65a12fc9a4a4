import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { addressOf, type Changes, type Followed, type Following, follow } from "../../reshape/follow";
import type { Refusal } from "../../reshape/row-trial";
import { say, sayings } from "../../text/say";
import { roundsOrRows, rowTitle } from "../row-names";
import type { NotedEdit, Scene } from "./action";

/** Some edits with what the rows below become after them. */
export interface WithFollowing {
  /** Each row to be looked at and left out by itself. */
  readonly edits: readonly NotedEdit[];
  /** A row that was not checked before either: it and those below it are left as they are. */
  readonly lookAt: WorkedRow | null;
}

/**
 * Some edits with what the rows from one on become after them; or why not: a row cannot follow, or something new
 * would be found.
 */
export function withFollowing(scene: Scene, from: WorkedRow | null, first: Changes): WithFollowing | Refusal {
  const address = from && addressOf(scene.worked.pieces, from);
  return provedWith(scene, first.edits, address ? follow(scene.worked, address, first) : null);
}

/** The same, where it is known already what they become. */
export function provedWith(
  { prover }: Scene,
  first: Changes["edits"],
  following: Following | null,
): WithFollowing | Refusal {
  const stopped = following?.stopped ?? null;
  if (stopped && isChecked(stopped.row))
    return { why: say`${rowTitle(stopped.row)} cannot follow: ${stopped.why}` };
  const edits = [...first, ...(following?.changed.flatMap(notedEdits) ?? [])];
  const after = prover.aftermath(edits, []);
  if (!after) return { why: say`nothing has to be changed` };
  const [fresh] = after.fresh;
  if (fresh) return { why: say`something else would be wrong then: ${fresh.message}` };
  return { edits, lookAt: stopped?.row ?? null };
}

function isChecked({ result }: WorkedRow): boolean {
  return result !== "unchecked" && result !== "ambiguous";
}

function notedEdits({ row, how, edits }: Followed): NotedEdit[] {
  const note = { label: `${rowTitle(row)}: ${deeds(how)}` };
  return edits.map((edit) => ({ ...edit, note }));
}

const deeds = sayings<Followed["how"]>({
  count: "another count",
  numbers: "another number",
  spaced: "spaced anew",
});

/** `the rounds that follow`, as the rows of a piece are called. */
export function thoseBehind({ line }: WorkedRow, piece: WorkedPiece): string {
  return roundsOrRows(line, piece) === "rounds" ? say`the rounds that follow` : say`the rows that follow`;
}
