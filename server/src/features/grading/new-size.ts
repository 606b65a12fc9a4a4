import { yarnUseOf } from "../../measure/yarn-used";
import { noDriver, widestIn } from "../../reshape/grading/add-size";
import type { SizedList } from "../../reshape/grading/size-lists";
import type { Refusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import { convertLength } from "../../trade/units";
import type { Checked } from "../../workspace/checker";

/** A size to be added: its name, and how many times as wide as the last one. */
export interface NewSize {
  readonly name: string;
  readonly by: number;
}

const form =
  /^(\S.{0,19}?)\s+(?:[x×*]\s*(\d+(?:[.,]\d+)?)|(\d+(?:[.,]\d+)?)\s*%|(\d+(?:[.,]\d+)?)\s*(cm|mm|in|inch|inches|"))$/i;

/** No size is less than half or more than three times as wide as the one before it. */
const [least, most] = [0.5, 3];

/** `2XL x1.1`, `2XL 110 %`, or at the gauge `2XL 62 cm`: what the widest rows come to. */
export function readNewSize(
  typed: string,
  worked: Checked["worked"],
  lists: readonly SizedList[],
): NewSize | Refusal {
  const [, name, times, share, length, unit] = form.exec(typed.trim()) ?? [];
  if (!name)
    return { why: say`Type a name and by how much it is wider than the last size: 2XL x1.1, or 2XL 62 cm.` };
  if (/[()[\],;:]/.test(name))
    return { why: say`"${name}" is no name for a size: leave out brackets and commas.` };
  if (worked.context.sizes.some((one) => one.toLowerCase() === name.toLowerCase()))
    return { why: say`There is a size ${name} already.` };
  const by = length && unit ? atGauge(numberOf(length), unit, worked, lists) : factor(times, share);
  if (typeof by !== "number") return by;
  return by >= least && by <= most
    ? { name, by }
    : { why: say`A new size is between half and three times as wide as the last one.` };
}

function numberOf(text: string): number {
  return Number(text.replace(",", "."));
}

function factor(times: string | undefined, share: string | undefined): number {
  return times ? numberOf(times) : numberOf(share ?? "0") / 100;
}

function atGauge(
  length: number,
  unit: string,
  worked: Checked["worked"],
  lists: readonly SizedList[],
): number | Refusal {
  const gauge = yarnUseOf(worked).ground.basis?.gauge;
  if (!gauge)
    return {
      why: say`A size needs the gauge. Add a line to the pattern, such as "Gauge: 18 sc and 20 rows = 10 cm".`,
    };
  const widest = widestIn(lists);
  if (widest === null) return { why: `${noDriver()}.` };
  const name = unit.toLowerCase();
  const millimetres = convertLength(length, name === "mm" || name === "cm" ? name : "in", "mm");
  return millimetres / gauge.width / widest;
}
