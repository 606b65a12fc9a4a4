import type { Tree } from "../notation/tree";
import type { Sized, Word } from "../notation/words";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { type Choice, type Take, type Target, targetsOf, type Until } from "./instructions";
import { type BindContext, isGroupName } from "./stitch-use";
import { child, descendants, find } from "./tree-search";

const one: Sized = [1];
const anyStitch: Target = { sort: "stitch" };
/** A corner told by its stitches: the middle of the group that turns it. */
export const cornerStitch: Target = {
  sort: "stitch",
  named: true,
  corner: true,
  part: "middle",
  unit: "corner",
};

/** The words of one row, looked at through its tree. */
class RowWords {
  constructor(
    protected readonly text: string,
    protected readonly words: readonly Word[],
    protected readonly context: BindContext,
  ) {}

  protected word(i: number): Word {
    return this.words[i] as Word;
  }

  protected span(tree: Tree): Span {
    return { start: this.word(tree.from).start, end: this.word(tree.to - 1).end };
  }

  protected textOf(tree: Tree): string {
    return this.textAt(this.span(tree));
  }

  protected textAt({ start, end }: Span): string {
    return this.text.slice(start, end);
  }

  protected numberAt(i: number): Sized {
    return this.words[i]?.number ?? one;
  }

  protected numberIn(node: Tree): Sized {
    const at = find(node, (i) => this.word(i).number !== undefined, this.words);
    return at < 0 ? one : this.numberAt(at);
  }
}

/** The key of the row ends of what was worked in rows, among other pieces. */
export const rowEnds = "row ends";

/** What the vocabulary calls a motif beside the one in hand. */
export const otherWork = "other work";

/** A group that a place phrase names: `of next shell`. */
interface NamedGroup {
  readonly name: string;
  readonly words: readonly Word[];
}

/** The words of one place phrase, asked by their class. */
class PlaceWords {
  /** Index of the number of places; -1 for none. */
  readonly nAt: number;
  /** Those that say which place, not what lies beside it. */
  private readonly own: readonly Word[];

  constructor(
    readonly words: readonly Word[],
    readonly text: string,
    readonly group: NamedGroup | null,
  ) {
    const between = words.findIndex((word) => word.cls === "v");
    this.own = between < 0 ? words : words.slice(0, between);
    this.nAt = this.own.findIndex(
      (word, i) => word.cls === "n" && words[i + 1]?.cls !== "R" && words[i - 1]?.cls !== "R",
    );
  }

  has(cls: string): boolean {
    return this.own.some((word) => word.cls === cls);
  }

  valueOf(cls: string): string | undefined {
    return this.own.find((word) => word.cls === cls)?.value;
  }

  get n(): Sized {
    return this.words[this.nAt]?.number ?? one;
  }

  /** `in tch`, `in turning ch`: the last place of the row. */
  get isTurning(): boolean {
    const isOther = ["X", "f", "C", "p"].some((cls) => this.has(cls));
    return this.valueOf("H") === "turning chain" && !isOther;
  }

  get row(): number | null {
    return rowIn(this.words);
  }

  /** Which place of each group is meant: `center dc`, `3rd dc`, `last dc` of it; null where it is no stitch. */
  get part(): Target["part"] | null {
    if (this.valueOf("Y") === "centre") return "middle";
    const nth = this.words.find((word) => word.cls === "o")?.number?.[0];
    if (nth) return nth;
    if (this.has("f") && this.has("S")) return 1;
    return this.has("z") && this.has("S") ? -1 : null;
  }
}

/** Binds place phrases: `in each of next 5 sts`, `to last ch-2 sp`. */
export class PlaceBinder extends RowWords {
  protected readonly choices: Choice[] = [];
  /** The row whose loops are worked into: `in leftover front loops of Rnd 2`. */
  protected onRow: number | null = null;

  protected choose(
    options: readonly string[],
    costs: readonly number[],
    more?: Pick<Choice, "habit" | "about">,
  ): number {
    this.choices.push({ options, costs, ...more });
    return this.choices.length - 1;
  }

  protected placeTakes(node: Tree, extent: boolean): Take[] {
    const cores = [
      child(node, "core"),
      ...descendants(node, "andCore").map((part) => descendants(part, "core")[0]),
    ].filter((core): core is Tree => core !== undefined);
    const takes = cores.flatMap((core) => this.coreTakes(core, extent));
    return mergeEach(takes);
  }

  protected coreTakes(core: Tree | undefined, extent = false): Take[] {
    if (!core) return [{ how: "next", n: one, of: anyStitch }];
    const group = this.groupIn(core);
    const words = this.words.slice(core.from, core.to);
    if (core.children[0]?.rule === "core_hookRun") return hookRun(words);
    const firstMade = this.firstChainMade(words);
    if (firstMade) return [firstMade];
    const inSpace = this.inChainsOf(core, words);
    if (inSpace) return [inSpace];
    const place = new PlaceWords(words, this.textOf(core), group);
    if (place.has("B") && place.row !== null) this.onRow = place.row;
    return (
      this.unlikeStitches(place) ??
      (group && this.ofGroup(words.slice(0, words.length - group.words.length), group)) ??
      hookTakes(place) ??
      this.markedOff(place) ??
      this.runOf(place, extent) ?? [this.nextOf(place)]
    );
  }

  /** `leaving the last sts unworked` says that some are left, not that one is. */
  protected leftTakes(core: Tree | undefined): Take[] {
    const words = core ? this.words.slice(core.from, core.to) : [];
    const some = words.some(({ cls }) => cls === "z") && words.every(({ cls }) => cls !== "n");
    const areSeveral = core !== undefined && /s$/i.test(this.textOf(core));
    if (some && areSeveral) return [{ how: "each", of: [anyStitch], until: null }];
    return this.coreTakes(core);
  }

  /** `ch 2, 6 sc in first ch made`: the one that is furthest from the hook. */
  private firstChainMade(words: readonly Word[]): Take | null {
    const [first, chain, made] = words;
    const isMade = first?.cls === "f" && chain?.cls === "c" && made?.value === "made";
    const opens = this.words[0]?.cls === "c" ? this.words[1]?.number : undefined;
    return isMade && opens ? { how: "from-hook", n: opens } : null;
  }

  /** `3rd ch of next ch-5 lp`, `first 2 ch of next lp`: the loop, and how many of its chains. */
  private inChainsOf(core: Tree, words: readonly Word[]): Take | null {
    const node = [...descendants(core, "ofGroup"), ...descendants(core, "ofLoop")].at(-1);
    const space = node && this.words[node.to - 1];
    if (!space || (space.cls !== "C" && space.cls !== "p")) return null;
    const head = new PlaceWords(words.slice(0, node.from - core.from), "", null);
    const said = new PlaceWords(this.words.slice(node.from, node.to), "", null);
    if (!head.has("c") && !head.has("t")) return null;
    const how = this.runOfTarget(said, spaceTarget(space, said.words), false)?.[0];
    return how ?? { how: "next", n: one, of: spaceTarget(space, said.words), chains: head.n };
  }

  /** `of next shell`, behind what is meant of it; null where no group is named. */
  private groupIn(core: Tree): NamedGroup | null {
    const node = [
      ...descendants(core, "ofGroup"),
      ...descendants(core, "ofThe"),
      ...descendants(core, "ofEach"),
    ].at(-1);
    const last = node && this.words[node.to - 1];
    const isGroup =
      last && (/[@q]/.test(last.cls) || (last.cls === "S" && isGroupName(last.value, this.context)));
    return isGroup ? { name: last.value, words: this.words.slice(node.from, core.to) } : null;
  }

  /** `center dc of next shell`, `ch-2 sp of each V-st`: which of them stands with the group or with the place. */
  private ofGroup(head: readonly Word[], group: NamedGroup): Take[] | null {
    const own = new PlaceWords(head, "", null);
    const { part } = own;
    const space = head.find((word) => word.cls === "C" || word.cls === "p");
    if (!space && part === null) return null;
    const of: Target = space
      ? { ...this.target(head), unit: group.name }
      : group.name === "corner"
        ? cornerStitch
        : { sort: "stitch", named: true, part: part ?? "middle", unit: group.name };
    const said = new PlaceWords(group.words, "", null);
    const how = /[eXfzyn]/.test(group.words.map((word) => word.cls).join("")) ? said : own;
    return this.runOfTarget(how, of, false) ?? [{ how: "next", n: how.n, of }];
  }

  /** Rings, layers, edges: what is no place of the row below. */
  private unlikeStitches(place: PlaceWords): Take[] | null {
    // `in each row end`, `in next 12 row ends`, `in the end of each of the 38 rows`
    if (place.has("2")) {
      const of: Target = { sort: "stitch", piece: rowEnds };
      const n = place.words.find(({ cls }) => cls === "n")?.number;
      return n ? [{ how: "next", n, of }] : [{ how: "each", of: [of], until: null }];
    }
    // `2 sc in each st of ring`: on its chains, not into it.
    const onRing = place.has("e") && (place.has("t") || place.has("c"));
    if (place.has("g") && !onRing) return [{ how: "nowhere" }];
    if (place.has("Z")) return [{ how: "next", n: [2], of: anyStitch }];
    if (/row ends?|ends? of (?:each )?row|side of/i.test(place.text) && !place.has("C") && !place.has("I"))
      return [{ how: "unknown", why: say`"${place.text}" cannot be counted` }];
    return null;
  }

  /** `same st`, `marked st`: one place that is told by what marks it off. */
  private markedOff(place: PlaceWords): Take[] | null {
    const inSpace = place.has("C") || place.has("p");
    if (place.has("m")) {
      const asFirst = place.has("A") && (place.has("f") || place.has("H"));
      const chains = inSpace ? this.target(place.words).chains : undefined;
      return [{ how: "same", asFirst, inSpace, chains }];
    }
    if (place.valueOf("p") === "joining loop") return [{ how: "same", inSpace }];
    switch (place.valueOf("Y")) {
      case "skipped":
        return [{ how: "nowhere", n: place.nAt >= 0 ? place.n : place.has("e") ? "skipped" : one }];
      case "marked":
        return [{ how: "marked" }];
      case "made":
        return inSpace ? [{ how: "same", inSpace }] : [{ how: "made" }];
      case "base":
        return [{ how: "same" }];
      case "top":
        return place.has("H") ? [{ how: "last", n: one, of: anyStitch, onChain: true }] : null;
      default:
        return null;
    }
  }

  /** `last 3 sts`, `each dc`, `remaining sts`. */
  private runOf(place: PlaceWords, extent: boolean): Take[] | null {
    return this.runOfTarget(place, this.target(place.words), extent);
  }

  private runOfTarget(place: PlaceWords, of: Target, extent: boolean): Take[] | null {
    // `remaining 8 sts` are so many and no others, like the last 8.
    const counted = place.has("y") && place.nAt >= 0 && /\b(?:rem\w*|left)\b/i.test(place.text);
    if (place.has("z") || counted) return [{ how: "last", n: place.n, of }];
    const open = place.nAt < 0 && !place.has("X");
    const each = open && (place.has("e") || (extent && !place.has("f")));
    return place.has("y") || each ? [{ how: "each", of: [of], until: null }] : null;
  }

  private nextOf(place: PlaceWords): Take {
    const { words, n } = place;
    const someChains = place.has("c") && place.nAt >= 0;
    if (place.has("H") && !someChains)
      return place.has("o") || place.isTurning
        ? { how: "last", n, of: anyStitch, onChain: true }
        : { how: "next", n, of: anyStitch };
    const below = words.findIndex((word) => word.cls === "b");
    const rowsBelow = below > 1 && words[below - 1]?.cls === "R";
    return {
      how: "next",
      n,
      of: this.target(words),
      ...(place.has("f") ? { first: true } : {}),
      ...("CpSt".includes(words[0]?.cls ?? "-") ? { bare: true } : {}),
      ...(rowsBelow ? { spike: this.spikeChoice() } : {}),
    };
  }

  private spikeChoice(): number {
    return this.choose(
      [
        say`the stitch stands in front of the next one, which is not worked`,
        say`the stitch takes no place of its own`,
      ],
      [0, 0.1],
    );
  }

  /** `next sp between groups`, `sp between dc`. */
  private between(space: Word, words: readonly Word[]): Target | null {
    const at = words.findIndex((word) => word.cls === "v");
    if (space.cls !== "p" || at < 0) return null;
    const isGroup = ({ cls, value }: Word): boolean =>
      cls === "@" || value === "cluster" || isGroupName(value, this.context);
    const group = words.slice(at).find(isGroup);
    return { sort: "gap", ...(group ? { unit: group.value } : {}) };
  }

  /** What the places are; a space is told by its own word, whatever stands before it. */
  protected target(words: readonly Word[]): Target {
    const piece = this.pieceIn(words);
    const row = rowIn(words);
    return {
      ...this.targetHere(words),
      ...(piece === undefined ? {} : { piece }),
      ...(row === null ? {} : { row }),
    };
  }

  /** The key of the piece that is named, with which one of several it is: `the first leg`. */
  protected pieceIn(words: readonly Word[]): string | undefined {
    const at = words.findIndex((word) => word.cls === "N" && !this.isOwnBlock(word));
    const name = words[at]?.value;
    if (name === undefined || name === otherWork || /\d$/.test(name)) return name;
    const before = words[at - 1];
    const nth = before?.cls === "f" ? 1 : before?.cls === "o" ? before.number?.[0] : undefined;
    return nth === undefined ? name : `${name} ${nth}`;
  }

  /** `previous square` in a row that begins with a block on a chain of its own is the one below, and no other motif. */
  protected isOwnBlock(word: Word): boolean {
    return word.value === otherWork && this.words.some(({ cls }) => cls === "h");
  }

  /** `next shell sp` is the space of the next shell. */
  private ofItsGroup(space: Word, words: readonly Word[]): Target | null {
    const group = space.cls === "p" ? words[words.indexOf(space) - 1] : undefined;
    const isGroup =
      group && (group.cls === "@" || (group.cls === "S" && isGroupName(group.value, this.context)));
    return isGroup ? { sort: "space", unit: group.value, part: "middle" } : null;
  }

  private targetHere(words: readonly Word[]): Target {
    const space = words.find((word) => word.cls === "C") ?? words.find((word) => word.cls === "p");
    if (space)
      return this.between(space, words) ?? this.ofItsGroup(space, words) ?? spaceTarget(space, words);
    const noun = words.find((word) => "qctS@".includes(word.cls));
    switch (noun?.cls) {
      case "q":
        return cornerStitch;
      case "c":
        return { sort: "chain" };
      case "S":
        return isGroupName(noun.value, this.context)
          ? { sort: "space", unit: noun.value, part: "middle" }
          : { sort: "stitch", named: true, kind: noun.value };
      case "@":
        return { sort: "space", unit: noun.value, part: "middle" };
      default:
        return anyStitch;
    }
  }

  protected until(node: Tree): Until | null {
    const core = child(node, "core");
    if (!core) return null;
    const words = this.words.slice(core.from, core.to);
    if (words.some((word) => word.value === "marked")) return "marked";
    const short = this.shortOf(node, words);
    if (short) return short;
    const of = this.target(words);
    const space = of.sort === "space" && !words.some((word) => word.cls === "z" || word.cls === "n");
    const nth = words.find((word) => word.cls === "o")?.number?.[0];
    if (words.some((word) => word.cls === "X") || of.corner || space)
      return nth ? { next: of, nth } : { next: of };
    const at = words.find((word) => word.cls === "n");
    // `until 6 sts remain` leaves them, `to last 6 sts` may go on.
    const remain = words.some((word) => word.cls === "y") && !words.some((word) => word.cls === "z");
    return { n: at?.number ?? one, of, ...(remain ? { remain } : {}) };
  }

  /** `to 1 st before next ch-2 sp`, `to within 2 sts of corner`. */
  private shortOf(node: Tree, words: readonly Word[]): Until | null {
    const within = /\bwithin\b/i.test(this.textOf(node));
    const at = words.findIndex(({ cls, value }) => (within ? cls === "t" : value === "beside"));
    if (at < 0 || !(within || /^before/i.test(this.textAt(words[at] as Word)))) return null;
    const behind = words.slice(at + 1);
    const n = words.slice(0, at).find(({ cls }) => cls === "n")?.number ?? one;
    const anywhere = behind.every(({ cls }) => !"tSCpqc@".includes(cls));
    return anywhere ? { n, of: anyStitch } : { next: this.target(behind), short: n };
  }
}

/** `of Rnd 4`: the row that is named; null for none. */
function rowIn(words: readonly Word[]): number | null {
  const at = words.findIndex((word) => word.cls === "R");
  return at < 0 ? null : (words[at + 1]?.number?.[0] ?? null);
}

function spaceTarget(space: Word, words: readonly Word[]): Target {
  if (space.value === "corner sp") return { sort: "space", corner: true };
  const corner = words.some((other) => other.cls === "q") ? { corner: true } : {};
  const chains = space.cls === "C" && space.number?.[0] ? { chains: space.number[0] } : {};
  const loose = space.value === "loop" && space.cls === "p" ? { loose: true } : {};
  return { sort: "space", ...chains, ...corner, ...loose };
}

/** `4th, 5th and 6th ch from hook`. */
function hookRun(words: readonly Word[]): Take[] {
  const numbers = words.flatMap(({ cls, number }) => (cls === "o" ? (number?.[0] ?? []) : []));
  const [first = 1] = numbers;
  if (numbers.some((n, i) => n !== first + i))
    return [{ how: "unknown", why: say`these chains do not follow one another` }];
  return [
    { how: "from-hook", n: [first] },
    { how: "next", n: [numbers.length - 1], of: { sort: "chain" } },
  ];
}

/** `2nd ch from hook`. */
function hookTakes(place: PlaceWords): Take[] | null {
  if (place.has("o") && (place.has("h") || place.has("c")) && !place.has("H"))
    return [{ how: "from-hook", n: place.words.find((word) => word.cls === "o")?.number ?? one }];
  return place.has("f") && place.has("h") ? [{ how: "from-hook", n: one }] : null;
}

/** `each st and each ch-1 sp`: one run over both. */
function mergeEach(takes: readonly Take[]): Take[] {
  const out: Take[] = [];
  for (const take of takes) {
    const last = out.at(-1);
    const goesOn = take.how === "next" && (take.bare === true || take.of.sort !== "stitch");
    if (last?.how === "each" && (take.how === "each" || goesOn))
      out[out.length - 1] = {
        ...last,
        of: [...last.of, ...(take.how === "each" ? take.of : targetsOf(take))],
      };
    else out.push(take);
  }
  return out;
}
