import { keptBy } from "../../text/kept-by";
import type { LineContent } from "../document";
import type { PatternLine } from "../lines";
import { type AbbreviationList, readAbbreviations } from "./abbreviations";
import type { Definition } from "./definitions";
import { readGauge } from "./gauge";
import { type GaugeLine, readGaugeLine } from "./gauge-lines";
import { type HookSize, readHooks } from "./hooks";
import { type MeasuredYarn, readMeasuredYarn, readSwatches, type WeighedSwatch } from "./measured-yarn";
import { type Measurement, readMeasurements } from "./measurements";
import { readNotions } from "./notions";
import { type FrontLine, readFrontLines } from "./sections";
import { readSizeNames } from "./sizes";
import { readSpecialStitches } from "./special-stitches";
import type { Stretch } from "./stretch";
import { readTermsLine, type TermsLine } from "./terms";
import { readYarns, type Yarn } from "./yarns";

/**
 * What a pattern says before and beside its rows, as data; every part has its place in the text.
 * Tolerant: what is not understood is left out. Each kind is read when it is first asked for.
 */
export class FrontMatter {
  private readonly read = new Map<string, unknown>();

  constructor(readonly lines: readonly FrontLine[]) {}

  /** Where the lines of lists start: all but notes and what has no title. */
  get listLines(): ReadonlySet<number> {
    return this.once("listLines", () => {
      const lists = this.lines.filter(({ topic }) => topic !== "other" && topic !== "notes");
      return new Set(lists.map(({ at }) => at));
    });
  }

  get abbreviations(): readonly AbbreviationList[] {
    return this.once("abbreviations", () => readAbbreviations(this.lines));
  }

  get specialStitches(): readonly Definition[] {
    return this.once("specialStitches", () => readSpecialStitches(this.lines));
  }

  get yarns(): readonly Yarn[] {
    return this.once("yarns", () => readYarns(this.lines));
  }

  get hooks(): readonly HookSize[] {
    return this.once("hooks", () => readHooks(this.lines));
  }

  get notions(): readonly Stretch[] {
    return this.once("notions", () => readNotions(this.lines));
  }

  /** Line by line, as it is written. */
  get gauge(): readonly Stretch[] {
    return this.once("gauge", () => readGauge(this.lines));
  }

  /** The same lines, understood. */
  get gaugeLines(): readonly GaugeLine[] {
    return this.once("gaugeLines", () => this.gauge.map(readGaugeLine));
  }

  /** Stitches whose yarn the designer measured. */
  get measuredYarn(): readonly MeasuredYarn[] {
    return this.once("measuredYarn", () => readMeasuredYarn(this.lines));
  }

  get swatches(): readonly WeighedSwatch[] {
    return this.once("swatches", () => readSwatches(this.lines));
  }

  get sizes(): readonly Stretch[] {
    return this.once("sizes", () => readSizeNames(this.lines));
  }

  get measurements(): readonly Measurement[] {
    return this.once("measurements", () => readMeasurements(this.lines));
  }

  /** Null where nothing is said of the terms. */
  get terms(): TermsLine | null {
    return this.once("terms", () => readTermsLine(this.lines.map(({ line }) => line)));
  }

  private once<T>(kind: string, read: () => T): T {
    if (!this.read.has(kind)) this.read.set(kind, read());
    return this.read.get(kind) as T;
  }
}

/** By the first line: an edit in the rows leaves the front matter as it was. */
const known = new WeakMap<LineContent, FrontMatter>();

/** The front matter of a pattern's lines; the same for all who ask, and for all versions that have the same. */
export const frontMatterOf = keptBy((lines: readonly PatternLine[]): FrontMatter => {
  const read = readFrontLines(lines);
  const [first] = read;
  if (!first) return new FrontMatter([]);
  const before = known.get(first.of);
  if (before && areSame(before.lines, read)) return before;
  const front = new FrontMatter(read);
  known.set(first.of, front);
  return front;
});

function areSame(a: readonly FrontLine[], b: readonly FrontLine[]): boolean {
  return a.length === b.length && a.every((line, i) => isSame(line, b[i] as FrontLine));
}

function isSame(a: FrontLine, b: FrontLine): boolean {
  return a.of === b.of && a.at === b.at && a.topic === b.topic && a.section === b.section;
}
