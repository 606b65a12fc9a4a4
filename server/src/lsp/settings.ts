import { type HouseStyle, houseStyles, readHouseStyle, styleNames } from "../features/house-style";
import type { MeasureOptions } from "../measure/materials";
import { say } from "../text/say";
import type { SeveritySetting } from "../workspace/settings-table";
import { settingsTable } from "../workspace/settings-table";
import { readSeverity, type Severities } from "../workspace/severities";

/** What is shown behind each row. */
export interface HintSettings {
  readonly count: boolean;
  readonly yarn: boolean;
  readonly time: boolean;
}

/** What the client has set, read from data that may be anything. */
export interface Settings {
  /** `loopledger.rules.<id>`. */
  readonly severities: Severities;
  /** `loopledger.measure.…`. */
  readonly measures: MeasureOptions;
  /** `loopledger.hints.…`. */
  readonly hints: HintSettings;
  /** `loopledger.style.rows`; null where rows are to stay as they are written. */
  readonly style: HouseStyle | null;
  /** What was set but cannot be used, for the log. */
  readonly problems: readonly string[];
}

/** Reads the `loopledger` section of a client's settings; what is not usable there counts as not set. */
export function readSettings(section: unknown): Settings {
  const problems: string[] = [];
  const severities = new Map<string, SeveritySetting>();
  for (const [rule, value] of Object.entries(partOf(section, "rules"))) {
    const read = readSeverity(rule, value);
    if ("severity" in read) severities.set(rule, read.severity);
    else problems.push(say`Settings, loopledger.rules: ${read.problem}`);
  }
  const plain = new PlainSettings(section, problems);
  return {
    severities,
    measures: {
      marginPercent: plain.number("measure.margin", 0, 1_000),
      stitchesPerMinute: plain.number("measure.stitchesPerMinute", 1, 1_000),
    },
    hints: {
      count: plain.flag("hints.count"),
      yarn: plain.flag("hints.yarn"),
      time: plain.flag("hints.time"),
    },
    style: styleOf(plain.choice("style.rows"), Object.entries(partOf(section, "style")), problems),
    problems,
  };
}

/** One of the built-in styles, or one's own, which a client reads from a file or takes from its settings. */
function styleOf(
  chosen: string,
  set: readonly (readonly [string, unknown])[],
  problems: string[],
): HouseStyle | null {
  const name = styleNames.find((one) => one === chosen);
  if (name) return houseStyles[name];
  if (chosen !== "own") return null;
  const own = set.find(([key]) => key === "own")?.[1];
  const read = readHouseStyle(own);
  problems.push(...read.problems.map((problem) => say`The style of your own: ${problem}.`));
  return typeof own === "object" && own !== null ? read.style : null;
}

/** Numbers and switches, with the defaults of the one table of settings. */
class PlainSettings {
  constructor(
    private readonly section: unknown,
    private readonly problems: string[],
  ) {}

  number(name: string, least: number, most: number): number {
    const value = this.valueOf(name);
    if (typeof value === "number" && value >= least && value <= most) return value;
    this.refuse(name, value, say`a number from ${least} to ${most}`);
    return Number(defaultOf(name));
  }

  flag(name: string): boolean {
    const value = this.valueOf(name);
    if (typeof value === "boolean") return value;
    this.refuse(name, value, say`true or false`);
    return defaultOf(name) === true;
  }

  choice(name: string): string {
    const value = this.valueOf(name);
    const values = settingsTable.find((setting) => setting.name === name)?.values ?? [];
    if (typeof value === "string" && values.includes(value)) return value;
    this.refuse(name, value, values.join(", "));
    return String(defaultOf(name));
  }

  private valueOf(name: string): unknown {
    const [group = "", key = ""] = name.split(".");
    return Object.entries(partOf(this.section, group)).find(([one]) => one === key)?.[1];
  }

  private refuse(name: string, value: unknown, wanted: string): void {
    if (value !== undefined && value !== null)
      this.problems.push(say`Settings, loopledger.${name} is ${JSON.stringify(value)}; use ${wanted}.`);
  }
}

function defaultOf(name: string): unknown {
  return settingsTable.find((setting) => setting.name === name)?.default;
}

function partOf(section: unknown, name: string): object {
  if (typeof section !== "object" || section === null) return {};
  const part: unknown = Object.entries(section).find(([key]) => key === name)?.[1];
  return typeof part === "object" && part !== null ? part : {};
}
