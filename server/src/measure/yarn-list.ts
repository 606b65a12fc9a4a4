import type { FrontMatter } from "../notation/front-matter/front-matter";
import { type Label, readLabel } from "../notation/front-matter/labels";
import type { Amount, Yarn } from "../notation/front-matter/yarns";
import { keptBy } from "../text/kept-by";
import { heldIn } from "./held-together";

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

/** A yarn by its place in the list, or by the name that a row gives one the list does not have. */
export type YarnKey = number | string;

/** The yarns of the list of materials, in order; rows call them by letter or colour. */
export class YarnList {
  readonly yarns: readonly ListedYarn[];
  /** Yarns that the front matter says are held together throughout, one entry a strand; none where it does not. */
  readonly together: readonly YarnKey[];

  constructor(front: FrontMatter) {
    const all = front.yarns.filter(isYarn);
    const named = all.filter(({ letter, colour }) => letter !== null || colour !== null);
    this.yarns = (named.length > 0 ? named : oneOf(all)).map((yarn) => listedYarn(yarn, all));
    this.together = togetherIn(front, this);
  }

  /** What a row calls a yarn, as a key; a list of one yarn without a name has no other. */
  keyOf(called: string): YarnKey {
    const at = this.find(called);
    if (at >= 0) return at;
    return this.yarns.length === 1 && this.yarns[0]?.name === "" ? 0 : called;
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

/** `one strand each of A and B held together throughout`. */
function togetherIn({ lines }: FrontMatter, list: YarnList): readonly YarnKey[] {
  for (const { line } of lines) {
    const held = /\bonly\b/i.test(line.text) ? null : heldIn(line.text, list, []);
    if (held && new Set(held).size > 1) return held;
  }
  return [];
}

/** Of yarns without names the one with an amount; of several with amounts nobody knows which is which. */
function oneOf(all: readonly Yarn[]): Yarn[] {
  const told = all.filter(
    ({ amounts, item, text }) => withoutLabel(amounts, readLabel(item)).length > 0 && !ofOneBall(text, item),
  );
  return told.length === 1 ? told : all.slice(0, 1).map((yarn) => ({ ...yarn, amounts: [] }));
}

/** `100 g each`, in an item that counts balls: what one of them weighs. */
function ofOneBall(text: string, item: Yarn["item"]): boolean {
  return (
    /\b(?:each|per (?:ball|skein|hank))\b/i.test(text) &&
    /\b(?:ball|skein|hank|cone)s?\b/i.test(item.text) &&
    !/\bball|skein|hank|cone/i.test(text)
  );
}

/** A swatch among the materials is none of them. */
function isYarn({ item }: Yarn): boolean {
  return !/\b(?:swatch|unravel)/i.test(item.text);
}

function shareWord(colour: string, name: string): boolean {
  const words = new Set(colour.split(/[\s-]+/));
  return name.split(/[\s-]+/).some((word) => words.has(word) && word !== "");
}

function listedYarn(yarn: Yarn, all: readonly Yarn[]): ListedYarn {
  const label = readLabel(yarn) ?? readLabel(yarn.item);
  const own = withoutLabel(yarn.amounts, label);
  const same = all.filter(({ item }) => item.start === yarn.item.start);
  // `200 g each of sand and navy`; but in `4 balls, 50 g each` a ball is told.
  const tellsBalls = same.some(({ amounts }) => amounts.some(({ unit }) => unit === "ball"));
  const each = tellsBalls
    ? undefined
    : same.find((other) => /\beach\b/i.test(other.text) && other.amounts.length > 0);
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
