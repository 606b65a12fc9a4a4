import type { Tree } from "../notation/tree";
import type { Sized, Word } from "../notation/words";
import { ListBinder } from "./bind-lists";
import { cornerStitch, otherWork } from "./bind-places";
import type { Instruction, StatedTerm, Take, Target } from "./instructions";
import { stitchUse } from "./stitch-use";
import { child, descendants } from "./tree-search";

const one: Sized = [1];
const anyStitch: Target = { sort: "stitch" };

/** Binds slip stitches and joins: which of them travel, which close a round, which hold other work. */
export class JoinBinder extends ListBinder {
  protected stated: readonly StatedTerm[] | null = null;
  protected joins = false;
  /** New yarn is joined at the start of the row, at a place that is told. */
  protected joinsAnew = false;

  protected slip(node: Tree, before: readonly Instruction[]): Instruction[] {
    if (this.stated !== null) return [];
    const span = this.span(node);
    if (this.holdsOtherWork(node) || (before.some(works) && this.isOnRow(node))) return [{ op: "tie", span }];
    if (this.closesRound(node, before)) {
      this.joins = true;
      return [];
    }
    const takes = node.children
      .flatMap((part) => part.children)
      .flatMap((part) => (part.rule === "slipTo" ? [part] : part.rule === "where" ? part.children : []))
      .flatMap((place, _, all): Take[] =>
        // `ss across to first corner sp` leads there.
        place.rule === "extent" && all.length > 1
          ? []
          : place.rule === "extent"
            ? [{ how: "each", of: [anyStitch], until: null }]
            : this.placeTakes(place, false),
      );
    if (takes.length > 0) return [{ op: "slip", takes, span }];
    const times = descendants(node, "slipTimes")[0] ?? child(node, "number");
    const n = times ? this.timesNumber(times) : one;
    return [{ op: "slip", takes: [{ how: "next", n, of: anyStitch }], span }];
  }

  /** `sl st in ch-2 sp of previous motif`: it uses nothing of this one. */
  private holdsOtherWork(node: Tree): boolean {
    return this.words
      .slice(node.from, node.to)
      .some(
        (word) =>
          (word.cls === "N" && !this.isOwnBlock(word)) || (word.cls === "Y" && word.value === "facing"),
      );
  }

  /** `sl st in next 2 sc of 25th rnd`, behind the stitches of a cuff: it is held there. */
  private isOnRow(node: Tree): boolean {
    return descendants(node, "ofRow").length > 0;
  }

  /** `sl st to first sc`, `in 3rd ch of ch-4`, `to join`. */
  private closesRound(node: Tree, before: readonly Instruction[]): boolean {
    if (descendants(node, "slipJoin").length > 0) return true;
    const [place] = [...descendants(node, "slipTo"), ...descendants(node, "place")];
    const words = place ? this.words.slice(place.from, place.to) : [];
    const has = (cls: string): boolean => words.some((word) => word.cls === cls);
    if (has("C") || has("p") || has("h")) return false;
    if (words.some((word) => word.cls === "Y" && word.value === "top") || has("Q")) return true;
    if (has("o") && has("H")) return true;
    const begun = place?.rule === "slipTo" || before.some(works);
    return has("f") && (has("S") || has("t")) && begun && !has("n");
  }

  protected join(node: Tree): Instruction[] {
    const words = this.words.slice(node.from, node.to);
    const isAnew =
      words.some(isNewYarn) &&
      !words.some(({ value }) => value === "any") &&
      !this.words.slice(0, node.from).some(({ cls }) => "ScH".includes(cls));
    if (isAnew) this.joinsAnew = true;
    else this.joins = true;
    const has = (cls: string): boolean => words.some((word) => word.cls === cls);
    const rowAt = words.findIndex((word) => word.cls === "R");
    const row = rowAt < 0 ? null : rowNamed(words, rowAt);
    if (row !== null && (has("B") || has("b") || words[rowAt - 1]?.cls !== "i")) this.onRow = row;
    if (has("I")) return [{ op: "other-side", span: this.span(node) }];
    const piece = words.some(({ value }) => value === otherWork) ? otherWork : this.pieceIn(words);
    if (piece === otherWork) return [{ op: "tie", span: this.span(node) }];
    // `join the arms: …` says what the row is for.
    if (piece !== undefined && !has("O") && this.isSeveral(words)) return [];
    if (piece !== undefined)
      return this.joinedTo(
        piece,
        words.find((word) => word.cls === "S"),
        node,
      );
    const chain = words.findIndex((word, i) => word.cls === "c" && words[i + 1]?.cls === "n");
    const first = words.findIndex(({ cls }) => "lSOiYH".includes(cls));
    if (chain > 0 && (first < 0 || chain < first))
      return [{ op: "chain", n: words[chain + 1]?.number ?? one, span: this.span(node) }];
    const placed = words.findIndex((word) => word.cls === "i");
    // `join B to any 3ch sp`
    if (placed < 0) return this.anewInSpace(node, words) ?? [];
    const intoRing = has("g") && !has("S");
    if (intoRing) return [{ op: "ring", span: this.span(node) }];
    return this.standsOn(node, words) ?? this.anewInSpace(node, words.slice(placed)) ?? [];
  }

  private isSeveral(words: readonly Word[]): boolean {
    return words.some(({ cls, start, end }) => cls === "N" && /s$/i.test(this.text.slice(start, end)));
  }

  /** `join B with sc in any corner sp`: the stitch it joins with is the first of the row. */
  private standsOn(node: Tree, words: readonly Word[]): Instruction[] | null {
    const stitchAt = words.findIndex((word) => word.cls === "S");
    const standing = words.some((word) => word.cls === "d");
    if (!standing && !this.joinsWithStitch(words, stitchAt)) return null;
    const toAt = words.findIndex((word) => word.cls === "O");
    const anew = standing || words.some(isNewYarn) || words.some(({ value }) => value === "any");
    if (stitchAt < 0 || (toAt >= 0 && toAt < stitchAt) || !anew) return [];
    const stitch = stitchUse((words[stitchAt] as Word).value, this.context, null);
    if (!stitch) return [];
    this.lastStitch = stitch;
    return [{ op: "work", stitch, per: one, takes: [this.placeOf(node, words)], span: this.span(node) }];
  }

  /** `join to leg 1 with a sc`: the work goes on there, with its first stitch where one is named. */
  private joinedTo(piece: string, word: Word | undefined, node: Tree): Instruction[] {
    const span = this.span(node);
    const stitch = word && stitchUse(word.value, this.context, null);
    const onto: Instruction = { op: "onto", piece, span };
    if (!stitch) return [onto];
    const takes: Take[] = [{ how: "next", n: one, of: { sort: "stitch", piece } }];
    return [onto, { op: "work", stitch, per: one, takes, span }];
  }

  /** Where the row begins: what the place says of itself, not which of its kind it is. */
  private placeOf(node: Tree, words: readonly Word[]): Take {
    const place = child(node, "joinPlace");
    const [take] = place ? this.coreTakes(child(place, "core")) : [];
    if (take?.how === "next") return { how: "next", n: one, of: take.of };
    if (take?.how === "nowhere" || words.some(({ cls }) => cls === "g")) return { how: "nowhere" };
    const inSpace = words.some(({ cls }) => cls === "C" || cls === "p");
    return { how: "next", n: one, of: inSpace ? { sort: "space" } : anyStitch };
  }

  private joinsWithStitch(words: readonly Word[], stitchAt: number): boolean {
    const stitch = words[stitchAt];
    if (!stitch || stitchAt === 0) return false;
    const before = this.text.slice(0, stitch.start);
    return /\bwith (?:an? )?$/i.test(before);
  }

  /** `join yarn in any ch-2 sp`: the row begins there. */
  private anewInSpace(node: Tree, words: readonly Word[]): Instruction[] | null {
    const space = words.find(({ cls }) => "Cpq".includes(cls));
    const all = this.words.slice(node.from, node.to);
    if (!space || !all.some(isNewYarn)) return null;
    const chains = space.cls === "C" ? space.number?.[0] : undefined;
    const of: Target = space.cls === "q" ? cornerStitch : { sort: "space", ...(chains ? { chains } : {}) };
    return [{ op: "slip", takes: [{ how: "next", n: one, of }], span: this.span(node) }];
  }
}

/** `of Rnd 3`, `of 1st round`. */
function rowNamed(words: readonly Word[], at: number): number | null {
  const before = words[at - 1];
  if (before?.cls === "f") return 1;
  return words[at + 1]?.number?.[0] ?? (before?.cls === "o" ? (before.number?.[0] ?? null) : null);
}

function isNewYarn(word: Word): boolean {
  return word.cls === "K" || word.cls === "w" || word.value === "new yarn";
}

/** Whether an instruction makes stitches. */
export function works(instruction: Instruction): boolean {
  if (instruction.op === "repeat" || instruction.op === "group") return instruction.body.some(works);
  if (instruction.op === "either") return instruction.options.some((option) => option.some(works));
  return instruction.op === "work";
}
