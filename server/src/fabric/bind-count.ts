import type { Tree } from "../notation/tree";
import type { Word } from "../notation/words";
import { stitchOf } from "../trade/stitches";
import { forSize, type StatedTerm } from "./instructions";

/** The terms of a stated count: `24 dc, 4 ch-2 sps`; null where the words are no count. */
export function bindCount(list: Tree, words: readonly Word[], text: string): StatedTerm[] | null {
  const terms: StatedTerm[] = [];
  for (const node of termsOf(list)) {
    const before = text.slice(words[list.from]?.start ?? 0, words[node.from]?.start ?? 0);
    if (terms.length > 0 && /\b(?:at|after)\b/i.test(before)) break;
    const behind = text.slice(words[node.from]?.start ?? 0, words[node.to - 1]?.end ?? 0);
    if (terms.length > 0 && /\b(?:per|each|counting|on)\b/i.test(behind)) continue;
    // `16 sts + sl st`: the slip stitch closes the round.
    if (node.rule === "spaceTerm" && words[node.from]?.cls === "l") continue;
    const term = bindTerm(node, words, text);
    if (term === null) return null;
    const groups = terms.at(-1);
    if (groups?.sort === "unit" && /\bof\s*$/i.test(before)) terms[terms.length - 1] = inGroups(groups, term);
    else terms.push(term);
  }
  return terms.length > 0 ? terms : null;
}

/** `8 groups of 3 dc` are 24 dc. */
function inGroups(groups: StatedTerm, each: StatedTerm): StatedTerm {
  const n = groups.n.map((times, size) => (times === null ? null : times * (forSize(each.n, size) ?? 0)));
  return { ...each, n };
}

function termsOf(node: Tree): Tree[] {
  return node.rule === "term" || node.rule === "spaceTerm" ? [node] : node.children.flatMap(termsOf);
}

/** `24 sts at the edge`, `99 tr including turning chain`. */
const endsNoun = /^(?:at|including|incl|inclusive|counting)$/;

function bindTerm(node: Tree, words: readonly Word[], text: string): StatedTerm | null {
  const own = words.slice(node.from, node.to);
  const chain =
    own.length <= 2 && (own[0]?.cls === "c" || own[0]?.cls === "H")
      ? own.find((word) => word.number)?.number?.[0]
      : undefined;
  if (chain !== undefined && chain !== null)
    return { n: [1], noun: `ch-${chain}`, word: "ch", sort: "turning-chain" };
  // `4 sc + ch-2 sp` has one of them.
  if (node.rule === "spaceTerm") return { n: [1], ...nounOf(own, own, text) };
  const at = own.findIndex((word) => word.cls === "n");
  const number = own[at]?.number;
  if (number === undefined) return null;
  // `as Rnds 1-2 of First Square`: what is of a piece is none of its count.
  const next = own[at + 1];
  if (next?.cls === "N" && /\b(?:of|from)\b/i.test(text.slice(own[at]?.end, next.start))) return null;
  // `until you have 48 rows` counts no stitches.
  if (own[at + 1]?.cls === "R") return null;
  const until = own.findIndex(({ cls, value }) => cls === "v" || endsNoun.test(value));
  const groups = own.find(({ cls }) => cls === "@");
  const each = own.slice(at + 1).find(({ cls }) => cls === "n")?.number?.[0];
  // `4 x 2ch corners` are four spaces, `4 x 3tr groups` are 12 tr.
  if (each != null && own.at(-2)?.cls === "c")
    return { n: number, noun: `ch-${each} sp`, word: "ch", sort: "space", chains: each };
  const stitch = own.at(-2);
  if (groups && each != null && stitch)
    return { n: number.map((n) => (n === null ? null : n * each)), ...nounOf([stitch], own, text) };
  const nouns = own
    .slice(at + 1, until < 0 ? undefined : until)
    .filter((word) => "S@tCpqcHlwN".includes(word.cls) && word.value !== "in");
  return { n: number, ...nounOf(nouns, own, text) };
}

function nounOf(nouns: readonly Word[], own: readonly Word[], text: string): Omit<StatedTerm, "n"> {
  const [first] = nouns;
  if (!first) return { noun: "", word: "", sort: "any" };
  const written = text
    .slice(first.start, (nouns.at(-1) as Word).end)
    .replace(/\s+/g, " ")
    .replace(/\.$/, "");
  const noun = written.replace(/\b(sp|space)s\b/gi, "sp");
  const word = first.value;
  const space = nouns.find((word) => word.cls === "C");
  if (space)
    return { noun, word, sort: "space", ...(space.number?.[0] == null ? {} : { chains: space.number[0] }) };
  if (nouns.some((word) => word.cls === "p" || word.cls === "q")) {
    if (isFilled(noun)) return { noun, word: noun.toLowerCase(), sort: "unit" };
    return { noun, word, sort: nouns.some((word) => word.cls === "S") ? "unit" : "space" };
  }
  const chains = first.cls === "H" && nouns.length > 1 ? first.number?.[0] : null;
  if (chains != null) return { noun, word, sort: "space", chains };
  if (first.cls === "H") return { noun: first.value, word, sort: "turning-chain" };
  if (first.cls === "c")
    return { noun: "ch", word, sort: own.some((word) => word.cls === "T") ? "space" : "chain" };
  if (first.cls === "l") return { noun: "sl st", word, sort: "stitch" };
  if (nouns.length === 1 && first.cls === "t") return { noun: "sts", word: "", sort: "any" };
  if (
    nouns.length === 1 &&
    first.cls === "S" &&
    stitchOf(first.value, "US")?.base != null &&
    first.value !== "v-st"
  )
    return { noun: first.value, word, sort: "stitch" };
  return { noun, word: nouns.length > 1 ? noun.toLowerCase() : word, sort: "unit" };
}

/** `2 solid mesh` are stitches where spaces might be: no spaces at all. */
export function isFilled(noun: string): boolean {
  return /^(?:solid|filled|closed|full)\b/i.test(noun);
}
