import type { Made, Node, Target } from "./instructions";
import { Reader, type Vocabulary } from "./reader";
import { Unreadable } from "./spelling";
import type { Stated } from "./stated";
import { type Tally, tally } from "./tally";
import { type Choose, flat, type Setting, Worker } from "./worker";

export type Verdict = "ok" | "does-not-fit" | "wrong-count" | "ambiguous" | "unreadable";

/** A row as worked under one set of readings. */
export interface Outcome {
  readonly needs: number | null;
  readonly has: number | null;
  readonly made: readonly Made[];
  readonly tally: Tally;
  readonly verdict: Verdict;
  /** Whether a row without repeat marks was worked again to the end, under an unusual reading besides. */
  readonly farFetched: boolean;
  /** Whether the reading differs from the usual one where the trade has none that is settled. */
  readonly doubtful: boolean;
}

export interface RowTask {
  readonly text: string;
  readonly words: Vocabulary;
  /** In working order, the turn done; null where the piece has none yet. */
  readonly places: readonly Made[] | null;
  readonly stated: Stated | null;
  readonly inRounds: boolean;
  readonly setting: Omit<Setting, "choose" | "mayRepeatWhole" | "inRounds">;
}

const most = 256;
const rank: readonly Verdict[] = ["ok", "ambiguous", "wrong-count", "does-not-fit", "unreadable"];

/** All readings of a row, the usual one first; throws Unreadable where a word is beyond the reader. */
export function outcomesOf(task: RowTask): readonly Outcome[] {
  const nodes = new Reader(task.text, task.words).read();
  const outcomes: Outcome[] = [];
  for (let answers: readonly number[] | null = []; answers && outcomes.length < most; ) {
    const run: Picked[] = [];
    outcomes.push(outcomeOf(task, nodes, run, answers));
    answers = following(run);
  }
  return outcomes;
}

/** The best of the readings: one that fits and counts, else the usual one among those least wrong. */
export function bestOf(outcomes: readonly Outcome[]): Outcome {
  const sensible = outcomes.filter(({ farFetched, verdict }) => !farFetched || verdict === "ok");
  const best = rank.flatMap((verdict) => sensible.filter((outcome) => outcome.verdict === verdict))[0];
  if (!best) throw new Error("a row has at least one reading");
  const rivals = outcomes.filter((other) => other.doubtful && other.verdict === "ok");
  const differs = rivals.some((other) => other.tally.makes !== best.tally.makes);
  return best.verdict === "ok" && differs && !best.doubtful ? { ...best, verdict: "ambiguous" } : best;
}

interface Picked {
  readonly key: string;
  readonly options: number;
  readonly answer: number;
}

/** Counts the answers up like the digits of a number; null when all have been tried. */
function following(run: readonly Picked[]): readonly number[] | null {
  const index = run.findLastIndex(({ answer, options }) => answer + 1 < options);
  if (index < 0) return null;
  return run.slice(0, index + 1).map(({ answer }, at) => (at === index ? answer + 1 : answer));
}

function outcomeOf(
  task: RowTask,
  nodes: readonly Node[],
  run: Picked[],
  answers: readonly number[],
): Outcome {
  const choose: Choose = (key, options) => {
    const known = run.find((pick) => pick.key === key);
    if (known) return known.answer;
    const answer = answers[run.length] ?? 0;
    run.push({ key, options, answer });
    return answer;
  };
  const places = placesFor(task, nodes, choose);
  const mayRepeatWhole = task.inRounds && task.stated !== null;
  const { inRounds } = task;
  const worker = new Worker(places, nodes, { ...task.setting, choose, mayRepeatWhole, inRounds });
  worker.work();
  const noPlaces = worker.places.length === 0;
  const doubtful = run.some(({ key, answer }) => key.startsWith("doubt") && answer > 0);
  const unusual = run.filter(({ answer }) => answer > 0);
  const farFetched = unusual.length > 1 && unusual.some(({ key }) => key === "whole row");
  return judged(task, nodes, worker, {
    needs: noPlaces ? null : worker.needs,
    has: noPlaces ? null : worker.places.length,
    farFetched,
    doubtful,
  });
}

function judged(
  task: RowTask,
  nodes: readonly Node[],
  { made }: Worker,
  { needs, has, ...readings }: Pick<Outcome, "needs" | "has" | "farFetched" | "doubtful">,
): Outcome {
  const count = tally(made, task.stated);
  const fits = needs === has;
  const left = (has ?? 0) - (needs ?? 0);
  const short = left > 2 && !task.inRounds && count.agrees && !goesToTheEnd(nodes);
  const doubt = short || (fits && count.chainsOrSpaces);
  const verdict = doubt ? "ambiguous" : !fits ? "does-not-fit" : count.agrees ? "ok" : "wrong-count";
  return { needs, has, made, tally: count, verdict, ...readings };
}

function goesToTheEnd(nodes: readonly Node[]): boolean {
  return flat(nodes).some(
    (node) =>
      node.do === "whole-row-again" ||
      (node.do === "repeat" && node.times.how === "to-the-end") ||
      ("target" in node && node.target.at === "each"),
  );
}

// --- the places a row works on ---------------------------------------------------------------------------------

/** The row begins with a chain of its own, and goes on along other places. */
const chainAtEdge = /^ch \d+, .*from hook.* in (?:each|next \d*) ?(?:sc|hdc|dc|st)\b/;

/** `3rd dc of next shell`: in a row that works into one of its stitches, a group is one place. */
const inGroups =
  /(?:center|\d(?:st|nd|rd|th)) (?:sc|dc|tr) of (?:next|last|each|any) (?:shell|group|petal|fan)/;

/** Groups, with the opening chain that belongs to one, as one place each. */
function groupwise(places: readonly Made[]): readonly Made[] {
  const isOn = (place: Made, at: number): boolean =>
    place.unit !== "" && place.unit !== "turning" && !place.lead && places[at - 1]?.unit === place.unit;
  const isOpening = ({ unit }: Made, at: number): boolean =>
    unit === "turning" && [places[at + 1], places[at - 1]].some((near) => near?.unit === "group");
  return places.filter((place, at) => !isOn(place, at) && !isOpening(place, at));
}

function placesFor(
  { text, places, setting }: RowTask,
  nodes: readonly Node[],
  choose: Choose,
): readonly Made[] {
  const targets = outer(nodes).flatMap((node) => ("target" in node ? [node.target] : []));
  const none =
    targets.some(({ at }) => at === "ring") || flat(nodes).some(({ do: what }) => what === "foundation");
  if (places !== null && chainAtEdge.test(text)) throw new Unreadable("a chain at the edge of a row");
  if (none) return [];
  if (places === null) throw new Unreadable("no row below");
  if (inGroups.test(text)) return groupwise(places).filter(({ sort }) => sort === "st");
  if (/sp between/.test(text)) return places.filter(({ sort }) => sort === "st");
  if (/of each v-st/.test(text)) return places.filter(({ sort, unit }) => sort === "sp" || unit !== "v-st");
  const inSpaces = targets.some((target) => "sort" in target && target.sort === "sp");
  const inStitches =
    targets.some((target) => "sort" in target && target.sort === "any") || /st and sp#/.test(text);
  if (inSpaces && !inStitches) return places.filter(({ sort }) => sort === "sp");
  if (inSpaces && !/st and sp#/.test(text) && targets.every(isSpaceOrEdge))
    return spacesAndEdges(places, targets, standsOnFirst(nodes, setting.ruleOf));
  if (inSpaces || !places.some(({ sort }) => sort === "sp")) return places;
  if (/\b(?:each|next) (?:\d+ )?ch\b|and ch\b/.test(text)) return chainByChain(places);
  return /sp#/.test(text) || choose("chains one by one", 2) === 0 ? places : chainByChain(places);
}

/** Between the first and the last stitch, only spaces are worked: the stitches there are no places of the row. */
function isSpaceOrEdge(target: Target): boolean {
  return !("sort" in target) || target.sort === "sp" || (target.at === "next" && target.end !== "between");
}

/** An opening chain that counts has the first place; a tall one does unless it is said not to count. */
function standsOnFirst(nodes: readonly Node[], ruleOf: Setting["ruleOf"]): boolean {
  return nodes.some(
    (node) => node.do === "chain" && node.beginning && (ruleOf(node.count)?.counts ?? node.count > 2),
  );
}

function spacesAndEdges(
  places: readonly Made[],
  targets: readonly Target[],
  stands: boolean,
): readonly Made[] {
  const ends = targets.flatMap((target) =>
    target.at === "next" && target.sort === "any" ? [target.end] : [],
  );
  const isEdge = (index: number): boolean =>
    (index === 0 && (stands || ends.includes("first"))) ||
    (index === places.length - 1 && ends.includes("last"));
  return places.filter(({ sort }, index) => sort === "sp" || isEdge(index));
}

/** The instructions that look for a place of their own: what is worked inside one place does not. */
function outer(nodes: readonly Node[]): readonly Node[] {
  return nodes.flatMap((node) => (node.do === "repeat" ? outer(node.body) : [node]));
}

function chainByChain(places: readonly Made[]): readonly Made[] {
  return places.flatMap((place) =>
    place.sort === "sp" ? Array.from({ length: place.chains }, () => place) : [place],
  );
}
