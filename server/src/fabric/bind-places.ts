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

/** Binds place phrases: `in each of next 5 sts`, `to last ch-2 sp`. */
export class PlaceBinder extends RowWords {
  protected readonly choices: Choice[] = [];
  /** The row whose loops are worked into: `in leftover front loops of Rnd 2`. */
  protected onRow: number | null = null;

  protected choose(options: readonly string[], costs: readonly number[]): number {
    this.choices.push({ options, costs });
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
    const words = this.words.slice(core.from, core.to);
    const has = (cls: string): boolean => words.some((word) => word.cls === cls);
    const text = this.textOf(core);
    if (has("g")) return [{ how: "nowhere" }];
    const rowRef = child(core.children[0] ?? core, "qual") && words.findIndex((word) => word.cls === "R");
    const nAt = words.findIndex(
      (word, i) => word.cls === "n" && words[i + 1]?.cls !== "R" && words[i - 1]?.cls !== "R",
    );
    const n = nAt >= 0 ? (words[nAt]?.number ?? one) : one;
    const of = this.target(words);
    if (has("Z")) return [{ how: "next", n: [2], of: anyStitch }];
    if (/row ends?|ends? of (?:each )?row|side of/i.test(text) && !has("C") && !has("I"))
      return [{ how: "unknown", why: `"${text}" cannot be counted` }];
    if (
      typeof rowRef === "number" &&
      rowRef >= 0 &&
      words[rowRef + 1]?.cls === "n" &&
      words.some((word) => word.cls === "B")
    )
      this.onRow = words[rowRef + 1]?.number?.[0] ?? null;
    if (has("o") && (has("h") || has("c")) && !has("H"))
      return [{ how: "from-hook", n: words.find((word) => word.cls === "o")?.number ?? one }];
    if (has("f") && has("h")) return [{ how: "from-hook", n: one }];
    if (has("m")) return [{ how: "same", asFirst: has("A") && has("f") }];
    if (has("Y")) {
      const y = words.find((word) => word.cls === "Y")?.value;
      if (y === "skipped") return [{ how: "nowhere" }];
      if (y === "marked") return [{ how: "marked" }];
      if (y === "centre" && (has("q") || /corner/.test(text)))
        return [{ how: "unknown", why: `nothing says where "${text}" is` }];
      const unit = words.find((word) => word.cls === "S" && isGroupName(word.value, this.context));
      if (y === "centre" && unit) return [{ how: "centre", unit: unit.value }];
      if (y === "base") return [{ how: "same" }];
      if (y === "top" && has("H")) return [{ how: "last", n: one, of: anyStitch }];
    }
    const each = has("e") && !has("X") && nAt < 0;
    if (has("z")) return [{ how: "last", n, of }];
    if (has("y") || (each && has("y"))) return [{ how: "each", of: [of], until: null }];
    if (has("e") && nAt < 0 && !has("X")) return [{ how: "each", of: [of], until: null }];
    if (extent && nAt < 0 && !has("X") && !has("f")) return [{ how: "each", of: [of], until: null }];
    const nth = words.findIndex((word) => word.cls === "o");
    const ofUnit = words
      .slice(nth + 2)
      .find((word) => word.cls === "S" && isGroupName(word.value, this.context));
    if (nth >= 0 && words[nth + 1]?.cls === "S" && ofUnit) return [{ how: "centre", unit: ofUnit.value }];
    if (has("H") || (has("o") && has("H"))) return [{ how: "next", n, of: anyStitch }];
    const below = words.findIndex((word) => word.cls === "b");
    const rowsBelow = below > 1 && words[below - 1]?.cls === "R";
    return [
      {
        how: "next",
        n,
        of,
        ...(has("f") ? { first: true } : {}),
        ...("CpS".includes(words[0]?.cls ?? "-") ? { bare: true } : {}),
        ...(rowsBelow
          ? {
              spike: this.choose(
                [
                  "the stitch stands in front of the next one, which is not worked",
                  "the stitch takes no place of its own",
                ],
                [0, 0.1],
              ),
            }
          : {}),
      },
    ];
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
