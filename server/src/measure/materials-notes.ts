import type { WorkedPattern } from "../fabric/worked";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import { say } from "../text/say";
import type { Basis } from "./basis";
import { cordNotes } from "./cords";
import { easeNotes } from "./ease";
import { edgingsOf, isMeasured } from "./edgings";
import type { GaugeProblem } from "./gauge";
import { missingNotes } from "./missing";
import { isTold } from "./stitch-counts";
import type { YarnUse } from "./yarn-used";

/** What was left aside, taken for granted, or is missing, in whole sentences. */
export function notesOf(pattern: WorkedPattern, use: YarnUse): string[] {
  return [
    ...yarnNotes(pattern, use),
    ...toldNotes(pattern),
    ...easeNotes(pattern, use),
    ...cordNotes(pattern, use),
  ];
}

/** Rows that are in no figure; edgings that are measured by their edge are told apart. */
export function leftOutOf(pattern: WorkedPattern, use: YarnUse): string[] {
  const { basis, paths } = use.ground;
  const edged = basis
    ? edgingsOf(pattern, basis, paths)
        .filter(isMeasured)
        .map(({ row }) => row)
    : [];
  return use.leftOut.filter((row) => !edged.includes(row)).map(({ line }) => line.headText);
}

/** Rows of which only the stated count is known. */
function toldNotes({ pieces }: WorkedPattern): string[] {
  const told = pieces.flatMap(({ rows }) => rows.filter(isTold)).map(({ line }) => line.headText);
  return told.length > 0
    ? [say`By their stated count only, since they are not checked: ${told.join(", ")}.`]
    : [];
}

/** What was taken in the place of what a gauge does not say. */
function insteadOf(sort: GaugeProblem["sort"], basis: Basis | null): string {
  if (sort === "no-rows") return say`; rows were taken as high as usual`;
  if (sort === "no-stitch") return say`; the mean of them was taken`;
  return basis === null || basis.sort === "gauge" ? "" : say`; ${basis.says} was taken instead`;
}

function yarnNotes(pattern: WorkedPattern, use: YarnUse): string[] {
  const { taken } = use;
  const { basis, problems } = use.ground;
  const leftOut = leftOutOf(pattern, use);
  return [
    ...(basis === null
      ? [
          say`Nothing tells how much yarn a stitch takes. Write a gauge, a hook or a yarn weight, or best your own measure: sc: 4.6 cm.`,
        ]
      : []),
    ...problems.map(({ says, sort }) => say`The gauge: ${says}${insteadOf(sort, basis)}.`),
    ...missingNotes(frontMatterOf(pattern.lines), use.ground),
    ...taken.map((how) => say`Yarn was counted for ${how}.`),
    ...(leftOut.length > 0
      ? [say`Not in these figures, since nothing tells their stitches: ${leftOut.join(", ")}.`]
      : []),
    ...(basis && basis.spread > 0
      ? [
          say`The yarn is an estimate: the true figure lies within ${basis.spread * 100} % most of the time. ${
            basis.measured.size > 0
              ? say`Most of it is worked in a stitch that you did not measure; measure that one too.`
              : say`One stitch unravelled and measured makes it sure: 20 sc unravelled: 92 cm.`
          }`,
        ]
      : []),
    ...(basis && basis.strands > 1
      ? [
          say`The yarn is held ${basis.strands === 2 ? say`double` : say`three times`}: every strand is counted.`,
        ]
      : []),
  ];
}
