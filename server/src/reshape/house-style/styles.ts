import { say } from "../../text/say";

/** How a house writes its rows. Common practice of the trade, no source. */
export interface HouseStyle {
  /** The word before the number of a round, and of a row. */
  readonly round: "Rnd" | "Round" | "R";
  readonly row: "Row" | "R";
  readonly repeats: RepeatForm;
  /** `2 sc` or `sc 2`. */
  readonly number: "before" | "behind";
  /** `(24)` or `[24]`. */
  readonly count: "round" | "square";
  /** `plain`: those that every keyboard and program has; `print`: × and –. */
  readonly signs: "any" | "plain" | "print";
}

/** `(sc, inc) x6`, `(sc, inc) 6 times`, `*sc, inc; rep from * 5 more times`, `sc, inc, sc, inc`. */
export type RepeatForm = "x" | "times" | "asterisk" | "spelled-out";

export type StyleName = "compact" | "written-out" | "plain-text";

export const houseStyles: Readonly<Record<StyleName, HouseStyle>> = {
  compact: { round: "Rnd", row: "Row", repeats: "x", number: "before", count: "round", signs: "any" },
  "written-out": {
    round: "Round",
    row: "Row",
    repeats: "asterisk",
    number: "before",
    count: "round",
    signs: "any",
  },
  "plain-text": {
    round: "Rnd",
    row: "Row",
    repeats: "times",
    number: "behind",
    count: "square",
    signs: "plain",
  },
};

/** What each part of a style may be. */
const choices: { readonly [Part in keyof HouseStyle]: readonly HouseStyle[Part][] } = {
  round: ["Rnd", "Round", "R"],
  row: ["Row", "R"],
  repeats: ["x", "times", "asterisk", "spelled-out"],
  number: ["before", "behind"],
  count: ["round", "square"],
  signs: ["any", "plain", "print"],
};

/** A style of one's own, read from data that may be anything: what it leaves out is as in `compact`. */
export function readHouseStyle(data: unknown): { style: HouseStyle; problems: readonly string[] } {
  if (typeof data !== "object" || data === null || Array.isArray(data))
    return { style: houseStyles.compact, problems: [say`it is no list of choices in { }`] };
  const read = Object.entries(data).map(([part, value]) => ({
    part,
    value,
    problem: problemOf(part, value),
  }));
  const used = read.filter(({ problem }) => problem === null).map(({ part, value }) => [part, value]);
  return {
    style: { ...houseStyles.compact, ...Object.fromEntries(used) },
    problems: read.flatMap(({ problem }) => problem ?? []),
  };
}

function problemOf(part: string, value: unknown): string | null {
  const values = Object.entries(choices).find(([name]) => name === part)?.[1];
  if (!values) return say`"${part}" is no part of a style; there are ${Object.keys(choices).join(", ")}`;
  const isChoice = values.some((one) => one === value);
  return isChoice ? null : say`"${part}" is ${JSON.stringify(value)}; use ${values.join(", ")}`;
}
