import { longPattern } from "../bench/long-pattern";
import type { Random } from "../bench/random";
import { samples, specCases } from "../corpus";
import { generated } from "../property/generated-patterns";

type List = readonly [string, ...string[]];

const cases = specCases().map(({ text }) => text) as unknown as List;
const patterns = samples().map(({ text }) => text);
const lines = [...cases, ...patterns].flatMap((text) => text.split("\n")) as unknown as List;
const words = [...new Set(lines.flatMap((line) => line.split(/\s+/)))].filter(Boolean) as unknown as List;
const oddities = ["\r\n", "\t", "\u00a0", "\u200b", "\ud800", "\u0000", "½", "999999999999"] as const;
/** Of one text; then comes another one. */
const editsOfText = 120;
/** A text that grows beyond this is begun anew: a comparison checks all of it. */
const lengthAtMost = 3000;

/** Most are short, so that much of what can be said comes by in little time; some have many parts, which are kept apart. */
export function startOf(random: Random): string {
  const kind = random.fraction();
  if (kind < 0.7) return shorter(random.oneOf(cases), random.oneOf(cases));
  if (kind < 0.96) return generated(random.between(1, 1_000_000));
  return kind < 0.98
    ? random.oneOf(patterns as unknown as List)
    : longPattern(30, random.between(1, 1_000_000));
}

function shorter(one: string, other: string): string {
  return other.length < one.length ? other : one;
}

/** What a text goes through from its start on, one edit at a time. */
export function* versions(start: string, random: Random): Generator<string> {
  let text = start;
  const before: string[] = [];
  for (let edit = 0; edit < editsOfText; ) {
    const from = random.between(0, text.length);
    for (const next of changes(text, from, before, random)) {
      before.push(text);
      text = next.length > lengthAtMost && next.length > start.length ? start : next;
      edit++;
      yield text;
    }
  }
}

/** One thing that somebody does: the versions of the text that it goes through. */
function* changes(text: string, at: number, before: string[], random: Random): Generator<string> {
  const put = (what: string, end = at) => text.slice(0, at) + what + text.slice(end);
  const kind = random.fraction();
  if (kind < 0.35) {
    const word = random.oneOf(words);
    for (let i = 1; i <= word.length; i++) yield put(word.slice(0, i));
  } else if (kind < 0.5) yield put(random.oneOf([..."0123456789()[]*,;. \n"] as unknown as List));
  else if (kind < 0.7) yield put("", at + random.between(1, 3));
  else if (kind < 0.78) yield put("", at + random.between(4, 80));
  else if (kind < 0.86) yield put(`${random.oneOf(lines)}\n`);
  else if (kind < 0.95) {
    for (let steps = random.between(1, 4); steps > 0 && before.length > 0; steps--)
      yield before.pop() as string;
  } else yield put(random.oneOf(oddities));
}
