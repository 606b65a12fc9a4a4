import type { Outcome } from "../../fabric/outcome";
import { type Reworking, reworking } from "../../fabric/rework";
import { belowName, placesNoun } from "../../rules/wording";
import type { PlacedRow } from "../placed-row";
import type { Block } from "../shown/blocks";
import type { RepeatText } from "./repeat-text";
import { type Going, toldGoings } from "./told";

/** Nothing behind a repeat tells how often it is worked: nothing stands there, or the count of the row. */
const nothingBehind = /^\s*(?:[([]?\s*\d*\s*(?:sts?)?\s*[)\]]?)?\s*\.?\s*$/i;

/**
 * How often a repeat that is being written fits on what is left of the row below: it is worked once, twice and as
 * often as that comes to. Null where it does not go on evenly, and where its words say more than is known.
 */
export function timesThatFit({ row, piece }: PlacedRow, { lead, body, behind }: RepeatText): Block[] | null {
  if (!nothingBehind.test(behind)) return null;
  const rework = reworking(row, piece.context);
  const read = readings(body).map((words) => goingsOf((times) => `${lead}(${words}) x${times}`, rework));
  const goings = read.find((one) => one !== null);
  return goings
    ? toldGoings(goings, { below: belowName(row, piece), noun: placesNoun(row), isTried: true })
    : null;
}

/** All of its words; without the last part, which may be half a word. */
function readings(body: string): string[] {
  const written = body.trim();
  if (/[,;]$/.test(written)) return [written.slice(0, -1)];
  const finished = /^(.*)[,;]/s.exec(written)?.[1];
  return finished === undefined ? [written] : [written, finished];
}

function goingsOf(textOf: (times: number) => string, rework: Reworking): (Going | null)[] | null {
  const work: Work = (times) => rework(textOf(times)).all()[0] ?? null;
  const [once, twice] = [work(1), work(2)];
  if (!once || !twice) return null;
  const goings = once.has.map((_, size) => goingOf(once, twice, work, size));
  return goings.some((going) => going && going.times > 0) ? goings : null;
}

type Work = (times: number) => Outcome | null;

function goingOf(once: Outcome, twice: Outcome, work: Work, size: number): Going | null {
  const [needs1, needs2, has] = [once.needs[size], twice.needs[size], once.has[size]];
  const [makes1, makes2] = [once.makes[size], twice.makes[size]];
  if (needs1 == null || needs2 == null || has == null || makes1 == null || makes2 == null) return null;
  const each = { uses: needs2 - needs1, makes: makes2 - makes1 };
  if (each.uses < 1) return null;
  const before = needs1 - each.uses;
  const times = Math.max(Math.floor((has - before) / each.uses), 0);
  const used = before + times * each.uses;
  const isSo = times === 0 || work(times)?.needs[size] === used;
  return isSo ? { times, each, used, has } : null;
}
