import type { Tree } from "../notation/tree";
import type { Sized, Word } from "../notation/words";
import { say } from "../text/say";
import { works } from "./bind-joins";
import { ProseBinder } from "./bind-prose";
import { slips } from "./bind-stated";
import { type Gathered, gather, type Named, nameLast } from "./bound-so-far";
import { harmless } from "./harmless-words";
import {
  type Instruction,
  piecesIn,
  type RowPlan,
  rowIn,
  type Take,
  type Target,
  type Times,
} from "./instructions";
import { openMarkIn } from "./open-mark";
import { intoRing, rowChoices } from "./row-choices";
import { areNoPlaces, type BindContext } from "./stitch-use";
import { child, descendants, find } from "./tree-search";
import { sortOfUnknown, worksBehindPlace } from "./unknown-words";
import { type WrongList, wrongList } from "./wrong-list";

export type { BindContext, Definition } from "./stitch-use";

const one: Sized = [1];
const anyStitch: Target = { sort: "stitch" };

/** Binds the words of a row to its tree: instructions with choice points, and the stated count. */
export function bindRow(text: string, words: readonly Word[], tree: Tree, context: BindContext): RowPlan {
  const plan = new Binder(text, words, context).row(tree);
  if (!tunisian.test(text)) return plan;
  const outOfReach = say`Tunisian rows are worked in two passes, which are not counted here`;
  return { ...plan, outOfReach, instructions: [] };
}

/** The instructions of a part of a row, which has no opening of its own; null where it is not wholly understood. */
export function bindPart(
  text: string,
  words: readonly Word[],
  tree: Tree,
  context: BindContext,
): Pick<RowPlan, "instructions" | "choices"> | null {
  return new Binder(text, words, context).part(tree);
}

const tunisian = /\b(?:tss|tks|tunisian)\b|\b(?:forward|return)(?: pass)?\s*(?::|as in)/i;

class Binder extends ProseBinder {
  private turns = false;
  /** Instructions before the yarn is cut; 0 where it is not. */
  private cutBehind = 0;

  row(tree: Tree): RowPlan {
    const instructions = this.bindAll(tree.children);
    if (this.cutBehind > 0 && instructions.slice(this.cutBehind).some(works)) {
      const why = say`the yarn is cut in the middle of it, and its parts are not counted apart`;
      this.outOfReach ??= why;
      instructions.push({ op: "skip", takes: [{ how: "unknown", why }], span: this.span(tree) });
    }
    // What only looks like prose may be all that the row says.
    if (this.passedOver !== null && !instructions.some(works) && !instructions.some(slips))
      this.outOfReach ??= say`"${this.passedOver}" is said in a way that is not understood`;
    const rest = rowChoices(instructions, this.text, this.choices, this.declared, this.context);
    return {
      text: this.text,
      instructions: rest.instructions,
      choices: rest.choices,
      stated: this.stated,
      statedSpan: this.statedSpan,
      turns: this.turns,
      joins: this.joins,
      joinsAnew: this.joinsAnew,
      unknown: this.unknown,
      outOfReach: this.outOfReach,
      wrongList: this.wrongList(),
      otherOver: this.otherOver,
      copies: null,
      onRow: this.onRow ?? rowIn(instructions),
      onPiece: piecesIn(instructions),
      mentions: this.mentions,
      openMark: openMarkIn(this.words),
      carried: rest.carried,
      foundation: rest.foundation,
      carriedDeclared: rest.carriedDeclared,
    };
  }

  /** A list with another number of entries than the pattern has sizes: nobody knows which size is meant. */
  private wrongList(): WrongList | null {
    const sizes = this.context.sizes?.length ?? 1;
    const count = this.statedSpan;
    const list = this.words.find(
      ({ number, start }) =>
        (number?.length ?? 1) > 1 && number?.length !== sizes && (count === null || start < count.start),
    );
    return sizes > 1 && list
      ? wrongList(this.text.slice(list.start, list.end), list.number?.length ?? 0, sizes)
      : null;
  }

  /** Null where prose runs on over what may instruct something. */
  part(tree: Tree): Pick<RowPlan, "instructions" | "choices"> | null {
    const instructions = this.bindAll(tree.children);
    return this.passedOver === null ? { instructions, choices: this.choices } : null;
  }

  private bindAll(nodes: readonly Tree[]): Instruction[] {
    const out: Instruction[] = [];
    for (let i = 0; i < nodes.length; i++) {
      const node = nodes[i] as Tree;
      if (this.passes(node, nodes[i + 1])) continue;
      for (const instruction of this.bind(node, out, nodes[i + 1])) {
        if (instruction.op === "remark") nameLast(out, instruction.names);
        else if (instruction.op === "gather") gather(out, instruction);
        else out.push(instruction);
      }
    }
    return out;
  }

  private bind(
    node: Tree,
    before: readonly Instruction[],
    next: Tree | undefined,
  ): (Instruction | Named | Gathered)[] {
    const only = node.children[0] as Tree;
    switch (node.rule) {
      case "trailing":
        return this.trailing(node, before);
      case "count":
        return this.count(node);
      case "ending":
        return this.ending(node);
      case "finish":
        if (!/\bnot\b|n['’]t\b/i.test(this.textOf(node))) this.cutBehind ||= before.length;
        // `Break off at end of 8th row`: when, and with what.
        this.prose = "plain";
        return [];
      case "allInto":
        return [{ op: "gather", takes: this.coreTakes(child(node, "core")), span: this.span(node) }];
      case "wherever":
        return this.wherever(node);
      case "starred":
        return this.starred(only);
      case "marked":
        return this.starred(node);
      case "daggered":
        return this.daggered(node);
      case "prefixed":
        return this.prefixed(node);
      case "group":
        return this.group(only, before);
      case "again":
        return this.again(node);
      case "slip":
        return this.slip(node, before);
      case "other":
        return this.other(node, next);
      default:
        return this.single(node, only);
    }
  }

  /** One instruction that stands for itself. */
  private single(node: Tree, only: Tree): Instruction[] {
    const span = this.span(node);
    switch (node.rule) {
      case "make":
        return this.make(only);
      case "inPattern":
        return this.inPattern(only);
      case "ringStart":
        return [this.ringStart(node)];
      case "elided":
        return this.elided(node);
      case "chain":
        return [{ op: "chain", n: this.numberIn(node), span }];
      case "skip":
        return this.skip(node);
      case "leave":
        return [{ op: "skip", takes: this.leftTakes(child(node, "core")), span }];
      case "placeFirst":
        return this.placeFirst(only, this.bracketed(only));
      case "join":
        return this.join(node);
      case "turn":
        return this.turn(node);
      case "otherSide":
        return [{ op: "other-side", span }];
      case "start": {
        const nth = find(node, (i) => this.word(i).cls === "o", this.words);
        return [{ op: "begin-at", n: this.numberAt(nth), span }];
      }
      case "marker":
        return this.marker(node);
      case "mark":
        return [{ op: "mark", span }];
      default:
        return [];
    }
  }

  /** `magic ring 6`: so many of the lowest stitch. */
  private ringStart(node: Tree): Instruction {
    const kind = this.context.terms === "UK" ? "dc" : "sc";
    const takes = [{ how: "nowhere" }] as const;
    return {
      op: "work",
      stitch: { kind, uses: 1, makes: 1 },
      per: this.numberIn(node),
      takes,
      span: this.span(node),
    };
  }

  /** `ending with …`; what is left out of a last pass is named behind `omitting`. */
  private ending(node: Tree): Instruction[] {
    const omits = this.word(node.from).value === "omit";
    if (omits) this.prose = "plain";
    return [{ op: "ending", omits, span: this.span(node) }];
  }

  // Words not understood

  private other(node: Tree, next: Tree | undefined): Instruction[] {
    const word = this.word(node.from);
    const follows = next && this.words[next.from]?.cls;
    const said = this.textAt(word).toLowerCase();
    const isWith = said === "with" || said === "using";
    const withEach = next && this.words.slice(next.from, next.to).some(({ cls }) => cls === "e");
    if (isWith && (follows === "K" || withEach)) return [];
    const counts = isWith && (follows === "S" || next?.rule === "make");
    // `magic ring with 6 sc`
    if (said === "with" && this.words[node.from - 1]?.cls === "g") return [];
    const opensSentence = node.from === 0 || /[.;]/.test(this.words[node.from - 1]?.cls ?? "");
    const atEnd = opensSentence && /^at$/i.test(word.value);
    // `(hdc, ch 2, hdc) in next st for raglan`: what it is for.
    const purpose = /^for$/i.test(word.value) && next?.rule === "other" && this.isUnheardOf(next.from);
    if (
      (word.cls === "V" && !counts) ||
      atEnd ||
      purpose ||
      word.cls === "O" ||
      (word.cls === "@" && opensSentence)
    ) {
      return this.beginProse(word, next);
    }
    // `…, last sc in top of turning ch`
    if (word.cls === "z" && next?.rule === "make") return this.beginProse(word, next);
    if (word.cls === "g") this.onRing = true;
    if (word.cls === "Z") this.layered = true;
    // `sc around, 8 rounds`
    const countsRows = word.cls === "n" && this.words[node.from + 1]?.cls === "R";
    if (countsRows || !/[\p{L}\d]/u.test(word.value) || quiet.test(word.cls)) return [];
    if (this.stated !== null) return [];
    if (harmless.has(word.value)) return [];
    const span = { start: word.start, end: word.end };
    this.unknown.push({ text: this.textAt(word), span, sort: sortOfUnknown(this.words, node.from) });
    return [{ op: "unknown", text: word.value, span }];
  }

  private isUnheardOf(i: number): boolean {
    const { cls, value } = this.word(i);
    return (cls === "w" || cls === "N" || cls === "p") && /^\p{L}/u.test(value);
  }

  // Repeats

  private starred(node: Tree): Instruction[] {
    const repeat = child(node, "repeatFrom");
    const [first, ...parts] = node.children.filter(({ rule }) => rule !== "repeatFrom" && rule !== "tail");
    // `*(4 sc), ch 20, …*`: nothing was made yet that could be counted.
    const opening = first?.rule === "count" ? this.runsOf(first) : null;
    const body = opening
      ? [...opening, ...this.bindAll(parts)]
      : this.bindAll(first ? [first, ...parts] : parts);
    const cut = body.findIndex((part) => part.op === "mark");
    const tail = child(repeat ?? node, "tail");
    const steps = body.filter((part) => part.op !== "mark");
    const cuts = cut >= 0 && repeat && child(repeat, "stopAt") ? { cut } : {};
    const times = this.times(tail, repeat !== undefined);
    return [{ op: "repeat", body: steps, times, ...cuts, span: this.span(node) }];
  }

  private daggered(node: Tree): Instruction[] {
    const again = child(node, "daggerAgain");
    const body = this.bindAll(node.children.filter((part) => part.rule !== "daggerAgain"));
    const times: Times = again ? this.times(child(again, "tail"), true) : { how: "fixed", n: one };
    return [{ op: "repeat", body, times, span: this.span(node) }];
  }

  private prefixed(node: Tree): Instruction[] {
    const [number, ...rest] = node.children;
    const inner = rest.flatMap((part) =>
      part.rule === "group" ? this.bindAll((part.children[0] as Tree).children) : this.bindAll([part]),
    );
    return [
      {
        op: "repeat",
        body: inner,
        times: { how: "fixed", n: this.numberAt((number as Tree).from) },
        span: this.span(node),
      },
    ];
  }

  /** How often: `afterFirst` tells `rep from *` (once, and then again) from a plain group. */
  private times(tail: Tree | undefined, afterFirst: boolean): Times {
    const inner = tail?.children[0];
    if (!inner) return afterFirst ? { how: "to-end", until: null } : { how: "to-end", until: null };
    if (inner.rule === "extent") return { how: "to-end", until: null };
    if (inner.rule === "toLast") return { how: "to-end", until: this.until(inner) };
    const times = child(inner, "times");
    if (times) return this.timesOf(times, afterFirst);
    return { how: "to-end", until: null };
  }

  /** A place that stands alone: "working into the chains as well". */
  private wherever(node: Tree): Instruction[] {
    const words = this.words.slice(node.from, node.to);
    const says = (classes: string): boolean => words.some(({ cls }) => classes.includes(cls));
    if (says("g")) this.onRing = true;
    if (says("Z")) this.layered = true;
    if (says("cC")) this.mentions.add("ch");
    if (worksBehindPlace(words, this.text))
      this.outOfReach ??= say`"${this.textOf(node)}" is said in a way that is not understood`;
    const piece = words.find((word) => word.cls === "N")?.value;
    return piece === undefined ? [] : [{ op: "onto", piece, span: this.span(node) }];
  }

  private again(node: Tree): Instruction[] {
    return [{ op: "repeat", body: [], times: this.times(child(node, "tail"), true), span: this.span(node) }];
  }

  // Brackets

  private group(node: Tree, before: readonly Instruction[]): (Instruction | Named)[] {
    const tail = child(node, "tail");
    const inside = node.children.filter((part) => part.rule !== "tail");
    if (!tail && this.isRemark(node, inside, before))
      return [...this.remark(node, before), ...this.sideIn(inside)];
    const body = this.bindAll(inside);
    const span = this.span(node);
    const place = tail && child(tail, "tailPlace");
    const timesPlace = tail && child(tail, "tailTimes");
    if (place) {
      const takes = this.placeTakes(child(place, "place") as Tree, child(place, "extent") !== undefined);
      const times = child(place, "times");
      const inPlace: Instruction = { op: "group", body, takes, span };
      return times ? [{ op: "repeat", body: [inPlace], times: this.timesOf(times, false), span }] : [inPlace];
    }
    const timesIn = timesPlace && child(timesPlace, "place");
    const inRing = this.isRing(timesIn);
    // `(tr, ch 1) 4 times in next sc`
    if (timesIn && !inRing) {
      const again: Instruction = { op: "repeat", body, times: this.times(tail, false), span };
      return [{ op: "group", body: [again], takes: this.placeTakes(timesIn, false), span }];
    }
    if (!tail && this.context.roundMeansPlace)
      return [{ op: "group", body, takes: [{ how: "next", n: one, of: anyStitch }], span }];
    if (!tail)
      return [
        {
          op: "repeat",
          body,
          times: {
            how: "lone",
            choice: this.choose(
              [say`the group is worked once`, say`the group is repeated to the end`],
              [0.5, 0],
            ),
          },
          span,
        },
      ];
    const times = this.times(tail, false);
    return [{ op: "repeat", body: inRing ? body.map(intoRing) : body, times, span }];
  }

  /** `(working down other side)` turns to it. */
  private sideIn(inside: readonly Tree[]): Instruction[] {
    const side = inside.find(({ rule }) => rule === "otherSide");
    return side ? [{ op: "other-side", span: this.span(side) }] : [];
  }

  private isRing(place: Tree | undefined): boolean {
    return place !== undefined && this.words.slice(place.from, place.to).some((word) => word.cls === "g");
  }

  private isRemark(node: Tree, inside: readonly Tree[], before: readonly Instruction[]): boolean {
    const words = this.words.slice(node.from + 1, node.to - 1);
    if (
      words.some(
        (word) =>
          word.cls === "D" ||
          word.cls === "w" ||
          word.cls === "=" ||
          word.cls === "K" ||
          word.cls === "u" ||
          word.value === "made" ||
          word.cls === "V",
      )
    )
      return true;
    if (
      !inside.some((part) =>
        ["make", "chain", "starred", "group", "skip", "slip", "prefixed"].includes(part.rule),
      )
    )
      return true;
    const last = before.at(-1);
    // `1 dc in next tr (centre of shell)` says which.
    const places = /[YXfzmy]/.test(words[0]?.cls ?? "-") && words.every(({ cls }) => cls !== "n");
    if (last?.op === "work" && places) return true;
    // `3 dc in last st (3rd ch of tch)`: the place told once more.
    const tells = words.some(({ cls }) => cls === "H") && words.some(({ cls }) => cls === "o" || cls === "Y");
    if (last?.op === "work" && tells && words.every(({ cls }) => cls !== "S")) return true;
    return last?.op === "work" && words.every((word) => word.cls === "S") && words.length === 1
      ? true
      : last?.op === "work" && last.stitch.special === true;
  }

  private bracketed(node: Tree): Instruction[] | null {
    const bracket = child(node, "bracketed");
    return bracket ? this.bindAll(bracket.children) : null;
  }

  private skip(node: Tree): Instruction[] {
    const what = child(node, "skipWhat");
    const span = this.span(node);
    const number = what && child(what, "number");
    const toLast = child(node, "toLast");
    // `skip all sts to next ch-2 sp`
    if (toLast)
      return [{ op: "skip", takes: [{ how: "each", of: [anyStitch], until: this.until(toLast) }], span }];
    if (!what) return [{ op: "skip", takes: [{ how: "next", n: one, of: anyStitch }], span }];
    if (number)
      return [{ op: "skip", takes: [{ how: "next", n: this.numberAt(number.from), of: anyStitch }], span }];
    const list = child(what, "skipList");
    if (list) return [{ op: "skip", takes: this.placesMade(list), span }];
    const places = child(what, "skipPlaces") as Tree;
    const words = this.words.slice(places.from, places.to);
    if (words.some((word) => word.cls === "b") || words.some((word) => word.cls === "l")) return [];
    if (words.some((word) => word.cls === "m" || word.value === "base")) return [];
    if (areNoPlaces(words, this.context)) return [];
    const cores = [
      child(places, "core"),
      ...descendants(places, "andCore").map((part) => descendants(part, "core")[0]),
    ];
    const takes = cores.flatMap((core) => this.coreTakes(core));
    const isSaid = words.some(({ cls }) => "Xfzey".includes(cls));
    const [take] = takes;
    // `miss 1 tr`: which one is not said.
    if (!isSaid && takes.length === 1 && take?.how === "next")
      return [{ op: "skip", takes: [{ ...take, unplaced: true }], span }];
    return [{ op: "skip", takes, span }];
  }

  /** `sk (2 sc, ch 3, 2 sc)`: what the row below made there, one after another. */
  private placesMade(list: Tree): Take[] {
    return this.bindAll(list.children).flatMap((one): Take[] => {
      if (one.op === "chain") return [{ how: "next", n: [1], of: { sort: "space" } }];
      if (one.op !== "work")
        return [{ how: "unknown", why: say`"${this.textOf(list)}" is not understood here` }];
      const [take] = one.takes;
      const n = take?.how === "next" ? take.n : null;
      return n === null || one.stitch.makes === 0 ? [] : [{ how: "next", n, of: anyStitch }];
    });
  }

  private turn(node: Tree): Instruction[] {
    const span = this.span(node);
    if (child(node, "turnSide")) return [{ op: "other-side", span }];
    const text = this.textOf(node);
    if (/not|n['’]t/i.test(text)) return [];
    this.turns = true;
    return [{ op: "turn", span }];
  }

  private marker(node: Tree): Instruction[] {
    const span = this.span(node);
    const worked = child(node, "markerWorked");
    if (!worked) return [{ op: "mark", span }];
    const stitch = this.use(worked);
    return [
      { op: "mark", span },
      { op: "work", stitch, per: one, takes: [{ how: "next", n: one, of: anyStitch }], span },
    ];
  }
}

/** Word classes that say nothing to count. */
const quiet = /[!/gAKGNxBRFOWMsJ&aydvqhb=%DQTfzmeXYELuZ]/;
