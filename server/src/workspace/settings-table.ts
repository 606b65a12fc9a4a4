import { allRules } from "../rules/all-rules";
import { sectionOf } from "../rules/documentation";
import type { Rule, Severity } from "../rules/rule";

export type SeveritySetting = Severity | "off";

export const severitySettings: readonly SeveritySetting[] = [
  "error",
  "warning",
  "information",
  "hint",
  "off",
];

/** One setting of the `loopledger` section: the manifest and the page for designers are made from these. */
export interface Setting {
  /** Without `loopledger.` before it. */
  readonly name: string;
  readonly default: string | number | boolean;
  /** What it may be; null where any value of the default's type will do. */
  readonly values: readonly string[] | null;
  /** Whether a folder or file may have its own, or only the whole window. */
  readonly scope: "resource" | "window";
  /** What it does, in a maker's words; Markdown. */
  readonly text: string;
}

function severityOf({ id, severity, documentation, startsOff }: Rule): Setting {
  const text = sectionOf(documentation, "What it finds");
  return {
    name: `rules.${id}`,
    default: startsOff ? "off" : severity,
    values: severitySettings,
    scope: "resource",
    text,
  };
}

/** How loudly each rule speaks, in the order of the rules. */
export const ruleSettings: readonly Setting[] = allRules.map(severityOf);

const otherSettings: readonly Setting[] = [
  {
    name: "measure.margin",
    default: 15,
    values: null,
    scope: "resource",
    text: "Yarn to spare, in percent of what a pattern takes. 10 to 20 is usual.",
  },
  {
    name: "measure.stitchesPerMinute",
    default: 20,
    values: null,
    scope: "resource",
    text: "How many stitches are worked in a minute, for the times that are told. Ordinary hands work about 20, beginners 10.",
  },
  {
    name: "hints.count",
    default: true,
    values: null,
    scope: "resource",
    text: "Show behind each row how many stitches it makes, where its line does not say so.",
  },
  {
    name: "hints.yarn",
    default: false,
    values: null,
    scope: "resource",
    text: "Show behind each row how much yarn it takes.",
  },
  {
    name: "hints.time",
    default: false,
    values: null,
    scope: "resource",
    text: "Show behind each row how long it takes to work.",
  },
  {
    name: "style.rows",
    default: "as-written",
    values: ["as-written", "compact", "written-out", "plain-text", "own"],
    scope: "resource",
    text: "What _Format Document_ makes of rows: `compact` is `Rnd 4: (2 sc, inc) x6 (24)`, `written-out` is `Round 4: *2 sc, inc; rep from * 5 more times (24)`, `plain-text` is `Rnd 4: (sc 2, inc) 6 times [24]` with the signs of every keyboard, `own` is what the file of `loopledger.style.file` says. `as-written` changes nothing.",
  },
  {
    name: "style.file",
    default: "house-style.json",
    values: null,
    scope: "resource",
    text: 'The file with a style of your own, below the folder of the pattern, such as `{ "round": "Round", "repeats": "times", "count": "square" }`.',
  },
  {
    name: "trace.server",
    default: "off",
    values: ["off", "messages", "verbose"],
    scope: "window",
    text: "What the log in the Output panel shows of the talk between the editor and the checker. For reporting a fault.",
  },
];

/** Every setting, in the order in which the editor lists them. */
export const settingsTable: readonly Setting[] = [...ruleSettings, ...otherSettings];
