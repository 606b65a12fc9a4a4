import type { Tree } from "../notation/tree";
import type { Sized } from "../notation/words";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { SequenceBinder } from "./bind-sequences";
import type { Named } from "./bound-so-far";
import type { Instruction, StitchUse, Take, Target, Times } from "./instructions";
import { stitchUse } from "./stitch-use";
import {
  isCountedOff,
  isLoopOnly,
  isWholePiece,
  markSigned,
  onto,
  shapes,
  spread,
  withUntil,
  workedOver,
} from "./takes";
import { child, find } from "./tree-search";
import type { UnknownWord } from "./unknown-words";

const one: Sized = [1];
const anyStitch: Target = { sort: "stitch" };

/** A stitch with the words about it. */
interface Make {
  readonly node: Tree;
  readonly span: Span;
  readonly stitch: StitchUse;
  readonly count: Sized | null;
  /** The count stands before the stitch: `2 dc`, not `dc 2`. */
  readonly leads: boolean;
  readonly wheres: readonly Tree[];
}

const edgeAhead = /^\s*(?:(?!other|opposite)\w+\s+)?(?:edges?|row[- ]ends?|sides?)\b/i;
/** `45 dc around neck` */
const openingAhead = /^\s*(?:(?:the|back|front)\s+)*(?:neck(?:line| edge)?|arm ?holes?|hem|cuffs?)\b/i;

/** Binds stitches with how many of them, where, and how often. */
export class StitchBinder extends SequenceBinder {
  protected readonly unknown: UnknownWord[] = [];
  protected readonly mentions = new Set<string>();
  protected lastStitch: StitchUse | null = null;
  /** A ring was named and nothing worked into it yet. */
  protected onRing = false;
  /** `Working through both thicknesses` was said of all that follows. */
  protected layered = false;
  private layers: number | null = null;
  protected declared: { from: number; counts: "yes" | "no"; space: number; kind: string | null } | null =
    null;

  protected timesOf(node: Tree, afterFirst: boolean): Times {
    const n = this.timesNumber(node);
    const text = this.textOf(node);
    const more = this.words.slice(node.from, node.to).some((word) => word.cls === "M");
    const all = this.words.slice(node.from, node.to).some((word) => word.cls === "s") && !more;
    if (more && afterFirst) return { how: "fixed", n: n.map((value) => (value === null ? null : value + 1)) };
    if (!afterFirst || all || /^x/i.test(text)) return { how: "fixed", n };
    const settled = this.context.conventions.timesMeans;
    if (settled === "in-all") return { how: "fixed", n };
    if (settled === "more") return { how: "fixed", n: n.map((value) => (value === null ? null : value + 1)) };
    const shown = n.join("/");
    const choice = this.choose(
      [say`"${text.trim()}" means ${shown} times in all`, say`"${text.trim()}" means ${shown} more times`],
      [0, 0],
      { habit: { topic: "times", means: ["in all", "more"] }, about: { said: text.trim(), n: shown } },
    );
    return { how: "doubtful", n, choice };
  }

  /** What a remark says of the instruction before it. */
  protected remark(node: Tree, before: readonly Instruction[]): Named[] {
    const text = this.textOf(node);
    const last = before.at(-1);
    if (/count/i.test(text)) {
      const counts = /\b(?:not|never)\b|n['’]t\b/i.test(text) ? "no" : "yes";
      const space = /(?:and|,|\+|plus)\s*(?:a )?(?:ch\.?[\s-]*(\d+)|(\d+)\s*ch)/i.exec(text);
      const kind = this.words.slice(node.from, node.to).find((word) => word.cls === "S")?.value ?? null;
      this.declared ??= {
        from: this.word(node.from).start,
        counts,
        space: Number(space?.[1] ?? space?.[2] ?? 0),
        kind,
      };
      if (/beside|no place|does not take/i.test(text))
        this.declared = { ...this.declared, from: -1 - this.declared.from };
    }
    const made =
      /\(\s*(?:first |1st |next |last |beg(?:inning)? |starting )?([\w-]+)\s+(?:made|completed)/i.exec(text);
    return made && last ? [{ op: "remark", names: (made[1] as string).toLowerCase() }] : [];
  }

  protected use(node: Tree): StitchUse {
    const at = find(node, (i) => this.word(i).cls === "S", this.words);
    const word = this.word(at).value;
    this.mentions.add(word);
    const use = stitchUse(word, this.context, this.lastStitch);
    if (use === null)
      this.unknown.push({
        text: this.text.slice(this.word(at).start, this.word(at).end),
        span: this.word(at),
        sort: "stitch",
      });
    if (use && !/^(inc|dec|invdec)$/.test(word)) this.lastStitch = use;
    return use ?? { kind: word, uses: 1, makes: 1 };
  }

  protected make(node: Tree): Instruction[] {
    const span = this.span(node);
    const leading = node.rule === "make_number" ? this.numberAt((child(node, "number") as Tree).from) : null;
    const stitchNode = child(node, "stitch") as Tree;
    const sequence = this.sequenceOf(stitchNode);
    if (sequence) return this.inSequence(sequence, node);
    const stitch = this.use(stitchNode);
    const timesNode = child(node, "makeTimes");
    const behind = timesNode ? this.timesNumber(timesNode) : null;
    const wheres = node.children
      .filter((part) => part.rule === "where")
      .map((part) => part.children[0] as Tree);
    const again = wheres.find((part) => part.rule === "times");
    const made = this.makeIn({
      node,
      span,
      stitch,
      count: leading ?? behind,
      leads: leading !== null,
      wheres,
    });
    if (timesNode && child(timesNode, "times")) markSigned(made);
    const out = this.layered && !made.some(({ op }) => op === "either") ? this.throughLayers(made) : made;
    return again ? [{ op: "repeat", body: out, times: this.timesOf(again, false), span }] : out;
  }

  /** `work in pattern to last 5 sts`, `patt 20`: as many stitches as there are places, of whatever kind. */
  protected inPattern(node: Tree): Instruction[] {
    const stitch: StitchUse = { kind: "st", uses: 1, makes: 1 };
    const count = child(node, "number") ? this.numberIn(node) : null;
    const wheres = node.children
      .filter((part) => part.rule === "patternWhere")
      .map((part) => part.children[0] as Tree);
    return this.makeIn({ node, span: this.span(node), stitch, count, leads: count !== null, wheres });
  }

  private makeIn(make: Make): Instruction[] {
    return (
      this.heldByStitch(make) ??
      this.withPiece(make) ??
      this.atEnds(make) ??
      this.onEdge(make) ??
      this.spreadEvenly(make) ??
      this.alongSide(make) ??
      this.alongChain(make) ??
      this.inPlaces(make) ??
      this.toEnd(make) ??
      this.inRing(make) ?? [this.inARow(make)]
    );
  }

  /** `sc in corner sp of Square 1`: it holds another motif, as a slip stitch would. */
  private heldByStitch({ node, stitch, count, span }: Make): Instruction[] | null {
    const words = this.words.slice(node.from, node.to);
    const elsewhere =
      words.some(({ cls }) => cls === "N") && words.some(({ cls }) => cls === "C" || cls === "p");
    const low = stitch.kind === (this.context.terms === "UK" ? "dc" : "sc");
    return elsewhere && low && count === null ? [{ op: "tie", span }] : null;
  }

  /** Along row ends, or on another piece: nothing tells how many places there are. */
  private onEdge({ node, span, stitch, count, wheres }: Make): Instruction[] | null {
    const behind = this.text.slice(span.end, span.end + 40);
    const alongEdge =
      (wheres.some((part) => part.rule === "place") && edgeAhead.test(behind)) ||
      (wheres.some((part) => part.rule === "extent") && openingAhead.test(behind));
    const onPiece =
      wheres.some((part) => this.words.slice(part.from, part.to).some((word) => word.cls === "N")) &&
      !/\d+ (?:\p{L}+ )?(?:sts?|sc|dc|ch)\b|\beach\b/iu.test(this.text.slice(span.start + 3, span.end)) &&
      !wheres.some((part) => isWholePiece(part) && (count !== null || this.isAround(part)));
    if (!alongEdge && !onPiece) return null;
    const why = say`"${this.textOf(node)}" is worked on an edge that cannot be counted`;
    this.outOfReach = why;
    // `in each row end`, `along each edge`: nor is it known how often.
    const known = count !== null && !this.words.slice(node.from, node.to).some((word) => word.cls === "e");
    const take: Take = known ? { how: "nowhere" } : { how: "unknown", why };
    return [{ op: "work", stitch, per: count ?? one, takes: [take], span }];
  }

  private spreadEvenly(make: Make): Instruction[] | null {
    const evenly = make.wheres.some((part) => part.rule === "evenly") || this.isEvenly(make.wheres);
    if (!evenly) return null;
    // `dec 1 sc at center` is one.
    const once = this.words.slice(make.node.from, make.node.to).some(({ value }) => value === "somewhere");
    return this.evenly(make.stitch, make.count ?? (once ? one : null), make.span, make.node);
  }

  /** `inc 1 st at each end`: what the rest of the row works over, with so many more. */
  private atEnds({ stitch, count, wheres, node, span }: Make): Instruction[] | null {
    if (!wheres.some((part) => part.rule === "atEnds")) return null;
    const word = this.words.slice(node.from, node.to).find((part) => part.cls === "S")?.value ?? "";
    const more = /inc$/.test(word) ? 1 : stitch.uses > stitch.makes ? stitch.makes - stitch.uses : 0;
    if (more === 0) return null;
    return [{ op: "ends", more, n: count ?? one, span }];
  }

  /** `3 sc along other side of chain`: first there, then the stitches. */
  private alongSide(make: Make): Instruction[] | null {
    const side = make.wheres.find((part) => part.rule === "onSide");
    if (!side) return null;
    const { stitch, count, span } = make;
    const wheres = make.wheres.filter((part) => part !== side);
    const turned: Instruction = { op: "other-side", span: this.span(side) };
    const before = this.text.slice(make.span.start, this.word(side.from).start);
    // `3 sc in last ch working on other side`: the stitches come before the turn.
    if (/\bwork/i.test(before)) return [...this.makeIn({ ...make, wheres }), turned];
    if (wheres.length > 0) return [turned, ...this.makeIn({ ...make, wheres })];
    const takes: Take[] = [{ how: "next", n: count ?? one, of: { sort: "chain" } }];
    const work: Instruction = { op: "work", stitch, per: one, takes, span };
    return this.words.some((word) => word.cls === "N") ? [work] : [turned, work];
  }

  /** `24 hdc from 2nd ch from hook`: one in each chain, that one first. */
  private alongChain({ stitch, count, wheres, span }: Make): Instruction[] | null {
    const from = wheres.find((part) => part.rule === "fromChain");
    if (!from) return null;
    const first = this.numberAt(find(from, (i) => this.word(i).cls === "o", this.words));
    const more = (count ?? one).map((n) => (n === null ? null : n - 1));
    const takes: Take[] = [
      { how: "from-hook", n: first },
      { how: "next", n: more, of: { sort: "chain" } },
    ];
    return [{ op: "work", stitch, per: one, takes, span }];
  }

  /** `2 dc in next st`, `sc in each st to last 2`. */
  private inPlaces(make: Make): Instruction[] | null {
    const { stitch, span, wheres } = make;
    for (const part of wheres) if (part.rule === "resumed") this.remark(child(part, "aside") as Tree, []);
    const places = wheres
      .filter((part) => ["place", "loopPlace", "resumed", "folded"].includes(part.rule))
      .filter((part) => !isLoopOnly(part));
    const [first] = places;
    if (!first) return null;
    const extent = wheres.some((part) => part.rule === "extent");
    const found = this.onWholePiece(make) ?? places.flatMap((part) => this.placeTakes(part, extent));
    // `10 sc along side of heel`: so many, wherever they go.
    const [only, second] = found;
    if (only?.how === "unknown" && !second && make.count !== null && !this.saysEach(make)) {
      this.outOfReach ??= only.why;
      return [{ op: "work", stitch, per: make.count, takes: [{ how: "nowhere" }], span }];
    }
    const toLast = wheres.find((part) => part.rule === "toLast");
    const takes = toLast ? withUntil(found, this.until(toLast)) : found;
    const per = found.some(isCountedOff) ? one : (make.count ?? one);
    return this.inOddPlaces(make, first, takes) ?? [{ op: "work", stitch, per, takes, span }];
  }

  private saysEach({ node }: Make): boolean {
    return this.words.slice(node.from, node.to).some(({ cls }) => cls === "e" || cls === "E");
  }

  /** `5 sc through arm and body together`: another piece is held behind, the places are those of this one. */
  private withPiece(make: Make): Instruction[] | null {
    const held = make.wheres.filter((part) => {
      const pieces = this.words.slice(part.from, part.to).filter((word) => word.cls === "N");
      return (
        part.rule === "alongWith" ||
        pieces.length > 1 ||
        (pieces.length > 0 && /\b(?:through|together)\b/i.test(this.textOf(part)))
      );
    });
    if (held.length === 0) return null;
    return this.makeIn({ ...make, wheres: make.wheres.filter((part) => !held.includes(part)) });
  }

  /** `14 sc on first leg`, `sc around leg 2`, `4 sc on chain`: so many of its places, or all of them. */
  private onWholePiece({ wheres, count }: Make): Take[] | null {
    const part = wheres.find((one) => isWholePiece(one) || this.isBridge(one));
    if (!part) return null;
    const of = this.target(this.words.slice(part.from, part.to));
    const others = wheres.filter((one) => one !== part && one.rule === "place");
    // `in each st around first leg`: the piece is told apart from the places.
    if (others.length > 0)
      return others.flatMap((one) => this.placeTakes(one, false)).map((take) => onto(take, of.piece));
    return count === null
      ? [{ how: "each", of: [of], until: null }]
      : [{ how: "next", n: count, of, countedOff: true }];
  }

  /** `on chain`, in a row that joins pieces. */
  private isBridge(part: Tree): boolean {
    const isChain = this.words
      .slice(part.from, part.to)
      .every((word) => word.cls === "i" || word.cls === "c");
    return part.rule === "place" && isChain && this.words.some((word) => word.cls === "N");
  }

  private isAround(part: Tree): boolean {
    return this.word(part.from).value === "around";
  }

  /** Places that a stitch takes otherwise than one by one. */
  private inOddPlaces(make: Make, first: Tree, takes: readonly Take[]): Instruction[] | null {
    const { node, stitch, span } = make;
    const per = make.count ?? one;
    const words = this.words.slice(node.from, node.to);
    const next = { how: "next", n: one, of: anyStitch } as const;
    if (words.some((word) => word.cls === "E")) return this.everyOther(stitch, per, span);
    const nth = words.find((word, i) => word.cls === "o" && words[i - 1]?.cls === "e")?.number?.[0];
    if (nth && shapes(words)) return this.everyNth(stitch, per, nth, span);
    if (words.some((word) => word.cls === "Z")) return this.throughLayers([this.besidesLayers(make)]);
    if (stitch.family === "over" && /^over\b/i.test(this.text.slice(this.word(first.from).start, span.end)))
      return [{ op: "work", stitch: spread(stitch, takes), per: one, takes: [next], span }];
    const over = words.some((word) => word.cls === "e") ? null : workedOver(stitch, takes);
    if (over) return [{ op: "work", stitch, per: one, takes: [over], span }];
    const elsewhere = takes.filter((take) => take.how !== "same");
    return elsewhere.length > 0 && elsewhere.length < takes.length && stitch.uses > 1
      ? [{ op: "work", stitch: { ...stitch, uses: 1 }, per: one, takes: elsewhere, span }]
      : null;
  }

  /** `sc around`, `dc to last st`. */
  private toEnd({ stitch, count, wheres, span }: Make): Instruction[] | null {
    const toLast = wheres.find((part) => part.rule === "toLast");
    if (!toLast && !wheres.some((part) => part.rule === "extent")) return null;
    // `12 sc around` is twelve in all, `2 sc around` two in each.
    if (count?.some((n) => n !== null && n > mostInOne))
      return [{ op: "work", stitch, per: one, takes: [{ how: "next", n: count, of: anyStitch }], span }];
    const until = toLast ? this.until(toLast) : null;
    return [
      { op: "work", stitch, per: count ?? one, takes: [{ how: "each", of: [anyStitch], until }], span },
    ];
  }

  private inRing({ stitch, count, span }: Make): Instruction[] | null {
    if (!this.onRing) return null;
    this.onRing = false;
    return [{ op: "work", stitch, per: count ?? one, takes: [{ how: "nowhere" }], span }];
  }

  /** `3 sc`: one after another. */
  private inARow({ node, stitch, count, leads, span }: Make): Instruction {
    const glued =
      leads && count && (this.isGlued(node) || this.followsOne(node))
        ? this.gluedChoice(this.textOf(node), count[0] ?? 0)
        : undefined;
    const take: Take =
      count === null && this.opensRow(node, stitch)
        ? { how: "same" }
        : { how: "next", n: count ?? one, of: anyStitch, unplaced: true };
    return {
      op: "work",
      stitch,
      per: one,
      takes: [take],
      span,
      ...(glued === undefined ? {} : { glued }),
    };
  }

  /** `sl st in first lp, beg shell`: a group explained as the first of a row stands where the row begins. */
  private opensRow(node: Tree, { body }: StitchUse): boolean {
    const before = this.text.slice(0, this.span(node).start);
    return body !== undefined && /\b(?:beg\.?|beginning|starting)\s+$/i.test(before);
  }

  /** `6 sc through both layers`: each goes through two places of a folded round, or through two pieces that lie alike. */
  private throughLayers(plain: readonly Instruction[]): Instruction[] {
    const [only] = plain;
    if (!only || plain.length > 1 || only.op !== "work") return [...plain];
    this.layers ??= this.choose(
      [
        say`each stitch through both layers uses two stitches of the round`,
        say`the layers are two pieces that lie alike`,
      ],
      [0, 0.4],
    );
    const stitch: StitchUse = { ...only.stitch, uses: 2 * only.stitch.uses, family: "folded" };
    const folded: Instruction = { ...only, stitch };
    return [{ op: "either", choice: this.layers, options: [[folded], [only]], span: only.span }];
  }

  /** `6 sc through both layers`, `sc through both layers across`: without what they go through. */
  private besidesLayers({ stitch, count, wheres, span }: Make): Instruction {
    const all = count === null && wheres.some((part) => part.rule === "extent");
    const take: Take = all
      ? { how: "each", of: [anyStitch], until: null }
      : { how: "next", n: count ?? one, of: anyStitch };
    return { op: "work", stitch, per: one, takes: [take], span };
  }

  protected readonly gluedChoices = new Map<string, number>();

  /** `3sc` alone: three stitches, or three in one place; the same all through the row. */
  protected gluedChoice(text: string, n: number): number | undefined {
    if (n < 2 || n > 5) return undefined;
    const known = this.gluedChoices.get(text.toLowerCase());
    if (known !== undefined) return known;
    const choice = this.choose(
      [say`"${text}" is ${n} stitches in a row`, say`"${text}" is ${n} stitches in one place`],
      [0, 1],
    );
    this.gluedChoices.set(text.toLowerCase(), choice);
    return choice;
  }

  /** `2 sc in every other st`: what happens to the stitches between is not said. */
  protected everyOther(stitch: StitchUse, per: Sized, span: Span): Instruction[] {
    const choice = this.choose(
      [say`the stitches between are worked plainly`, say`the stitches between are skipped`],
      [0, 0],
    );
    const next: Take = { how: "next", n: one, of: anyStitch };
    const between: Instruction[][] = [
      [{ op: "work", stitch, per: one, takes: [next], span }],
      [{ op: "skip", takes: [next], span }],
    ];
    const body: Instruction[] = [
      { op: "work", stitch, per, takes: [next], span },
      { op: "either", choice, options: between, span },
    ];
    return [{ op: "repeat", body, times: { how: "to-end", until: null }, span }];
  }

  /** `inc in every 6th st`: five plain stitches before each; what is left behind the last one is plain. */
  private everyNth(stitch: StitchUse, per: Sized, nth: number, span: Span): Instruction[] {
    const plain = { ...stitch, uses: 1, makes: 1 };
    const run = (take: Take): Instruction => ({ op: "work", stitch: plain, per: one, takes: [take], span });
    const before = run({ how: "next", n: [nth - stitch.uses], of: anyStitch });
    const shaped: Instruction = {
      op: "work",
      stitch,
      per,
      takes: [{ how: "next", n: one, of: anyStitch }],
      span,
    };
    const rest = run({ how: "each", of: [anyStitch], until: null });
    return [
      { op: "repeat", body: [before, shaped], times: { how: "to-end", until: null }, overRun: true, span },
      rest,
    ];
  }

  /** `(1 hdc, 2 hdc) around`: one in the next stitch, two in the one behind it. */
  private followsOne(node: Tree): boolean {
    const [one, stitch, comma] = this.words.slice(Math.max(node.from - 3, 0), node.from);
    const own = this.words.slice(node.from, node.to).find(({ cls }) => cls === "S");
    const isOne = one?.cls === "n" && one.number?.every((n) => n === 1);
    return isOne === true && comma?.cls === "," && stitch?.cls === "S" && stitch.value === own?.value;
  }

  protected isGlued(node: Tree): boolean {
    return (
      node.children.length === 2 &&
      this.word((child(node, "stitch") as Tree).from).glued &&
      this.context.terms !== undefined
    );
  }

  protected isEvenly(wheres: readonly Tree[]): boolean {
    return wheres.some(
      (part) => /even(?:ly)?\b/i.test(this.textOf(part)) && /evenly/i.test(this.textOf(part)),
    );
  }

  /** `work 40 sc evenly around`, `inc 4 sts evenly`: a number without places. */
  protected evenly(stitch: StitchUse, count: Sized | null, span: Span, node: Tree): Instruction[] {
    if (count === null) return [this.spread(stitch, span, node)];
    const word = this.words.slice(node.from, node.to).find((part) => part.cls === "S")?.value ?? "";
    if (/^(inc|dec|invdec)$/.test(word)) {
      this.outOfReach = say`"${this.textOf(node)}" gives a number but not where`;
      return [{ op: "change", by: count.map((n) => (n === null ? null : word === "inc" ? n : -n)), span }];
    }
    this.outOfReach = say`"${this.textOf(node)}" does not say which places it uses`;
    return [{ op: "work", stitch, per: count, takes: [{ how: "nowhere" }], span }];
  }

  /** `sc evenly around`: one in each, or as many as the maker sees fit. */
  private spread(stitch: StitchUse, span: Span, node: Tree): Instruction {
    const why = say`"${this.textOf(node)}" does not say how many`;
    const choice = this.choose(
      [say`there is one in each stitch`, say`there are as many as the count says, spread evenly`],
      [0, 1],
    );
    const ways = [{ how: "each", of: [anyStitch], until: null } as const, { how: "unknown", why } as const];
    const options = ways.map((take): Instruction[] => [
      { op: "work", stitch, per: one, takes: [take], span },
    ]);
    return { op: "either", choice, options, span };
  }
}

/** Stitches that a plain round may put into every place. */
const mostInOne = 3;
