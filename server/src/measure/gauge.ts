import type { PatternContext } from "../fabric/context";
import type { Instruction } from "../fabric/instructions";
import type { FrontMatter } from "../notation/front-matter/front-matter";
import type { GaugeCount, GaugeLength, GaugeLine } from "../notation/front-matter/gauge-lines";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { stitchOf } from "../trade/stitches";
import { convertLength } from "../trade/units";
import type { MainStitch } from "./main-stitch";
import { heightInWidths } from "./proportions";
import type { MeasuredStitch } from "./stitch-size";

/** Why a gauge, or a part of it, was left aside. */
export interface GaugeProblem {
  readonly span: Span;
  readonly sort:
    | "no-length"
    | "no-stitch"
    | "no-stitches"
    | "no-rows"
    | "nothing"
    | "impossible"
    | "repeat-unknown";
  /** What is wrong, as the end of a sentence: `it says no length`. */
  readonly says: string;
}

/** A gauge that can be worked with. */
export interface Gauge extends MeasuredStitch {
  /** `18 hdc and 13 rounds = 10 cm`: the line it is from. */
  readonly line: GaugeLine;
}

export interface GaugeRead {
  /** The first that gives a width, with rows where any line gives them; null where none can be used. */
  readonly gauge: Gauge | null;
  readonly problems: readonly GaugeProblem[];
}

/** No stitch is narrower than a fifth of a millimetre or wider than 20 cm. */
const narrowest = 0.2;
const widest = 200;

/** What the rows tell of a gauge that leaves it open; asked for only where it matters. */
export interface RowsTell {
  readonly main: MainStitch;
  readonly repeat: number | null;
}

/** What a gauge is read with. */
interface Setting {
  readonly front: FrontMatter;
  readonly context: PatternContext;
  readonly rows: RowsTell;
}

/** The gauge of a pattern. */
export function readGauge(setting: Setting): GaugeRead {
  const lines = setting.front.gaugeLines.filter(({ isFree }) => !isFree);
  const problems = lines.flatMap((line) => problemsOf(line, setting));
  const widths = lines.flatMap((line) => line.counts.map((count) => ({ line, count })));
  const found = bestOf(
    widths.filter(({ count }) => widthOf(count, setting) !== null),
    setting,
  );
  const width = found ? widthOf(found.count, setting) : null;
  if (!found || width === null) return { gauge: discGauge(lines, setting), problems };
  const { line, count } = found;
  const height = heightOf(found, lines);
  const stitch = plainOf(count, setting.context);
  const { main } = stitch === null ? setting.rows : { main: null };
  const what = main ? { stitch: main.stitch, usualHeight: main.height } : { stitch };
  const unnamed =
    main && height !== null && !inPattern.test(line.text) ? stitchProblem(line, main, setting) : [];
  return { gauge: { line, width, height, ...what }, problems: [...problems, ...unnamed] };
}

interface Width {
  readonly line: GaugeLine;
  readonly count: GaugeCount;
}

/** Of gauges in several stitches, that of the stitch most of the pattern is worked in; else the first. */
function bestOf(widths: readonly Width[], { context, rows }: Setting): Width | undefined {
  const stitches = new Set(widths.map(({ count }) => plainOf(count, context)));
  if (stitches.size < 2) return widths[0];
  const { stitch } = rows.main;
  return widths.find(({ count }) => plainOf(count, context) === stitch) ?? widths[0];
}

const inPattern = /\bpatt(?:ern)?\b|\bas (?:set|established)\b|\bmain (?:fabric|stitch)\b/i;

function stitchProblem(
  { start, end }: GaugeLine,
  { apart }: MainStitch,
  { context: { terms } }: Setting,
): GaugeProblem[] {
  if (apart.length === 0) return [];
  const names = apart.map((us) => (terms === "UK" ? (stitchOf(us, "US")?.uk ?? us) : us));
  const says = say`it does not say in which stitch, and the pieces are worked in ${names.join(say` and `)}`;
  return [{ span: { start, end }, sort: "no-stitch", says }];
}

/** `Rnds 1 and 2 measure 7 cm across`: four heights of a stitch as wide as usual for them. */
function discGauge(lines: readonly GaugeLine[], { rows }: Setting): Gauge | null {
  for (const line of lines) {
    if (!line.disc) continue;
    const { stitch } = rows.main;
    const height = millimetres(line.disc.across) / (2 * line.disc.rounds);
    const width = height / heightInWidths(stitch);
    if (isPossible(width)) return { line, stitch, width, height };
  }
  return null;
}

function widthOf(count: GaugeCount, setting: Setting): number | null {
  if (count.sort === "row" || count.over === null || count.n <= 0) return null;
  const places =
    count.sort === "repeat" ? placesOfRepeat(setting) : placesOfStitch(count.word, setting.context);
  const width = places === null ? Number.NaN : millimetres(count.over) / (count.n * places);
  return isPossible(width) ? width : null;
}

/** The rows behind the stitches, else any of the line, else of another line. */
function heightOf({ line, count }: Width, all: readonly GaugeLine[]): number | null {
  const behind = line.counts.filter(({ start }) => start > count.start);
  for (const { sort, n, over } of [behind, ...[line, ...all].map(({ counts }) => counts)].flat()) {
    const height = over && n > 0 ? millimetres(over) / n : Number.NaN;
    if (sort === "row" && isPossible(height)) return height;
  }
  return null;
}

function isPossible(length: number): boolean {
  return length >= narrowest && length <= widest;
}

function millimetres({ value, unit }: GaugeLength): number {
  return convertLength(value, unit, "mm");
}

/** The plain stitch that a gauge is in, by its US name; null where none is named. */
function plainOf({ word }: GaugeCount, context: PatternContext): string | null {
  if (word === null) return null;
  const first = bodyOf(word, context).find(({ op }) => op === "work");
  const kind = first?.op === "work" ? first.stitch.kind : word;
  return stitchOf(kind, context.terms)?.base ?? null;
}

/** A V-stitch of two dc and a chain is three places wide. */
function placesOfStitch(word: string | null, context: PatternContext): number {
  if (word === null) return 1;
  const places = bodyOf(word, context).reduce((sum, one) => sum + placesOf(one), 0);
  if (places > 0) return places;
  return stitchOf(word, context.terms)?.family === "v-stitch" ? 3 : 1;
}

function bodyOf(word: string, context: PatternContext): readonly Instruction[] {
  return context.definitions.get(word)?.body ?? [];
}

function placesOf(one: Instruction): number {
  if (one.op === "chain") return one.n[0] ?? 0;
  if (one.op === "group") return one.body.reduce((sum, part) => sum + placesOf(part), 0);
  if (one.op !== "work") return 0;
  const [take] = one.takes;
  return (one.per[0] ?? 1) * (take?.how === "next" ? (take.n[0] ?? 1) : 1);
}

/** `Multiple of 12 sts + 1`; else by the rows. */
function placesOfRepeat({ front, rows }: Setting): number | null {
  for (const { line } of front.lines) {
    const n = /\bmultiples?\s+of\s+(\d{1,3})\b/i.exec(line.text)?.[1];
    if (n !== undefined && Number(n) > 0) return Number(n);
  }
  return rows.repeat;
}

/** `One square measures 12 cm`, `5 meshes and 5 rows = 5 cm`: the motif itself is what makers measure. */
const ofMotif =
  /\b(?:square|motif|flower|hexagon|block|medallion|mesh(?:es)?|ripple|wave|chevron|scallop|peak|point|group|cluster|shell|fan|loop|arch(?:es)?|space|sp|bobble|tile|stripe)s?\b/i;

function problemsOf(line: GaugeLine, setting: Setting): GaugeProblem[] {
  const { start, end, counts, disc } = line;
  const span = { start, end };
  if (disc) return [];
  if (counts.length === 0)
    return /\d/.test(line.text) && !ofMotif.test(line.text)
      ? [{ span, sort: "nothing", says: say`it counts no stitches` }]
      : [];
  const bad = counts.flatMap((count): GaugeProblem[] => problemOf(count, setting));
  if (bad.length > 0) return bad;
  if (counts.every(({ sort }) => sort === "row"))
    return ofMotif.test(line.text) ? [] : [{ span, sort: "no-stitches", says: say`it tells rows only` }];
  return ofMotif.test(line.text) || counts.some(({ sort }) => sort === "row")
    ? []
    : [{ span, sort: "no-rows", says: say`it tells no rows` }];
}

function problemOf(count: GaugeCount, setting: Setting): GaugeProblem[] {
  const span = { start: count.start, end: count.end };
  if (count.over === null)
    return [{ span, sort: "no-length", says: say`it does not say over which length "${count.text}" lie` }];
  if (count.n <= 0 || count.over.value <= 0)
    return [{ span, sort: "impossible", says: say`"${count.text}" cannot be` }];
  const each = millimetres(count.over) / count.n;
  if (!isPossible(each))
    return [
      {
        span,
        sort: "impossible",
        says: say`"${count.text}" over ${count.over.value} ${count.over.unit} cannot be`,
      },
    ];
  if (count.sort === "repeat" && placesOfRepeat(setting) === null)
    return ofMotif.test(count.text)
      ? []
      : [{ span, sort: "repeat-unknown", says: say`nothing says how many stitches a repeat has` }];
  return widthOf(count, setting) === null && count.sort !== "row"
    ? [{ span, sort: "impossible", says: say`"${count.text}" cannot be` }]
    : [];
}
