import type { ResizeGoal } from "../../reshape/resize/resize";
import type { Refusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import { convertLength } from "../../trade/units";
import { noGauge } from "../gauge-line";
import type { PieceMeasures, Side } from "./piece-measures";

/** A size that somebody wants for a piece, however it was told. */
export interface WantedSize {
  readonly goal: ResizeGoal;
  /** ` (40 cm around)`: how long so many stitches are, in the unit that was typed; nothing where it was a count. */
  sized(widest: number): string;
}

/** No pattern has a row of more stitches. */
const stitchesAtMost = 100_000;

/** A piece that is so many times as large is a slip of the finger. */
const timesAtMost = 100;

const factor = /^(?:[x×*]\s*(\d+(?:[.,]\d+)?)|(\d+(?:[.,]\d+)?)\s*(?:[x×]|%))$/i;
const start = /^(?:start|begin)(?:\s+with)?\s+([-−]?\d+(?:[.,]\d+)?)(?:\s*sts?)?$/i;
const count = /^([-−]?\d+(?:[.,]\d+)?)(?:\s*(?:sts?|stitches))?$/i;
const length =
  /^(?:(fit)\s+)?(\d+(?:[.,]\d+)?)\s*(cm|mm|in|inch|inches|")(?:\s+(wide|width|around|circumference|across|diameter|high|height|tall|long|deep))?$/i;

const sides: readonly (readonly [RegExp, Side])[] = [
  [/^wid/i, "wide"],
  [/^(?:around|circ)/i, "around"],
  [/^(?:across|diam)/i, "across"],
  [/^(?:high|height|tall|long|deep)/i, "high"],
];

/**
 * `60` for the widest row, `start 8` for the first one, `x1.5` or `150 %`, and at the gauge of the pattern `50 cm`,
 * `20 in around`, `18 cm high`, `fit 54 cm`.
 */
export function wantedSize(typed: string, measures: PieceMeasures): WantedSize | Refusal {
  const text = typed.trim();
  if (text === "") return { why: say`Type a size, such as 60, x1.5 or 40 cm.` };
  if (/^\d+\s*[(/,]\s*\d/.test(text)) return { why: say`Type one size: the piece is rewritten for one.` };
  const [, times, share] = factor.exec(text) ?? [];
  if (times ?? share)
    return scaledBy(numberOf(times ?? share ?? "") / (share && /%/.test(text) ? 100 : 1), measures);
  const [, first] = start.exec(text) ?? [];
  if (first) return counted("start", numberOf(first), measures);
  const [, stitches] = count.exec(text) ?? [];
  if (stitches) return counted("widest", numberOf(stitches), measures);
  const [, fit, size, unit, word] = length.exec(text) ?? [];
  if (!size || !unit)
    return { why: say`"${text}" is no size. Type one such as 60, x1.5, 40 cm or 18 cm high.` };
  const side = fit ? "fit" : (sides.find(([form]) => form.test(word ?? ""))?.[1] ?? measures.usualSide);
  return atGauge({ size: numberOf(size), unit: unitOf(unit), side }, measures);
}

function numberOf(text: string): number {
  return Number(text.replace("−", "-").replace(",", "."));
}

function scaledBy(by: number, measures: PieceMeasures): WantedSize | Refusal {
  if (by <= 0) return { why: say`A piece is made larger or smaller by a number above 0.` };
  if (by > timesAtMost) return { why: say`No piece is made more than ${timesAtMost} times as large.` };
  const wanted = counted("widest", Math.round(measures.shape.widest * by), measures);
  return "why" in wanted ? wanted : { ...wanted, goal: { ...wanted.goal, rowsBy: by } };
}

function counted(of: ResizeGoal["of"], n: number, measures: PieceMeasures): WantedSize | Refusal {
  if (!Number.isInteger(n)) return { why: say`A number of stitches is whole.` };
  if (n < 1) return { why: say`A row has one stitch or more.` };
  if (n > stitchesAtMost) return { why: say`No row has more than ${stitchesAtMost} stitches.` };
  const { rungs, begin, widest } = measures.shape;
  const now = of === "start" ? (rungs[begin]?.makes ?? n) : widest;
  // Back and forth a count tells the width alone; in the round a piece keeps its shape.
  return { goal: { of, count: n, rowsBy: measures.isRound ? n / now : 1 }, sized: () => "" };
}

interface Wish {
  readonly size: number;
  readonly unit: "mm" | "cm" | "in";
  readonly side: Side;
}

function unitOf(typed: string): Wish["unit"] {
  const name = typed.toLowerCase();
  return name === "mm" || name === "cm" ? name : "in";
}

function atGauge(wish: Wish, measures: PieceMeasures): WantedSize | Refusal {
  const { stitch, shape } = measures;
  if (stitch === null) return noGauge();
  if (wish.size <= 0) return { why: say`A size is more than 0.` };
  if (wish.side === "high") return inHeight(wish, measures);
  const wanted = wish.side === "fit" ? aroundFor(wish, measures) : convertLength(wish.size, wish.unit, "mm");
  if (typeof wanted !== "number") return wanted;
  const perStitch = wish.side === "across" ? stitch / Math.PI : stitch;
  const found = counted("widest", Math.round(wanted / perStitch), measures);
  if ("why" in found) return found;
  const side = wish.side === "fit" ? "around" : wish.side;
  const long = (widest: number): number =>
    Math.round(convertLength(widest * perStitch, "mm", wish.unit) * 10) / 10;
  const rowsBy = measures.isRound ? found.goal.count / shape.widest : 1;
  return { goal: { ...found.goal, rowsBy }, sized: (widest) => ` (${long(widest)} ${wish.unit} ${side})` };
}

/** With the same ease as now: what the piece is around more or less than the body. */
function aroundFor({ size, unit }: Wish, { body, stitch, shape }: PieceMeasures): number | Refusal {
  if (body === null)
    return {
      why: say`To keep the ease, the pattern has to say whom it fits now: add a line such as "To fit head: 54 cm".`,
    };
  return convertLength(size, unit, "mm") + shape.widest * (stitch ?? 0) - body;
}

function inHeight({ size, unit }: Wish, measures: PieceMeasures): WantedSize | Refusal {
  const { row, high, plainRows, shape } = measures;
  if (row === null || high === null)
    return {
      why: say`A height needs the rows of the gauge. Write them too, as in "Gauge: 18 sc and 20 rows = 10 cm".`,
    };
  if (plainRows === 0) return { why: say`It has no plain rows that could be more or fewer.` };
  const rows = plainRows + (convertLength(size, unit, "mm") - high) / row;
  if (rows < 1) return { why: say`Its shaping alone is higher than ${size} ${unit}.` };
  const to = Math.round(rows);
  const long = convertLength(high + (to - plainRows) * row, "mm", unit);
  const goal: ResizeGoal = { of: "widest", count: shape.widest, rowsBy: to / plainRows };
  return { goal, sized: () => say` (${Math.round(long * 10) / 10} ${unit} high)` };
}
