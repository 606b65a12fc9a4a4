import { estimateOf, inWords } from "../measure/figures";
import type { MeasureOptions } from "../measure/materials";
import { rowYarn } from "../measure/row-yarn";
import { minutesOf, shortDuration, shortestTime } from "../measure/time";
import { yarnUseOf } from "../measure/yarn-used";
import type { WorkedPattern } from "../rules/rule";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { type PlacedRow, rowsWithin } from "./placed-row";
import { sized } from "./shown/sized";

/** What to show behind rows. */
export interface HintChoice {
  readonly count: boolean;
  readonly yarn: boolean;
  readonly time: boolean;
}

/** A few words behind a row. */
export interface InlayHint {
  readonly offset: number;
  readonly label: string;
  readonly tooltip: string;
}

/** Behind each row of a stretch: the count it does not state, its yarn, its time. */
export function inlayHints(
  pattern: WorkedPattern,
  within: Span,
  choice: HintChoice,
  options: MeasureOptions,
): InlayHint[] {
  if (!choice.count && !choice.yarn && !choice.time) return [];
  return rowsWithin(pattern, within).flatMap((placed) => {
    const parts = [
      ...(choice.count ? countOf(placed) : []),
      ...(choice.yarn ? yarnOf(placed, pattern) : []),
      ...(choice.time ? timeOf(placed, pattern, options) : []),
    ];
    if (parts.length === 0) return [];
    const offset = placed.row.line.span.end;
    const label = parts.map(({ label }) => label).join(", ");
    return [{ offset, label, tooltip: parts.map(({ tells }) => tells).join("\n") }];
  });
}

interface Part {
  readonly label: string;
  readonly tells: string;
}

function countOf({ row: { outcome, result, line } }: PlacedRow): Part[] {
  if (!outcome || result === "unchecked" || line.plan?.stated != null) return [];
  const { makes } = outcome;
  if (makes.every((n) => n === null)) return [];
  const label = makes.every((n) => n === null || n === 1)
    ? say`${sized(makes)} st`
    : say`${sized(makes)} sts`;
  return [{ label, tells: say`What the row makes; its line states no count.` }];
}

function yarnOf({ row, piece }: PlacedRow, pattern: WorkedPattern): Part[] {
  const use = yarnUseOf(pattern);
  const { basis } = use.ground;
  const yarn = rowYarn(row, piece, use);
  if (basis === null || yarn.every((n) => n === null)) return [];
  const cells = yarn.map((n) => (n === null ? "-" : inWords(estimateOf(n / 1000, basis))));
  return [{ label: `${bySize(cells)} m`, tells: say`Yarn${inFull(cells, "m")} by ${basis.says}.` }];
}

function timeOf(
  { row, piece }: PlacedRow,
  pattern: WorkedPattern,
  { stitchesPerMinute }: MeasureOptions,
): Part[] {
  const minutes = minutesOf(row, stitchesPerMinute, yarnUseOf(pattern).timesOf(row, piece));
  if (minutes.every((n) => n === null || n < shortestTime)) return [];
  const cells = minutes.map((n) => (n ? shortDuration(n) : "-"));
  return [
    { label: bySize(cells), tells: say`Time${inFull(cells, "")} at ${stitchesPerMinute} stitches a minute.` },
  ];
}

/** `4–6 (5–7)`: one text a size as patterns write them, equal ones once; of many the first and the last, since room is scarce. */
function bySize(cells: readonly string[]): string {
  const [first = "-", ...rest] = cells;
  if (rest.every((text) => text === first)) return first;
  return rest.length < 3 ? `${first} (${rest.join(", ")})` : `${first} … ${rest.at(-1)}`;
}

/** Every size, where the hint itself does not tell them all. */
function inFull([first = "-", ...rest]: readonly string[], unit: string): string {
  const isCut = rest.length >= 3 && rest.some((text) => text !== first);
  return isCut ? ` ${first} (${rest.join(", ")}) ${unit}`.trimEnd() : "";
}
