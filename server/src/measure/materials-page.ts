import { say } from "../text/say";
import { sentenceStart } from "../text/sentence";
import { type Estimate, inWords, printed } from "./figures";
import type { FinishingYarn, Materials, PieceMeasures, YarnAmount, YarnOfPattern } from "./materials";
import { durationInWords } from "./time";

/** Materials and measures as a page of Markdown. */
export function materialsPage(materials: Materials, title: string): string {
  const { basis, options, notes, minutes, sizes } = materials;
  return [
    `# ${escaped(title || say`Materials and measures`)}`,
    ...(basis ? [say`Worked out from ${escaped(basis.says)}.`] : []),
    ...yarnSection(materials),
    ...pieceSection(materials),
    `## ${say`Time`}`,
    say`${bySize(sizes, minutes.map(durationInWords))} at ${options.stitchesPerMinute} stitches a minute. Sewing and finishing are not included.`,
    ...(notes.length > 0 ? [`## ${say`Notes`}`, notes.map((note) => `- ${escaped(note)}`).join("\n")] : []),
  ]
    .join("\n\n")
    .concat("\n");
}

function yarnSection({ yarns, sizes, options, finishing, leftOut }: Materials): string[] {
  if (yarns.length === 0) return [];
  const rows = yarns.flatMap((yarn) => yarnRows(yarn, sizes));
  return [
    `## ${say`Yarn`}`,
    table(
      [
        say`yarn`,
        ...(sizes.length > 1 ? [say`size`] : []),
        say`metres`,
        say`yards`,
        say`grams`,
        say`balls to buy`,
      ],
      rows,
    ),
    ...(leftOut.length > 0
      ? [say`**Without ${escaped(leftOut.join(", "))}**: nothing tells their stitches.`]
      : []),
    say`With ${printed(options.marginPercent)} % to spare, tails included${finishing.length > 0 ? say`; on top of it come:` : "."}`,
    ...(finishing.length > 0 ? [finishing.map((one) => finishingLine(one, sizes)).join("\n")] : []),
  ];
}

function finishingLine({ what, metres }: FinishingYarn, sizes: readonly string[]): string {
  if (metres.every((one) => one === null))
    return `- ${say`${escaped(what)}: nothing tells how long the seams are`}`;
  const cells = metres.map((one) => (one ? `${inWords(one)} m` : "–"));
  return `- ${escaped(what)}: ${sizes.length > 1 ? sizes.map((size, i) => `${escaped(size)} ${cells[i]}`).join(", ") : cells[0]}`;
}

function yarnRows({ name, label, isListed, amounts }: YarnOfPattern, sizes: readonly string[]): string[][] {
  const told = `${name}${label ? `, ${label}` : ""}${isListed ? "" : say` (not in the list of materials)`}`;
  return amounts.map((amount, i) => [
    told,
    ...(sizes.length > 1 ? [sizes[i] ?? ""] : []),
    ...amountCells(amount),
  ]);
}

function amountCells({ metres, yards, grams, balls }: YarnAmount): string[] {
  return [metres, yards, grams, balls].map((estimate) => (estimate ? inWords(estimate) : "–"));
}

function pieceSection({ pieces, sizes }: Materials): string[] {
  const rows = pieces.flatMap((piece) => pieceRows(piece, sizes));
  if (rows.length === 0) return [];
  return [
    `## ${say`Pieces`}`,
    table(
      [say`piece`, ...(sizes.length > 1 ? [say`size`] : []), say`measures`, say`metres each`, say`time each`],
      rows,
    ),
  ];
}

function pieceRows(
  { name, make, sizes: measures, metres, minutes }: PieceMeasures,
  sizes: readonly string[],
): string[][] {
  const title = `${name || say`the piece`}${make > 1 ? say` (make ${make})` : ""}`;
  return sizes.map((size, i) => [
    title,
    ...(sizes.length > 1 ? [size] : []),
    measures[i] ?? say`not known`,
    cell(metres[i] ?? null),
    durationInWords(minutes[i] ?? 0),
  ]);
}

function cell(estimate: Estimate | null): string {
  return estimate ? inWords(estimate) : "–";
}

/** `about 45 minutes`, or one text a size. */
function bySize(sizes: readonly string[], texts: readonly string[]): string {
  const same = texts.every((text) => text === texts[0]);
  const said = same ? (texts[0] ?? "") : sizes.map((size, i) => `${escaped(size)}: ${texts[i]}`).join(", ");
  return sentenceStart(said);
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [line(head), line(head.map(() => "---")), ...rows.map((cells) => line(cells.map(escaped)))].join(
    "\n",
  );
}

/** What a pattern says is text, whatever signs are in it. */
function escaped(text: string): string {
  return text
    .replace(/\s+/g, " ")
    .replace(/[\\`*_[\]<>|#~&@$]/g, "\\$&")
    .replace(/:(?=\/\/)|(?<=\bwww)\./gi, "\\$&");
}
