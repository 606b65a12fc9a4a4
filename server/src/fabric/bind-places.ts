import type { Tree } from "../notation/tree";
import type { Sized, Word } from "../notation/words";
import type { Span } from "../text/span";
import { stitchOf } from "../trade/stitches";
import type { Choice, Take, Target, Until } from "./instructions";
import { type BindContext, isGroupName } from "./stitch-use";
import { child, descendants, find } from "./tree-search";

const one: Sized = [1];
const anyStitch: Target = { sort: "stitch" };

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
    const { start, end } = this.span(tree);
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

/** The words of one place phrase, asked by their class. */
class PlaceWords {
  /** Index of the number of places; -1 for none. */
  readonly nAt: number;

  constructor(
    readonly words: readonly Word[],
    readonly text: string,
  ) {
    this.nAt = words.findIndex(
      (word, i) => word.cls === "n" && words[i + 1]?.cls !== "R" && words[i - 1]?.cls !== "R",
    );
  }

  has(cls: string): boolean {
    return this.words.some((word) => word.cls === cls);
  }

  valueOf(cls: string): string | undefined {
    return this.words.find((word) => word.cls === cls)?.value;
  }

  get n(): Sized {
    return this.words[this.nAt]?.number ?? one;
  }

  /** `of Rnd 4`: the row that is named; null for none. */
  get row(): number | null {
    const at = this.words.findIndex((word) => word.cls === "R");
    return at < 0 ? null : (this.words[at + 1]?.number?.[0] ?? null);
  }
}

/** Binds place phrases: `in each of next 5 sts`, `to last ch-2 sp`. */
export class PlaceBinder extends RowWords {
  protected readonly choices: Choice[] = [];
  /** The row whose loops are worked into: `in leftover front loops of Rnd 2`. */
  protected onRow: number | null = null;

  protected choose(options: readonly string[], costs: readonly number[], habit?: Choice["habit"]): number {
    this.choices.push({ options, costs, ...(habit ? { habit } : {}) });
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
    const place = new PlaceWords(this.words.slice(core.from, core.to), this.textOf(core));
    if (place.has("B") && place.row !== null) this.onRow = place.row;
    return (
      this.unlikeStitches(place) ??
      hookTakes(place) ??
      this.markedOff(place) ??
      this.runOf(place, extent) ?? [this.nextOf(place)]
    );
  }

  /** Rings, layers, edges: what is no place of the row below. */
  private unlikeStitches(place: PlaceWords): Take[] | null {
    if (place.has("g")) return [{ how: "nowhere" }];
    if (place.has("Z")) return [{ how: "next", n: [2], of: anyStitch }];
    if (/row ends?|ends? of (?:each )?row|side of/i.test(place.text) && !place.has("C") && !place.has("I"))
      return [{ how: "unknown", why: `"${place.text}" cannot be counted` }];
    return null;
  }

  /** `same st`, `marked st`, `center dc of shell`: one place that is told by what marks it off. */
  private markedOff(place: PlaceWords): Take[] | null {
    if (place.has("m")) return [{ how: "same", asFirst: place.has("A") && place.has("f") }];
    const unit = place.words.find((word) => word.cls === "S" && isGroupName(word.value, this.context));
    switch (place.valueOf("Y")) {
      case "skipped":
        return [{ how: "nowhere" }];
      case "marked":
        return [{ how: "marked" }];
      case "centre":
        if (/corner/i.test(place.text))
          return [{ how: "unknown", why: `nothing says where "${place.text}" is` }];
        return unit ? [{ how: "centre", unit: unit.value }] : null;
      case "base":
        return [{ how: "same" }];
      case "top":
        return place.has("H") ? [{ how: "last", n: one, of: anyStitch }] : null;
      default:
        return null;
    }
  }

  /** `last 3 sts`, `each dc`, `remaining sts`. */
  private runOf(place: PlaceWords, extent: boolean): Take[] | null {
    const of = this.target(place.words);
    if (place.has("z")) return [{ how: "last", n: place.n, of }];
    const open = place.nAt < 0 && !place.has("X");
    const each = open && (place.has("e") || (extent && !place.has("f")));
    return place.has("y") || each ? [{ how: "each", of: [of], until: null }] : null;
  }

  private nextOf(place: PlaceWords): Take {
    const { words, n } = place;
    const nth = words.findIndex((word) => word.cls === "o");
    const ofUnit = words
      .slice(nth + 2)
      .find((word) => word.cls === "S" && isGroupName(word.value, this.context));
    if (nth >= 0 && words[nth + 1]?.cls === "S" && ofUnit) return { how: "centre", unit: ofUnit.value };
    if (place.has("H")) return { how: "next", n, of: anyStitch };
    const below = words.findIndex((word) => word.cls === "b");
    const rowsBelow = below > 1 && words[below - 1]?.cls === "R";
    return {
      how: "next",
      n,
      of: this.target(words),
      ...(place.has("f") ? { first: true } : {}),
      ...("CpS".includes(words[0]?.cls ?? "-") ? { bare: true } : {}),
      ...(rowsBelow ? { spike: this.spikeChoice() } : {}),
    };
  }

  private spikeChoice(): number {
    return this.choose(
      [
        "the stitch stands in front of the next one, which is not worked",
        "the stitch takes no place of its own",
      ],
      [0, 0.1],
    );
  }

  protected target(words: readonly Word[]): Target {
    const unitAt = words.findIndex((word, i) => word.cls === "S" && words[i - 1]?.cls === "e" && i > 1);
    const unit = unitAt >= 0 ? { unit: words[unitAt]?.value ?? "" } : {};
    for (const word of words) {
      if (word.cls === "C")
        return {
          sort: "space",
          ...(word.number?.[0] ? { chains: word.number[0] } : {}),
          ...(words.some((other) => other.cls === "q") ? { corner: true } : {}),
          ...unit,
        };
      if (word.cls === "p" && word.value === "corner sp") return { sort: "space", corner: true };
      if (word.cls === "p")
        return words.some((other) => other.cls === "v") ? { sort: "gap" } : { sort: "space" };
      if (word.cls === "q") return { sort: "stitch", named: true };
      if (word.cls === "c") return { sort: "chain" };
      if (word.cls === "t") return { sort: "stitch" };
      if (word.cls === "S") {
        const stitch = stitchOf(word.value, this.context.terms);
        const grouped = stitch?.family === "shell" || stitch?.family === "v-stitch";
        return grouped ? { sort: "space", unit: word.value } : { sort: "stitch", named: true };
      }
    }
    return { sort: "stitch" };
  }

  protected until(node: Tree): Until | null {
    const core = child(node, "core");
    if (!core) return null;
    const words = this.words.slice(core.from, core.to);
    if (words.some((word) => word.value === "marked")) return "marked";
    const of = this.target(words);
    const corner = words.some((word) => word.cls === "q" || word.value === "corner sp");
    const space = of.sort === "space" && !words.some((word) => word.cls === "z" || word.cls === "n");
    if (words.some((word) => word.cls === "X") || corner || space) return "space";
    const at = words.find((word) => word.cls === "n");
    return { n: at?.number ?? one, of };
  }
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
    if (last?.how === "each" && (take.how === "each" || (take.how === "next" && take.of.sort !== "stitch")))
      out[out.length - 1] = { ...last, of: [...last.of, ...(take.how === "each" ? take.of : [take.of])] };
    else out.push(take);
  }
  return out;
}
