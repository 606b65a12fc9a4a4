import type { LineContent } from "../notation/document";
import { betweenEntries } from "../notation/front-matter/definitions";
import { type Tree, treeOf } from "../notation/tree";
import { type Meaning, trade } from "../notation/vocabulary";
import { type Lexicon, readWords, type Word } from "../notation/words";
import { stitchOf, stitchSpellings } from "../trade/stitches";
import { type BindContext, bindPart, bindRow, type Definition } from "./bind";
import { type Instruction, type Take, takesIn, targetsOf } from "./instructions";
import { type Settling, settled } from "./settled";
import { placesOver } from "./takes";

interface Defined {
  readonly words: Map<string, Meaning>;
  readonly definitions: Map<string, Definition>;
}

const defining =
  /^([\p{L}\p{N}][\p{L}\p{N}\s.'’/-]{0,40}?)\s*(?:\(([^()]{1,40})\))?\s*(?:=|:|\s[-–—]\s|[-–—]\s)\s*(.+)$/u;

/** The stitches and words that a pattern explains outside its rows. */
export function readDefinitions(lines: readonly LineContent[], context: BindContext, sizes: number): Defined {
  const out: Defined = { words: new Map(), definitions: new Map() };
  for (const line of lines) for (const part of partsOf(line.text)) define(part, out, context, sizes);
  return out;
}

/** The definitions of one line: `X = sc, V = inc` are two. */
function partsOf(text: string): string[] {
  const bare = text
    .trim()
    .replace(
      /^(?:abbreviations?|special(?:\s+stitch(?:es)?)?|stitch(?:es)? used|stitch (?:guide|key)|legend|notes?)\s*[:–-]\s*/i,
      "",
    );
  const split = bare
    .split(betweenEntries)
    .flatMap((part) => part.trim().split(/,\s*(?=[\p{L}\d][\p{L}\d() -]{0,9}=)/u));
  const isVintage = split.filter((part) => vintage.test(part)).length >= fewestVintage;
  if (isVintage) return split.map((part) => part.replace(vintage, "$1 = "));
  return split.length > 1 ? goingOn(split) : [bare.replace(byComma, "$1 = ")];
}

/** `fan, 5 tr in the same stitch`, `V, (1 tr, 2 ch, 1 tr) in one place`: an entry of a list with commas. */
const byComma =
  /^(?!(?:next|then|now|first|finally|also|again|last|turn|join|corner)\b)(\p{L}[\p{L}-]{0,12}(?: \p{L}{2,8})?),\s+(?=(?:work\s+)?[(\d][^.]*\bin(?:to)?\s+(?:the\s+)?(?:same|one|next|indicated|st|sp|place)\b)/iu;

/** `C6: sk 3 sts, FPtr around next 3 sts; working in front, FPtr around the skipped sts`: what explains nothing goes on. */
function goingOn(parts: readonly string[]): string[] {
  const whole: string[] = [];
  for (const part of parts)
    if (whole.length > 0 && !defining.test(part) && part !== "") whole.push(`${whole.pop()}; ${part}`);
    else whole.push(part);
  return whole;
}

/** `ch, chain; sc, single crochet; p, picot (ch 3, sl st in last sc made)`: a list with nothing but commas. */
const vintage = /^([\p{L}\d]{1,8}(?: st)?),\s+(?=\p{L})/u;
const fewestVintage = 3;

const reserved =
  /^(?:hook|gauge|tension|yarn|materials?|size|sizes|level|terms|note|notes|finished|multiple|to fit|row|rnd|round|with|sew|level|notions|stuffing|rs|ws|st|sts|rep|beg|sp|sk|col|language|mc|cc|[a-h])\b(?!\s+(?:shell|cl|cluster|v-?st|pc|popcorn|puff|bobble|block|petal|picot|mesh|fan)\b)/i;

function define(part: string, out: Defined, context: BindContext, sizes: number): void {
  const match = defining.exec(part.trim());
  if (!match) return;
  const [, title = "", aliases, behind = ""] = match;
  // `inc: increase, 2 sc in 1 st`
  const told = withoutStops(behind.trim()).replace(/^(?:increase|decrease)\s*[,:–—-]\s*(?=\S)/i, "");
  const plainly = /\bmesh\b/i.test(title) ? overItsPlaces(told, out.definitions) : told;
  const said = context.glossary?.get(told.toLowerCase().replace(/[.;]$/, "")) ?? plainly;
  if (reserved.test(title.trim()) && !stitchSpellings.has(said.toLowerCase())) return;
  const names = [title, ...(aliases?.split(/[,/]| or /) ?? [])]
    .map((name) => name.trim().toLowerCase())
    .filter((name) => name !== "" && !/^\d(?!\/\d)|uk |us |makes?\b|made\b/.test(name));
  // The trade knows what `dc2tog` is: a line that explains it changes nothing.
  if (names.some((name) => /\d\s?tog$/.test(name))) return;
  // `ms = maille serrée` neither; `aug = 3 ms dans la même m` makes another stitch of it.
  if (names.some((name) => context.glossary?.has(name)) && !/\d/.test(told)) return;
  const known = names.map((name) => stitchSpellings.get(name)).find((word) => word !== undefined);
  const word = trade.get(said.toLowerCase().replace(/[.;]$/, ""));
  if (word && "gBlckU".includes(word.cls)) for (const name of names) out.words.set(name, word);
  const explained = definitionOf(said, known ?? names[0] ?? "", context, sizes);
  const definition = explained && asCalled(explained, `${title} ${aliases ?? ""}`);
  if (!definition || (("body" in definition || "sequence" in definition) && names.some(meansOtherwise)))
    return;
  if (!("alias" in definition) && names.some((name) => isPlain(name, context))) return;
  const value = "alias" in definition ? definition.alias : (known ?? names[0] ?? "");
  if (!("alias" in definition)) out.definitions.set(value, definition);
  else if (known !== undefined) return;
  for (const form of names.flatMap(formsOf))
    out.words.set(form, { cls: ("alias" in definition && trade.get(value)?.cls) || "S", value });
}

/**
 * Filet: where a mesh of the pattern passes so many stitches, its first one passes as many as it has chains,
 * said or not.
 */
function overItsPlaces(told: string, known: ReadonlyMap<string, Definition>): string {
  const passes = [...known.values()].some(({ sequence }) =>
    sequence?.some(
      (one) =>
        one.op === "skip" && one.takes.some((take) => take.how === "next" && take.of.sort === "stitch"),
    ),
  );
  if (!passes) return told;
  return told.replace(opensMesh, "$1, sk $2 sts, ");
}

const opensMesh = /^(ch\s*\d+\s*\(counts as [^()]*\bch[\s-]*(\d)\)),\s*(?=\w+ in next \w+\W*$)/i;

/** `Cable over 3 sts`: where how it is worked comes to another number, the name tells. */
function asCalled<T extends ReturnType<typeof definitionOf>>(explained: T, called: string): T | Definition {
  const over = /\b(?:cable|cross\w*|twist)\b.*\bover\s+(?:next\s+)?(\d+)\s+(?:sts?|stitches)\b/i.exec(
    called,
  )?.[1];
  const sequence = explained !== null && "sequence" in explained ? explained.sequence : undefined;
  if (over === undefined || !sequence || placesOver(sequence) === Number(over)) return explained;
  return { kind: (explained as Definition).kind, uses: Number(over), makes: Number(over) };
}

/** `5 d.c. in one st.`: stops of abbreviations end no sentence. */
function withoutStops(said: string): string {
  return said.replace(/\b(?:\p{L}\.){2,}/gu, (short) => short.replaceAll(".", ""));
}

function formsOf(name: string): string[] {
  return [name, `${name}s`, `${name}es`, `${name} st`, `${name} sts`];
}

/** Nobody makes anything else of a `dc`: what stands behind it is how it is worked, or a list that goes on. */
function isPlain(name: string, { terms }: BindContext): boolean {
  return stitchOf(stitchSpellings.get(name) ?? name, terms)?.family === "plain";
}

/** A word of the trade that is no stitch, corner or marker (`SM: 2 dc in next sp, dc in next dc`): `mr = magic ring, sc, inc` lists words and makes no stitch of it. */
function meansOtherwise(name: string): boolean {
  const meaning = trade.get(name);
  return meaning !== undefined && !"S@qx".includes(meaning.cls);
}

const oneStitch = /popcorn|puff|bobble|cluster|bullion|\bpc\b|\bbo\b|\bcl\b/i;
const byHand =
  /\b(?:yo|yoh|yrh|yarn over|yarn round (?:the )?hook|insert (?:your )?hook|pull up|draw up|draw through|pull through|remove (?:the )?hook|drop loop)\b/i;
/** `ch 3 (counts as dc)` and nothing else. */
const chainForStitch = /^ch(?:ain)?\s*\d+\s*[,(:]*\s*counts? as (?:a |one )?(\w+)\W*$/i;

/** `worked over 3 sts, counts as 1 st`: its numbers, however it is worked. */
const byNumbers = /\bworked over (\d+) (?:sts?|stitch(?:es)?)\b.*\bcounts as (\d+) (?:sts?|stitch(?:es)?)\b/i;

function definitionOf(
  said: string,
  name: string,
  context: BindContext,
  sizes: number,
): Definition | { readonly alias: string } | null {
  // What goes on behind a semicolon tells how, not what.
  const plain = (said.toLowerCase().split(/;\s/)[0] as string).replace(/[.;]$/, "");
  const alias = stitchSpellings.get(plain.replace(/\s*\(.*\)$/, ""));
  if (alias !== undefined) return { alias };
  const kind = baseOf(name);
  const together = /\b([a-z]+)\s?(\d)\s?tog/i.exec(said);
  if (/^(?:dec|invdec)$/.test(name) && together)
    return { kind: (together[1] as string).toLowerCase(), uses: Number(together[2]), makes: 1 };
  if (/^picot/.test(name)) return { kind: "picot", uses: 0, makes: 0 };
  const inWords = /tog$|^(?:inv)?dec$/.test(name) ? workedTogether.exec(said) : null;
  if (inWords)
    return { kind: decreaseKind(name, said, context), uses: numberIn(inWords[1] as string), makes: 1 };
  const over = usesOf(said);
  if (/^(?:inv)?dec$/.test(name) && over > 1 && /\bdecrease\b/i.test(said))
    return decreaseOver(over, name, said, context);
  const numbers = byNumbers.exec(said);
  if (numbers) return { kind, uses: Number(numbers[1]), makes: Number(numbers[2]) };
  if (oneStitch.test(name)) return { kind, uses: over, makes: 1 };
  const first = /^first\s*(\w+)/i.exec(said) ?? chainForStitch.exec(said);
  if (first) return { kind: (first[1] as string).toLowerCase(), uses: 1, makes: 1 };
  if (byHand.test(said)) return { kind, uses: over, makes: 1 };
  return bodyOf(said, name, context, sizes);
}

/** `double crochet 2 stitches together`, `sc next 2 sts tog`: so many places, one stitch. */
const workedTogether = /\b(\d|two|three|four|five)\s+(?:sts?|stitches|\w+)?\s*(?:together|tog)\b/i;

const numberWords: Readonly<Record<string, number>> = { two: 2, three: 3, four: 4, five: 5 };

function numberIn(text: string): number {
  return numberWords[text.toLowerCase()] ?? Number(text);
}

/** A decrease that the trade names keeps its name; `dec` is called by the stitch it is worked in. */
function decreaseKind(name: string, said: string, { terms, glossary }: BindContext): string {
  if (!/^(?:inv)?dec$/.test(name)) return baseOf(name);
  const stitch = readWords(said, bareLexicon(1, glossary)).find(({ cls }) => cls === "S")?.value;
  return stitch && stitchOf(stitch, terms) ? stitch : baseOf(name);
}

/** `invisible decrease over 2 sts` is what everybody means by it. */
function decreaseOver(
  uses: number,
  name: string,
  said: string,
  context: BindContext,
): Definition | { readonly alias: string } {
  const kind = decreaseKind(name, said, context);
  return uses === 2 && kind === name ? { alias: name } : { kind, uses, makes: 1 };
}

function usesOf(said: string): number {
  const over = /(?:each of|over)\s+(?:the\s+)?(?:next\s+)?(\d+|two|three)\s+(?:sts|stitches)/i.exec(
    said,
  )?.[1];
  return over === undefined ? 1 : (({ two: 2, three: 3 } as Record<string, number>)[over] ?? Number(over));
}

/** A beginning shell is a shell: what opens a row counts among the others. */
function baseOf(name: string): string {
  const base = name.replace(/^(?:beg(?:inning)?|starting|start|first)\.?\s+/, "");
  return stitchSpellings.get(base) ?? base;
}

type Bind = (text: string, words: readonly Word[], tree: Tree, context: BindContext) => Settling | null;

function bareLexicon(sizes: number, glossary: BindContext["glossary"]): Lexicon {
  return { words: new Map(), sizes, ...(glossary ? { glossary } : {}) };
}

function boundTo(
  text: string,
  context: BindContext,
  sizes: number,
  bind: Bind = bindRow,
): readonly Instruction[] | null {
  const words = readWords(text, bareLexicon(sizes, context.glossary));
  const tree = treeOf(words);
  const bound = tree && bind(text, words, tree, context);
  return bound && settled(bound);
}

/** The first clause, and those behind a semicolon that work stitches too. */
function workIn(said: string): string {
  // `long dc – work a dc in front loop of st 2 rows below`
  const [first = "", ...others] = said
    .replace(/^[\p{L} ]{2,25}\s[–—-]\s(?=(?:work|make|insert)\b)/iu, "")
    .split(/(?<=[^.])(?=[.;](?:\s|$))/);
  const end = others.findIndex((part) => !part.startsWith(";") || !worksStitches.test(part));
  return [first, ...(end < 0 ? others : others.slice(0, end))].join("");
}

/** `(2 dc, ch 2, 2 dc) in place indicated`: each row that uses the name says where. */
const placeTold =
  /\b(?:all\s+)?in(?:to)?\s+(?:the\s+)?(?:place|st(?:itch)?|sp(?:ace)?|l(?:oo)?p|ch(?:ain)?)(?:\s+or\s+\w+)*\s+(?:indicated|specified|designated|stated|given)\b(?:\s+in\b[^,.;]*)?/gi;

/** `all in one space`: together, not into each. */
const allInOne = /\ball\s+in(?:to)?\s+(?:one|(?:the\s+)?same|a\s+single)\b/i;

const worksStitches = /\b(?:sc|hdc|dc|htr|tr|dtr|[fb]p\w+)\b/i;

/** `5 dc in same st`, `(dc, ch 1, dc) in same st or sp`: a group in one place. `ch 2, sk 2, dc in next dc`: several. */
function bodyOf(said: string, name: string, context: BindContext, sizes: number): Definition | null {
  const text = workIn(said).replace(placeTold, "in same st").replace(allInOne, "in same");
  const plain = boundTo(text, context, sizes, bindPart);
  if (plain === null) return null;
  if (inSequence(plain)) return { kind: baseOf(name), uses: 1, makes: 1, sequence: plain };
  const inner = understood(unwrap(boundTo(text, context, sizes) ?? []));
  const [only] = inner;
  if (!only) return null;
  if (/^inc/.test(name) && only.op === "work") return increase(only);
  const kind = baseOf(name);
  if (only.op === "work" && inner.length === 1 && /tog/.test(text))
    return { kind, uses: only.stitch.uses, makes: 1 };
  const body = only.op === "group" && inner.length === 1 ? only.body : inner;
  return body.some((instruction) => instruction.op === "work") ? { kind, uses: 1, makes: 1, body } : null;
}

function increase(work: Extract<Instruction, { op: "work" }>): Definition {
  const [take] = work.takes;
  const per = work.per[0] ?? 1;
  const inAll = take?.how === "next" && per === 1 ? (take.n[0] ?? 1) : 1;
  return { kind: work.stitch.kind, uses: 1, makes: per * inAll };
}

/** Whether instructions go along the row rather than into one place. */
function inSequence(list: readonly Instruction[]): boolean {
  if (!list.some((one) => one.op === "work" || one.op === "group")) return false;
  // `2 dc in next ch-2 sp, dc in next dc`
  if (takesIn(list).filter((take) => take.how === "next" && !take.unplaced).length > 1) return true;
  return list.some((one) => {
    if (!("takes" in one)) return false;
    const intoSpace = one.takes.flatMap(targetsOf).some(({ sort }) => sort === "space");
    return one.op === "skip" || (one.op === "slip" ? intoSpace : one.takes.some(goesAlong));
  });
}

/** Back along a chain, or over several places: `FPdc around each of next 3 sts`. */
function goesAlong(take: Take): boolean {
  return take.how === "from-hook" || (take.how === "next" && !take.unplaced && (take.n[0] ?? 1) > 1);
}

/** Behind a whole group in one place, words that are not understood say where or how it is made. */
function understood(list: readonly Instruction[]): readonly Instruction[] {
  const [first] = list;
  return first?.op === "group" ? list.filter((one) => one.op !== "unknown") : list;
}

function unwrap(list: readonly Instruction[]): readonly Instruction[] {
  const [only] = list;
  return list.length === 1 && only?.op === "repeat" && only.times.how === "fixed" && only.times.n[0] === 1
    ? unwrap(only.body)
    : list;
}

/** A name that a row gives to what it made. */
export interface Made {
  readonly name: string;
  definition(context: BindContext): Definition;
}

/** `5 dc in next ch (shell made)`: the first row that uses a group explains it. */
export function madeNames(text: string): Made[] {
  return [
    ...text.matchAll(/\((?:first |1st |beg(?:inning)? |starting )?([\w-]+)\s+(?:made|completed)\)/gi),
  ].map((match) => {
    const name =
      stitchSpellings.get((match[1] as string).toLowerCase()) ?? (match[1] as string).toLowerCase();
    const before = text.slice(0, match.index);
    const part = before.slice(before.search(/[^*:;]*$/));
    return { name, definition: (context) => madeLast(boundTo(part, context, 1) ?? [], name) };
  });
}

/** The group that instructions end with; one stitch where they end with none. */
function madeLast(list: readonly Instruction[], name: string): Definition {
  const last = list.findLast((one) => one.op === "work" || one.op === "group" || one.op === "repeat");
  if (name === "picot") return { kind: name, uses: 0, makes: 0 };
  const stitch = { kind: name, uses: 1, makes: 1 };
  if (last?.op === "repeat") return madeLast(last.body, name);
  if (last?.op === "group") return { ...stitch, body: last.body };
  // Stitches worked together: elsewhere over as many places as the row says.
  if (last?.op === "work" && last.stitch.uses > 1)
    return { ...stitch, uses: last.stitch.uses, worksOver: "as told" };
  const several = last?.op === "work" && (last.per[0] ?? 1) > 1;
  return several ? { ...stitch, body: [last] } : stitch;
}
