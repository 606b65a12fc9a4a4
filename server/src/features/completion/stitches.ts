import { frontMatterOf } from "../../notation/front-matter/front-matter";
import { keptBy } from "../../text/kept-by";
import { say } from "../../text/say";
import { namedStitches, plainStitches, prefixes } from "../../trade/stitch-table";
import { abbreviationOf, type Stitch, stitchOf, type Terms } from "../../trade/stitches";
import { type Block, list, title } from "../shown/blocks";
import { sts } from "../shown/counts";
import { fullName, nameIn, otherAbbreviation } from "../shown/stitch-names";
import type { CompletionEntry, CompletionSource } from "./entry";
import type { WritingPlace } from "./writing-place";

/** The stitches of the trade by their abbreviations in the terms in force; those in use here stand first. */
export const stitches: CompletionSource = (place) => {
  if (!place.isInRow) return [];
  const { terms } = place.pattern.context;
  const used = wordsAround(place);
  return stitchesIn(terms).map((stitch) => entryOf(stitch, terms, used, place));
};

function entryOf(
  stitch: Stitch,
  terms: Terms,
  used: ReadonlySet<string>,
  place: WritingPlace,
): CompletionEntry {
  const label = abbreviationOf(stitch, terms);
  const rank = used.has(label.toLowerCase()) ? 10 : stitch.family === "plain" ? 30 : 50;
  return {
    kind: "stitch",
    label,
    detail: nameIn(stitch, terms),
    span: place.beginningOf(label),
    newText: label,
    rank,
    blocks: () => blocksOf(stitch, terms),
  };
}

function blocksOf(stitch: Stitch, terms: Terms): Block[] {
  const { uses, makes } = stitch;
  const elsewhere = otherAbbreviation(stitch, terms);
  const shapes = makes > 0 && (uses > 1 || makes > 1);
  return [
    title(fullName(stitch, terms)),
    ...list([
      ...(elsewhere === null ? [] : [elsewhere]),
      ...(shapes ? [say`One of it is worked over ${sts(uses)} and makes ${makes}.`] : []),
    ]),
  ];
}

const inTerms: Readonly<Record<Terms, readonly Stitch[]>> = { US: allIn("US"), UK: allIn("UK") };

function stitchesIn(terms: Terms): readonly Stitch[] {
  return inTerms[terms];
}

/** Plain stitches, two or three of them together, those with a prefix, and those with names of their own. */
function allIn(terms: Terms): Stitch[] {
  const plain = plainStitches.map(({ id }) => id);
  const words = [
    ...plain,
    ...plain.slice(0, 5).flatMap((id) => [`${id}2tog`, `${id}3tog`]),
    ...prefixes.flatMap((prefix) => plain.slice(0, 5).map((id) => prefix.id + id)),
  ];
  const known = [...words.flatMap((word) => stitchOf(word, "US") ?? []), ...namedStitches.values()];
  const byLabel = new Map(known.map((stitch) => [abbreviationOf(stitch, terms), stitch]));
  return [...byLabel.values()];
}

/** Rows above that are looked at for what is in use. */
const rowsLookedAt = 12;

function wordsAround({ pattern, rowsAbove }: WritingPlace): ReadonlySet<string> {
  const near = rowsAbove
    .slice(-rowsLookedAt)
    .flatMap(({ line }) => line.text.toLowerCase().match(word) ?? []);
  return new Set([...near, ...listedIn(pattern.lines)]);
}

const word = /\p{L}[\p{L}\d-]*/gu;

const listedIn = keptBy((lines: Parameters<typeof frontMatterOf>[0]): readonly string[] =>
  frontMatterOf(lines).abbreviations.flatMap(({ entries }) => entries.flatMap(({ names }) => names)),
);
