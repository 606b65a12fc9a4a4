import { say } from "../text/say";
import { areaInBothUnits, inBothUnits } from "./lengths";
import type { PieceSize } from "./size";

/** A piece in words: `a cup about 7 cm (2¾ in) across, 5 cm (2 in) deep`. */
export function sizeInWords(size: PieceSize): string {
  switch (size.shape) {
    case "flat":
      return flat(size);
    case "disc":
      return size.length > size.across * 1.1
        ? say`a flat oval, about ${areaInBothUnits(size.length, size.across)}`
        : say`flat, about ${inBothUnits(size.across)} across`;
    case "half disc":
      return say`half a circle, about ${areaInBothUnits(size.width, size.height)}`;
    case "half square":
      return say`a triangle, about ${areaInBothUnits(size.width, size.height)}`;
    case "triangle":
      return say`a triangle, about ${inBothUnits(size.across)} each side`;
    case "square":
      return say`a square, about ${inBothUnits(size.across)} each way`;
    case "ruffle":
      return say`ruffled, about ${inBothUnits(size.across)} across and ${inBothUnits(size.around)} around the edge`;
    case "cup":
      return say`a cup about ${across(size)}, ${inBothUnits(size.height)} deep, ${inBothUnits(size.opening)} around the opening, ${inBothUnits(size.opening / 2)} laid flat`;
    case "ball":
      return say`closed, about ${inBothUnits(size.around)} around, ${inBothUnits(size.height)} high when stuffed`;
    case "tube":
      return say`a tube ${inBothUnits(size.around)} around, ${inBothUnits(size.around / 2)} laid flat, ${inBothUnits(size.height)} long`;
  }
}

function across({ across, length }: Extract<PieceSize, { shape: "cup" | "ball" | "tube" }>): string {
  return length > across * 1.1 ? areaInBothUnits(length, across) : say`${inBothUnits(across)} across`;
}

/** A strip this much longer than high is a cord or a band. */
const muchLonger = 20;

function flat({
  width,
  narrowest,
  height,
  firstEdge,
  lastEdge,
}: Extract<PieceSize, { shape: "flat" }>): string {
  const edges = say`${inBothUnits(firstEdge)} along the first edge, ${inBothUnits(lastEdge)} along the last`;
  if (narrowest > 0.9 * width)
    return width > muchLonger * height ? say`${inBothUnits(width)} long` : areaInBothUnits(width, height);
  return `${areaInBothUnits(width, height)}, ${edges}`;
}
