import { type Atom, join, mostAt, wordAt } from "./atoms";
import { longest, trade } from "./vocabulary";
import type { Lexicon, Make, Read } from "./words";

const spaceNouns = new Set(["sp", "sps", "space", "spaces", "lp", "lps", "loop", "loops", "arch", "arches"]);

const chainWords = new Set(["ch", "chs", "chain", "chains"]);

const beginWords = new Set(["beg", "beginning", "turning", "starting", "start"]);

/** The point of an abbreviation: small letters go on behind it. */
export function stopAfter(atoms: readonly Atom[], i: number): number {
  const stop = atoms[i];
  if (stop?.text !== "." || !stop.glued) return 0;
  const next = atoms[i + 1];
  // `ch.-1 sp.`
  if (next?.text === "-" && chainWords.has(wordAt(atoms, i - 1))) return 1;
  if (next === undefined || next.glued) return 0;
  return next.isSmall || isOfChain(atoms, i) ? 1 : 0;
}

/** `ch. 3, turn`, `top of ch. 3`: the stop ends no sentence, as it may in `each ch. 12 sc`. */
function isOfChain(atoms: readonly Atom[], i: number): boolean {
  if (!chainWords.has(wordAt(atoms, i - 1)) || !atoms[i + 1]?.isNumber) return false;
  const before = wordAt(atoms, i - 2);
  const behind = wordAt(atoms, i + 2);
  if (i === 1 || /^(?:sps?|spaces?|lps?|loops?)$/.test(behind)) return true;
  return (
    !/^(?:each|every|next|last|first|foundation|starting|same|other|any|skipped|st|nd|rd|th|\d+|[)\]])$/.test(
      before,
    ) && !/^\p{L}/u.test(behind.replace(goesOnBehind, ""))
  );
}

const goesOnBehind = /^(?:turn|and|to|in|into|join|as|at|counts?|for|from|more|skip|sk|miss|loosely)$/;

/** Shapes made of words and numbers: `sc2tog`, `3-dc cluster`, `ch-2 sp`, `2-ch sp`, `ch-3`, `2nd`. */
export function compound(atoms: readonly Atom[], i: number, make: Make, lexicon: Lexicon): Read | null {
  return (
    together(atoms, i, make, lexicon) ??
    chainSpace(atoms, i, make) ??
    group(atoms, i, make, lexicon) ??
    ordinal(atoms, i, make)
  );
}

/** It ends as `scblo` and `dcfl` do. */
function mayBeLooped({ text }: Atom): boolean {
  return text.endsWith("l") || text.endsWith("lo");
}

const loopSuffix = /^(.{2,4}?)(?:tbl|blo|flo|bl|fl)$/;

function together(atoms: readonly Atom[], i: number, make: Make, lexicon: Lexicon): Read | null {
  const first = atoms[i] as Atom;
  const looped = mayBeLooped(first) ? trade.get(loopSuffix.exec(first.text)?.[1] ?? "") : undefined;
  if (looped?.cls === "S") return make("S", looped.value, 1);
  if (first.text.length > 40 && /^(?:holding|leaving)/.test(first.text)) return clusterTold(first.text, make);
  if (first.text.length > 14 && /^(?:draw|work)/.test(first.text)) {
    const n = /(?:next|first|last|of|in) (\d+|two|three) /.exec(first.text)?.[1] ?? "2";
    return make("S", `sc${({ two: "2", three: "3" } as Record<string, string>)[n] ?? n}tog`, 1);
  }
  if (!isShapingNear(atoms, i)) return null;
  const inWords = first.isShaping ? shapedInWords(atoms, i, make) : null;
  if (inWords) return inWords;
  const tog = /^(tog|together|tog's|togs)$/;
  const shaping = /^(inc|dec)$/.exec(wordAt(atoms, i + 1))?.[1];
  const shaped = trade.get(first.text);
  if (
    shaping &&
    shaped?.cls === "S" &&
    /^(?:sc|hdc|dc|htr|tr)$/.test(shaped.value) &&
    !/^\d/.test(wordAt(atoms, i - 1))
  )
    return make("S", `${shaped.value}${shaping}`, 2);
  for (const [stitchAtoms, stitch] of stitchesAt(atoms, i)) {
    const n = wordAt(atoms, i + stitchAtoms);
    const dash = wordAt(atoms, i + stitchAtoms + 1) === "-" ? 1 : 0;
    // `sc 4 together with the wing` are four.
    const held = wordAt(atoms, i + stitchAtoms + 2 + dash) === "with";
    if (/^\d+$/.test(n) && tog.test(wordAt(atoms, i + stitchAtoms + 1 + dash)) && !held)
      return make("S", `${stitch}${n}tog`, stitchAtoms + 2 + dash);
  }
  if (!first.isNumber) return null;
  const joined = trade.get(/^(.+)tog$/.exec(wordAt(atoms, i + 1))?.[1] ?? "");
  if (joined?.cls === "S") return make("S", `${joined.value}${first.text}tog`, 2);
  for (const [stitchAtoms, stitch] of [...stitchesAt(atoms, i + 1), ...ownLetter(atoms, i + 1, lexicon)])
    if (
      tog.test(wordAt(atoms, i + 1 + stitchAtoms)) &&
      wordAt(atoms, i + 2 + stitchAtoms) !== "with" &&
      Number(first.text) > 1
    )
      return make("S", `${stitch}${first.text}tog`, stitchAtoms + 2);
  return null;
}

/** `3X tog`, where X is the pattern's own letter for sc. */
function ownLetter(atoms: readonly Atom[], i: number, { words }: Lexicon): [number, string][] {
  const own = words.get(wordAt(atoms, i));
  return own?.cls === "S" ? [[1, own.value]] : [];
}

/** `dec 1 sc`, `inc 1 st`: by one stitch; `increasing in every 6th sc`, `increasing 8 sc evenly`. */
function shapedInWords(atoms: readonly Atom[], i: number, make: Make): Read | null {
  const [, shaping, goesOn] = /^(inc|dec)(?:rease|(reasing))?$/.exec(wordAt(atoms, i)) ?? [];
  if (shaping === undefined) return null;
  const one = /^(?:1|one)$/.test(wordAt(atoms, i + 1));
  const noun = one ? (/^sts?$/.test(wordAt(atoms, i + 2)) ? 1 : (stitchesAt(atoms, i + 2)[0]?.[0] ?? 0)) : 0;
  if (noun > 0 && !/^\d/.test(wordAt(atoms, i + 2 + noun))) return make("S", shaping, 2 + noun);
  const told = /^in (?:every|each) \d|^\d+ (?:\S+ ){1,2}evenly/.test(join(atoms, i + 1, 4));
  return goesOn && told ? make("S", shaping, 1) : null;
}

const smallNumbers: Readonly<Record<string, number>> = { two: 2, three: 3, four: 4, five: 5, six: 6 };

/** A cluster told in words: so many of a stitch closed together. */
function clusterTold(text: string, make: Make): Read | null {
  const told = /\b(sc|hdc|dc|tr|dtr) in(?:to)? (?:each of )?(?:the )?next (\d+|\w+)/.exec(text);
  const n = Number(smallNumbers[told?.[2] ?? ""] ?? told?.[2]);
  return told && n > 1 ? make("S", `${told[1]}${n}tog`, 1) : null;
}

/** Only near one of these can a compound with a number or a shaping be. */
function isShapingNear(atoms: readonly Atom[], i: number): boolean {
  for (let k = i; k < i + 8 && k < atoms.length; k++) if (atoms[k]?.isShaping) return true;
  return false;
}

function stitchesAt(atoms: readonly Atom[], i: number): [number, string][] {
  const found: [number, string][] = [];
  for (let n = Math.min(mostAt(atoms, i, longest), atoms.length - i); n > 0; n--) {
    const meaning = trade.get(join(atoms, i, n));
    if (meaning?.cls === "S") found.push([n, meaning.value]);
  }
  return found;
}

/** Chains of the longest space that is called by its number without a hyphen. */
const mostChainsOfSpace = 12;

function chainSpace(atoms: readonly Atom[], i: number, make: Make): Read | null {
  const first = wordAt(atoms, i);
  const made =
    beginWords.has(first) &&
    chainWords.has(wordAt(atoms, i + 1)) &&
    wordAt(atoms, i + 2) === "-" &&
    atoms[i + 2]?.glued
      ? wordAt(atoms, i + 3)
      : "";
  if (made !== "" && /^\d+$/.test(made)) return make("H", `ch-${made}`, 4, [Number(made)]);
  let n: string | undefined;
  let used = 0;
  let hyphen = false;
  if (chainWords.has(first)) {
    const stop = stopAfter(atoms, i + 1);
    hyphen = wordAt(atoms, i + 1 + stop) === "-";
    const behind = i + 1 + stop + (hyphen ? 1 : 0);
    if (atoms[behind]?.isNumber) [n, used] = [wordAt(atoms, behind), behind + 1 - i];
    hyphen &&= atoms[i + 1 + stop]?.glued === true;
  } else if (atoms[i]?.isNumber) {
    const dash = wordAt(atoms, i + 1) === "-" ? 1 : 0;
    const apart =
      dash === 0 && atoms[i + 1]?.glued !== true && wordAt(atoms, i + 2 + stopAfter(atoms, i + 2)) === "-";
    if (!apart && chainWords.has(wordAt(atoms, i + 1 + dash)))
      [n, used, hyphen] = [first, 2 + dash, dash === 1];
  }
  if (n === undefined) return null;
  if (wordAt(atoms, i + used) === "corner" && spaceNouns.has(wordAt(atoms, i + used + 1))) used++;
  else if (wordAt(atoms, i + used) === "corner") return make("C", `ch-${n} sp`, used + 1, [Number(n)]);
  const dash = wordAt(atoms, i + used) === "-" && spaceNouns.has(wordAt(atoms, i + used + 1)) ? 1 : 0;
  // `49 ch sps` are so many; `2-ch sps`, `50ch sps` and those of `2 50 ch sps` are so long.
  const named = hyphen || atoms[i + 1]?.glued === true || atoms[i - 1]?.isNumber === true;
  const counts = /^(?:and|&|[,(+[;-])$/.test(wordAt(atoms, i - 1));
  const many = atoms[i]?.isNumber === true && !named && (counts || Number(n) > mostChainsOfSpace);
  if (many && /s$/.test(wordAt(atoms, i + used + dash))) return null;
  if (spaceNouns.has(wordAt(atoms, i + used + dash)))
    return make("C", `ch-${n} sp`, used + 1 + dash, [Number(n)]);
  const worked =
    hyphen ||
    isPartOf(atoms, i) ||
    (wordAt(atoms, i - 1) === "of" && chainWords.has(first)) ||
    (!/^(?:each|every|all)$/.test(wordAt(atoms, i - 2)) &&
      /^(of|top|to|beg|turning)$/.test(wordAt(atoms, i - 1)) &&
      atoms[i + 1]?.glued === true);
  return worked ? make("H", `ch-${n}`, used, [Number(n)]) : null;
}

/** `in 3rd of 5 ch`, `top of the 3 ch`: a chain that was made. */
function isPartOf(atoms: readonly Atom[], i: number): boolean {
  const of = wordAt(atoms, i - 1) === "the" ? i - 2 : i - 1;
  return wordAt(atoms, of) === "of" && /^(?:st|nd|rd|th|d|top|ch|chain)$/.test(wordAt(atoms, of - 1));
}

/** `3-dc cluster`, `5 dc shell`: the number belongs to the name. */
function group(atoms: readonly Atom[], i: number, make: Make, lexicon: Lexicon): Read | null {
  if (!atoms[i]?.isNumber) return null;
  if (wordAt(atoms, i + 1) !== "-") return gluedGroup(atoms, i, make);
  for (const [n, stitch] of stitchesAt(atoms, i + 2)) {
    for (let m = 3; m > 0; m--) {
      const name = join(atoms, i + 2 + n, m);
      const meaning = lexicon.words.get(name) ?? trade.get(name);
      const named = meaning && /[S@]/.test(meaning.cls);
      if (named) return make("S", `${wordAt(atoms, i)}-${stitch} ${meaning.value}`, 2 + n + m);
      if (meaning?.value === "corner") return make("q", "corner", 2 + n + m);
    }
  }
  return null;
}

/** `each 3tr group`; behind a number, `4 x 3tr groups`, it is counted. */
function gluedGroup(atoms: readonly Atom[], i: number, make: Make): Read | null {
  if (!atoms[i + 1]?.glued || !/^(?:each|every|next|first|last|of)$/.test(wordAt(atoms, i - 1))) return null;
  const stitch = trade.get(wordAt(atoms, i + 1));
  const noun = trade.get(wordAt(atoms, i + 2));
  if (stitch?.cls !== "S" || noun?.cls !== "@") return null;
  return make("S", `${wordAt(atoms, i)}-${stitch.value} ${noun.value}`, 3);
}

function ordinal(atoms: readonly Atom[], i: number, make: Make): Read | null {
  const next = atoms[i + 1];
  if (!atoms[i]?.isNumber || !next?.glued || !/^(st|nd|rd|th|d)$/.test(next.text)) return null;
  const n = Number(wordAt(atoms, i));
  if (n === 1) return make("f", "first", 2);
  return make("o", String(n), 2, [n]);
}
