import { median } from "../../server/src/measure/proportions";
import { slack } from "../../server/src/measure/stitch-path";
import { notEstimated } from "./estimates";
import {
  type Compared,
  calibrated,
  calibratedStitches,
  calibrations,
  compared,
  densityOf,
  fittedSlack,
  stitchTold,
} from "./fit";
import { publishedDensities, publishedItems, type Quality } from "./published";

const head = [
  "| | item | published | estimate, yd | off | basis | taken for granted |",
  "|---|---|---|---|---|---|---|",
];

function line({ estimate, published, yards, ratio }: Compared): string {
  const { id, item, quality, hookMm } = published;
  const cells = [
    id,
    item,
    `${published.yards} yd, ${quality}`,
    yards.toFixed(0),
    off(ratio),
    `${estimate.basis}, ${hookMm === null ? "hook not told" : `${hookMm} mm`}`,
    estimate.taken,
  ];
  return `| ${cells.join(" | ")} |`;
}

function off(ratio: number): string {
  const percent = Math.round((ratio - 1) * 100);
  return `${percent > 0 ? "+" : ""}${percent} %`;
}

function table(title: string, items: readonly Compared[]): string {
  return [`## ${title}`, "", ...head, ...items.map(line), ""].join("\n");
}

function of(use: string, ...qualities: readonly Quality[]): Compared[] {
  return compared.filter(
    ({ estimate, published }) => estimate.use === use && qualities.includes(published.quality),
  );
}

function isTold({ published }: Compared): boolean {
  return stitchTold.has(published.id);
}

function spread(items: readonly { readonly ratio: number }[]): string {
  const apart = items.map(({ ratio }) => Math.abs(ratio - 1));
  return `${items.length} items, median ${off(1 + median(apart)).replace("+", "")} off, at most ${off(1 + Math.max(...apart)).replace("+", "")}`;
}

function stitchTable(): string {
  const lines = calibratedStitches().map(
    ({ stitch, perWidth, estimate, ratio, doubt }) =>
      `| ${stitch} | ${perWidth.toFixed(1)} | ${estimate.toFixed(1)} | ${off(ratio)} | ${doubt ?? ""} |`,
  );
  const area = publishedDensities.map(
    ({ stitch, ofSc }) =>
      `| ${stitch}, of an area of sc | ${ofSc} | ${densityOf(stitch).toFixed(3)} | ${off(densityOf(stitch) / ofSc)} | ${stitch === "dc" ? "1.006 by the swatches W01 and W03" : ""} |`,
  );
  const head = ["| stitch | published | estimate | off | |", "|---|---|---|---|---|"];
  return [
    "## Calibrated by one stitch: a row of sc, 10.6 times its width",
    "",
    ...head,
    ...lines,
    ...area,
    "",
  ].join("\n");
}

const measured = compared.filter(({ published }) => published.quality === "measured");
const ball = of("try", "whole balls");
const scaled = calibrations.flatMap(calibrated);

console.log(
  [
    table("Fitted to these", of("fit", "measured", "stated")),
    table("Tried on these", of("try", "measured", "stated")),
    table("Upper bounds: so many whole balls, of which some is left", ball),
    ...calibrations.map((one) => table(`Calibrated by ${one.by}, one swatch`, calibrated(one))),
    stitchTable(),
    "## Not estimated",
    "",
    ...publishedItems.flatMap(({ id, item }) =>
      notEstimated[id] ? [`- ${id}, ${item}: ${notEstimated[id]}`] : [],
    ),
    "",
    `Slack: ${slack} in the code, ${fittedSlack().toFixed(3)} fitted now.`,
    `Measured, not calibrated: ${spread(measured)}.`,
    `Measured and tried only: ${spread(of("try", "measured"))}.`,
    `Calibrated by a swatch, stitch told: ${spread(scaled.filter(isTold))}.`,
    `Calibrated by a swatch, stitch not told by the source: ${spread(scaled.filter((one) => !isTold(one)))}.`,
    `Calibrated by one stitch, figures without a doubt: ${spread(calibratedStitches().filter(({ doubt }) => doubt === null))}.`,
    `Upper bounds exceeded: ${
      ball
        .filter(({ ratio }) => ratio > 1)
        .map(({ published }) => published.id)
        .join(", ") || "none"
    }.`,
  ].join("\n"),
);
