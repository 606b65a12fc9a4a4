import type { FrontMatter } from "../notation/front-matter/front-matter";
import { type Label, readLabel } from "../notation/front-matter/labels";
import type { Amount, Yarn } from "../notation/front-matter/yarns";
import { keptBy } from "../text/kept-by";

/** A yarn that a pattern is worked with. */
export interface ListedYarn {
  /** `tide blue (D)`, `A`; "" for the one yarn of a pattern that names none. */
  readonly name: string;
  /** As the list of materials has it; null where it is in no list. */
  readonly yarn: Yarn | null;
  readonly label: Label | null;
  /** How much the list says is needed, without the label; none where it says nothing. */
  readonly amounts: readonly Amount[];
  /** `for each square: 8 g`: of one piece only. */
  readonly perPiece: boolean;
}

/** The yarns of the list of materials, in order; rows call them by letter or colour. */
export class YarnList {
  readonly yarns: readonly ListedYarn[];

  constructor(front: FrontMatter) {
    const all = front.yarns.filter(isYarn);
    const named = all.filter(({ letter, colour }) => letter !== null || colour !== null);
    const listed = named.length > 0 ? named : all.slice(0, 1);
    this.yarns = listed.map((yarn) => listedYarn(yarn, all));
  }

  /** The place in the list of what a row calls a yarn; -1 where the list does not have it. */
  find(called: string): number {
    const name = called.toLowerCase();
    const letter = this.yarns.findIndex(({ yarn }) => yarn?.letter?.text === called);
    if (letter >= 0) return letter;
    const colours = this.yarns.map(({ yarn }) => yarn?.colour?.text.toLowerCase() ?? "");
    const same = colours.indexOf(name);
    if (same >= 0) return same;
    const alike = colours.flatMap((colour, i) => (shareWord(colour, name) ? [i] : []));
    return alike.length === 1 ? (alike[0] as number) : -1;
  }
}

export const yarnListOf: (front: FrontMatter) => YarnList = keptBy((front) => new YarnList(front));

/** An item that only names a weight or a fibre of another says no more of a yarn. */
function isYarn({ amounts, letter, colour, text }: Yarn): boolean {
  return amounts.length > 0 || letter !== null || colour !== null || /\p{L}/u.test(text);
}

function shareWord(colour: string, name: string): boolean {
  const words = new Set(colour.split(/[\s-]+/));
  return name.split(/[\s-]+/).some((word) => words.has(word) && word !== "");
}

function listedYarn(yarn: Yarn, all: readonly Yarn[]): ListedYarn {
  const label = readLabel(yarn) ?? readLabel(yarn.item);
  const own = withoutLabel(yarn.amounts, label);
  const each = all.find(
    (other) =>
      other.item.start === yarn.item.start && /\beach\b/i.test(other.text) && other.amounts.length > 0,
  );
  const amounts = own.length > 0 ? own : withoutLabel(each?.amounts ?? [], label);
  const perPiece = /\b(?:for|per)\s+(?:each|one|every|a)?\s*(?:square|motif|block|piece|item|one)\b/i.test(
    yarn.item.text,
  );
  return { name: nameOf(yarn), yarn, label, amounts, perPiece };
}

function withoutLabel(amounts: readonly Amount[], label: Label | null): readonly Amount[] {
  return label === null
    ? amounts
    : amounts.filter(({ start, end }) => end <= label.start || start >= label.end);
}

function nameOf({ colour, letter }: Yarn): string {
  return colour && letter ? `${colour.text} (${letter.text})` : ((colour ?? letter)?.text ?? "");
}
