import { convertLength, printedLength } from "../trade/units";
import { printed } from "./figures";

/** `7 cm (2¾ in)`: rounded as patterns print lengths. */
export function inBothUnits(millimetres: number): string {
  return `${centimetres(millimetres)} cm (${inches(millimetres)} in)`;
}

/** `20 x 25 cm (8 x 9¾ in)`. */
export function areaInBothUnits(width: number, height: number): string {
  return `${centimetres(width)} x ${centimetres(height)} cm (${inches(width)} x ${inches(height)} in)`;
}

export function centimetres(millimetres: number): string {
  return printed(printedLength(convertLength(millimetres, "mm", "cm"), "cm"));
}

const quarters = ["", "¼", "½", "¾"];

export function inches(millimetres: number): string {
  const value = printedLength(convertLength(millimetres, "mm", "in"), "in");
  const whole = Math.floor(value);
  const part = quarters[Math.round((value - whole) * 4)] ?? "";
  return whole === 0 && part !== "" ? part : `${printed(whole)}${part}`;
}
