import type { Gauge } from "../measure/gauge";
import type { Refusal } from "../reshape/row-trial";
import { say } from "../text/say";
import { convertLength } from "../trade/units";
import { noGauge } from "./gauge-line";

/** A number of stitches that somebody wants, however it was told. */
export interface Wanted {
  readonly count: number;
  /** ` (50 cm)`: how long so many stitches are; nothing where no size was asked for. */
  sized(count: number): string;
}

/** No pattern has a row of more stitches. */
const stitchesAtMost = 100_000;

const length = /^(\d+(?:[.,]\d+)?)\s*(cm|mm|in|inch|inches|")$/i;
const factor = /^(?:[x×*]\s*(\d+(?:[.,]\d+)?)|(\d+(?:[.,]\d+)?)\s*(?:[x×]|%))$/i;

/** A number, `x1.5` or `150 %` of the stitches there are, or a length at the gauge of the pattern: `50 cm`, `20 in`. */
export function wantedIn(typed: string, now: number | null, gauge: () => Gauge | null): Wanted | Refusal {
  const text = typed.trim();
  if (text === "") return { why: say`Type a number of stitches.` };
  if (/^\d+\s*[(/,]\s/.test(text) || /^\d+\s*\(/.test(text))
    return { why: say`Type one number: a row is rewritten for one count.` };
  const [, size, unit] = length.exec(text) ?? [];
  if (size && unit) return atGauge(numberOf(size), unitOf(unit), gauge());
  const [, times, share] = factor.exec(text) ?? [];
  if (times ?? share) return scaled(text, numberOf(times ?? share ?? ""), now);
  if (!/^[-−]?\d+([.,]\d+)?$/.test(text)) return { why: say`"${text}" is no number of stitches.` };
  return counted(numberOf(text));
}

function numberOf(text: string): number {
  return Number(text.replace("−", "-").replace(",", "."));
}

function counted(count: number): Wanted | Refusal {
  if (!Number.isInteger(count)) return { why: say`A number of stitches is whole.` };
  if (count < 1) return { why: say`A row has one stitch or more.` };
  if (count > stitchesAtMost) return { why: say`No row has more than ${stitchesAtMost} stitches.` };
  return { count, sized: () => "" };
}

function scaled(text: string, by: number, now: number | null): Wanted | Refusal {
  const times = text.endsWith("%") ? by / 100 : by;
  return counted(Math.round((now ?? 0) * times));
}

type Unit = "mm" | "cm" | "in";

function unitOf(typed: string): Unit {
  const name = typed.toLowerCase();
  return name === "mm" || name === "cm" ? name : "in";
}

/** The nearest whole number of stitches. */
function atGauge(size: number, unit: Unit, gauge: Gauge | null): Wanted | Refusal {
  if (!gauge) return noGauge();
  const wanted = counted(Math.round(convertLength(size, unit, "mm") / gauge.width));
  if ("why" in wanted) return wanted;
  const long = (count: number): number =>
    Math.round(convertLength(count * gauge.width, "mm", unit) * 10) / 10;
  return { ...wanted, sized: (count) => ` (${long(count)} ${unit})` };
}
