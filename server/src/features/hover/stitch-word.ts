import type { Word } from "../../notation/words";
import { counted } from "../../rules/wording";
import { say } from "../../text/say";
import { shift } from "../../text/span";
import { type Stitch, stitchOf, stitchSpellings } from "../../trade/stitches";
import { turningChainFor } from "../../trade/turning-chains";
import { type Block, list, title } from "../shown/blocks";
import { sts } from "../shown/counts";
import { sizeTable } from "../shown/size-table";
import { fullName, otherAbbreviation } from "../shown/stitch-names";
import { explained } from "./glossary";
import { instructionAt } from "./instruction-at";
import { shareRows } from "./part-of-row";
import type { HoverPart, Place } from "./place";

/** Stitches, slip stitches and chains. */
const stitchClasses = /[Slc]/;

/** `sc`: the stitch in full, what it is elsewhere, how high it is, and what this pattern says of it. */
export const stitchWord: HoverPart = {
  at(place) {
    const { word } = place;
    if (!word || !stitchClasses.test(word.cls)) return null;
    const stitch = stitchOf(word.value, place.pattern.context.terms);
    const own = ownMeaning(word, place);
    if (!stitch && !own) return null;
    return {
      span: { start: word.start, end: word.end },
      blocks: [
        title(nameOf(stitch, word, place)),
        ...list(notesOf(stitch, own, word, place)),
        ...shareBlocks(place),
      ],
    };
  },
};

function nameOf(stitch: Stitch | undefined, word: Word, { pattern }: Place): string {
  const written = pattern.text.slice(word.start, word.end);
  const full = stitch && fullName(stitch, pattern.context.terms);
  const isInFull = full && ` ${full}`.startsWith(` ${written.toLowerCase()} `);
  if (!full) return written;
  return isInFull || full === written.toLowerCase() ? full : `${written}: ${full}`;
}

/** What the pattern says of the word beyond the name that the trade gives it. */
function ownMeaning(word: Word, { pattern }: Place): string | null {
  const says = explained(pattern, pattern.text.slice(word.start, word.end)) ?? explained(pattern, word.value);
  return says !== null && stitchSpellings.has(says.toLowerCase().replace(/[.;]$/, "")) ? null : says;
}

function notesOf(stitch: Stitch | undefined, own: string | null, word: Word, place: Place): string[] {
  const { definitions } = place.pattern.context;
  const use = definitions.get(word.value) ?? stitch;
  const defined = definitions.has(word.value);
  return [
    ...(own ? [say`In this pattern: ${own}`] : []),
    ...(stitch && !defined ? tradeNotes(stitch, place) : []),
    ...(use && isShaping(use)
      ? [say`One of it is worked over ${sts(use.uses)} and makes ${use.makes}.`]
      : []),
    ...(stitch?.family === "shell" && !defined
      ? [say`Nothing in this pattern says how many stitches it has.`]
      : []),
  ];
}

/** Most stitches are worked over one and make one: only others need saying. */
function isShaping(use: { readonly uses: number; readonly makes: number; readonly body?: unknown }): boolean {
  return use.body === undefined && use.makes > 0 && (use.uses > 1 || use.makes > 1);
}

function tradeNotes(stitch: Stitch, place: Place): string[] {
  const elsewhere = otherAbbreviation(stitch, place.pattern.context.terms);
  return [...(elsewhere === null ? [] : [elsewhere]), ...heightNotes(stitch, place)];
}

function heightNotes(stitch: Stitch, { pattern }: Place): string[] {
  if (stitch.turningChain === 0 || stitch.family === "foundation" || stitch.family === "start") return [];
  const { chains, counts } = turningChainFor(stitch.id);
  const high = say`As high as ${counted(stitch.turningChain, "chain")}.`;
  const { startCounts, habits } = pattern.context.conventions;
  const here = startCounts.get(chains) ?? habits.get(chains);
  return [
    `${high} ${here === undefined ? usual(chains, counts) : say`In this pattern ch ${chains} at the start ${countsWords(here)}.`}`,
  ];
}

function usual(chains: number, counts: boolean | "unsettled"): string {
  const begins = say`A row of it usually begins with ch ${chains}`;
  return counts === "unsettled"
    ? say`${begins}; makers differ on whether that counts as a stitch.`
    : say`${begins}, which ${countsWords(counts)}.`;
}

function countsWords(counts: boolean): string {
  return counts ? say`counts as a stitch` : say`does not count as a stitch`;
}

/** What of its row a stitch accounts for; one that is only worked into accounts for nothing. */
function shareBlocks(place: Place): Block[] {
  const { placed, offset, pattern } = place;
  const instruction = placed && instructionAt(placed.row, offset - placed.row.line.start);
  if (!instruction || instruction.op === "repeat" || instruction.op === "skip") return [];
  const { start, end } = shift(instruction.span, placed.row.line.start);
  const made = place.words.find(
    (word) => start <= word.start && word.end <= end && stitchClasses.test(word.cls),
  );
  if (made !== place.word) return [];
  return sizeTable(say`In the whole row`, pattern.context.sizes, shareRows(instruction, placed));
}
