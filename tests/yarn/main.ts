import { median } from "../../server/src/measure/proportions";
import { slack } from "../../server/src/measure/stitch-path";
import { notEstimated } from "./estimates";
import { type Compared, calibrated, calibrations, compared, fittedSlack } from "./fit";
import { publishedItems, type Quality } from "./published";

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
    `${estimate.basis}, ${hookMm} mm`,
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

function spread(items: readonly Compared[]): string {
  const apart = items.map(({ ratio }) => Math.abs(ratio - 1));
  return `${items.length} items, median ${off(1 + median(apart)).replace("+", "")} off, at most ${off(1 + Math.max(...apart)).replace("+", "")}`;
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
    "## Not estimated",
    "",
    ...publishedItems.flatMap(({ id, item }) =>
      notEstimated[id] ? [`- ${id}, ${item}: ${notEstimated[id]}`] : [],
    ),
    "",
    `Slack: ${slack} in the code, ${fittedSlack().toFixed(3)} fitted now.`,
    `Measured, not calibrated: ${spread(measured)}.`,
    `Measured and tried only: ${spread(of("try", "measured"))}.`,
    `Calibrated: ${spread(scaled)}; ${scaled.filter(({ ratio }) => Math.abs(ratio - 1) > 0.1).length} beyond 10 %.`,
    `Upper bounds exceeded: ${
      ball
        .filter(({ ratio }) => ratio > 1)
        .map(({ published }) => published.id)
        .join(", ") || "none"
    }.`,
  ].join("\n"),
);
