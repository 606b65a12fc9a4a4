import { asUnit, type EndOfRow, type Made, type Node, stitch, type Target, type Times } from "./instructions";
import { Unreadable } from "./spelling";

/** What one working of a stitch makes and how many places it takes. */
export interface Working {
  readonly yields: readonly Made[];
  readonly over: number;
}

export type Vocabulary = ReadonlyMap<string, Working>;

const noun =
  "(?:(?:remaining |front |skipped |instep |underarm )?(?:~?(?:fp|bp)?(?:sc|hdc|htr|dc|dtr|tr)|st|ch|sp#\\d*|v-st|place|inc)(?: behind rays)?)";
const extent = "(?:all )?(?:around(?! (?:next|each|same|first|last|st|post|sp#))|across|to (?:the )?end)";
const prose =
  /(?:with \w+(?= ?,)|(?:using|bring|place|pull|being|stuff|start stuffing|move|change|join|drop|cut|fold|fasten|f\/o|break|weave|block|close|do not|turn|work in (?:a )?spiral|keep|embroider|leaving|sew|hide|rotate|pin|pm|mark|lace|piece|hold|invisible|for|working last|until)\b)[^,.;()[\]*]*/;
const remark =
  /^(?:uk |white|red|blue|ws|rs|\w+ made|first dec|change|see|or:|for |skipped|\d+ (?:st|sc)? ?so far|\d+ (?:rounds|rnds|rows)|sk \d* ?ch counts?|counts?\b|do|\w+tog$)/;
const behindItem = /^(?: *(?:[,.;:)\]}*†¶]|$)| and | \()/;
const closers: Readonly<Record<string, string>> = { "(": ")", "[": "]", "{": "}", "<": ">" };

/** Reads one row, character by character, into instructions; throws where a word is beyond it. */
export class Reader {
  private at = 0;
  private readonly nodes: Node[] = [];
  private lastStitch = "";
  /** Chains of a ray that are still to be worked. */
  private ray = 0;

  constructor(
    private readonly text: string,
    private readonly words: Vocabulary,
    private begun = false,
  ) {}

  read(): readonly Node[] {
    while (this.at < this.text.length) this.item();
    return this.nodes;
  }

  private item(): void {
    const steps = [
      () => this.take(/[\s,.;:]+|and |then |work (?=\d|sc|dc|hdc|tr|\()/) !== null,
      () => this.star(),
      () => this.bracket(1),
      () => this.placeFirst(),
      () => this.listInOne(),
      () => this.inEach(),
      () => this.closingLoop(),
      () => this.take(/ending with (?=ch)/) !== null,
      () => this.prefixTimes(),
      () => this.wholeRowAgain(),
      () => this.otherSide(),
      () => this.join(),
      () => this.chain(),
      () => this.skip(),
      () => this.marker(),
      () => this.foundationStitches(),
      () => this.ringAndNumber(),
      () => this.work(),
      () => this.take(prose) !== null,
    ];
    if (!steps.some((step) => step())) throw new Unreadable(this.text.slice(this.at));
  }

  /** The match of the pattern at this very place, which is then passed. */
  private take(pattern: RegExp): RegExpExecArray | null {
    const sticky = new RegExp(pattern.source, "y");
    sticky.lastIndex = this.at;
    const found = sticky.exec(this.text);
    if (found === null || found[0] === "") return null;
    this.at += found[0].length;
    return found;
  }

  /** `repeated`: a chain that opens a group worked over and over is a space, not the start of the row. */
  private sub(text: string, repeated: "repeated" | "once"): readonly Node[] {
    return new Reader(text, this.words, this.begun || repeated === "repeated" || this.hasWork()).read();
  }

  private hasWork(): boolean {
    return this.nodes.some((node) => node.do !== "other-side");
  }

  // --- repeats -----------------------------------------------------------------------------------------------

  private star(): boolean {
    const open = this.take(/[*†]|¶(?=[^¶]*rep from ¶)/);
    if (!open) return false;
    const mark = open[0];
    const from = this.at;
    const next = this.text.indexOf(mark, from);
    if (next < 0) throw new Unreadable("a star that never ends");
    const before = /,? ?;? ?rep from $/.exec(this.text.slice(from, next));
    const bodyText = before ? this.text.slice(from, next - before[0].length) : this.text.slice(from, next);
    this.at = next + 1;
    if (!before) this.take(new RegExp(`,? ?rep from \\${mark} to \\${mark}`));
    const [whole = "", cut] = [
      bodyText.replace("¶", ""),
      bodyText.includes("¶") ? bodyText.split("¶")[0] : undefined,
    ];
    const body = this.sub(whole, "repeated");
    const times = this.times(before ? 1 : 0) ?? { how: "to-the-end", reserve: 0 };
    const ends = this.take(/,? ending last rep at ¶/) !== null;
    const omits = this.take(/,? omitting last ch \d+/) !== null;
    const omitsStitch = this.take(/,? omitting last (?:sc|hdc|dc|tr)/) !== null;
    const short = omitsStitch ? body.slice(0, -1) : null;
    const tail = ends && cut !== undefined ? this.sub(cut, "repeated") : short;
    const ending = this.take(/,? ending with (?!ch)/) ? this.sub(this.text.slice(this.at), "repeated") : null;
    if (ending) this.at = this.text.length;
    this.nodes.push({ do: "repeat", body, times, tail, omits, ending });
    return true;
  }

  /** The words behind a repeat; `more` is 1 where the group has been worked once before they are met. */
  private times(more: number): Times | null {
    const further = this.take(/ ?(\d+) more times(?: \(for[^)]*\))?/);
    if (further) return { how: "number", count: Number(further[1]) + 1 };
    const inAll = this.take(/ ?(\d+) times (?:in all|in total|altogether)/);
    if (inAll) return { how: "number", count: Number(inAll[1]) };
    const total = this.take(/ ?(?:a )?total of (\d+) times/);
    if (total) return { how: "number", count: Number(total[1]) };
    const plain = this.take(/ ?(?:rep )?(?:x ?(\d+)\b|\* ?(\d+)\b|(\d+) ?x(?![a-z])|(\d+) times)/);
    if (plain) {
      const count = Number(plain.slice(1).find((group) => group !== undefined));
      return { how: more > 0 ? "in-all-or-more" : "number", count };
    }
    return this.toTheEnd();
  }

  private toTheEnd(): Times | null {
    const space = this.take(/ to (?:center |next )?sp#(\d+)/);
    if (space) return { how: "to-space", chains: Number(space[1]) };
    const until = this.take(/ until (\d+) st remain/);
    if (until) return { how: "to-the-end", reserve: Number(until[1]) };
    const last = this.take(new RegExp(` ?to last (\\d+)? ?${noun}`));
    if (last) return { how: "to-the-end", reserve: Number(last[1] ?? 1) };
    return this.take(new RegExp(` ?${extent}`)) ? { how: "to-the-end", reserve: 0 } : null;
  }

  private prefixTimes(): boolean {
    const found = this.take(/(\d+) ?x (?=[([{a-z])/);
    if (!found) return false;
    const before = this.nodes.length;
    if (!this.bracket(0) && !this.work()) throw new Unreadable("nothing behind a multiplier");
    const body = this.nodes.splice(before);
    this.nodes.push({ do: "repeat", body, times: { how: "number", count: Number(found[1]) }, tail: null });
    return true;
  }

  private wholeRowAgain(): boolean {
    const found = this.take(new RegExp(`rep (?:from beginning|from beg) ${extent}|rep ${extent}`));
    if (found) this.nodes.push({ do: "whole-row-again", reserve: 0 });
    return found !== null;
  }

  // --- brackets ----------------------------------------------------------------------------------------------

  /** A bracket by what stands behind it: a repeat, a place for all of it, or (alone) a remark. */
  private bracket(suffix: number): boolean {
    const open = this.text[this.at] ?? "";
    const close = closers[open];
    if (!close) return false;
    const end = this.matching(open, close);
    const inner = this.text.slice(this.at + 1, end).trim();
    this.at = end + 1;
    if (remark.test(inner)) return true;
    if (suffix === 0) this.nodes.push(...this.sub(inner, "repeated"));
    else this.bracketed(inner);
    return true;
  }

  private bracketed(inner: string): void {
    const times = this.times(0);
    if (times) {
      const body = this.sub(inner, "repeated");
      const inOne = this.take(/ in (?=(?:next|same|first|last) (?!\d))/);
      if (inOne) {
        const again: Node = { do: "repeat", body, times, tail: null };
        this.nodes.push({ do: "in-one", body: [again], target: this.target() });
        return;
      }
      const ring = this.take(/ in (?:magic )?(?:ring|mr|mc)/) ? intoRing(body) : body;
      this.nodes.push({ do: "repeat", body: ring, times, tail: null });
    } else if (
      this.take(/ ?(?:in|around|over) (?=same|next|each|corner|last|first|any|sp#|ring|magic|mr|it\b)/)
    ) {
      const body = this.sub(inner, "once");
      for (const target of this.targets()) this.nodes.push({ do: "in-one", body, target });
    } else {
      const body = this.sub(inner, "repeated");
      this.nodes.push({ do: "repeat", body, times: { how: "to-the-end", reserve: 0 }, tail: null });
    }
  }

  private matching(open: string, close: string): number {
    let depth = 0;
    for (let index = this.at; index < this.text.length; index++) {
      if (this.text[index] === open) depth++;
      if (this.text[index] === close) depth--;
      if (depth === 0) return index;
    }
    throw new Unreadable("a bracket that is never closed");
  }

  /** `in next sp make 3 dc, ch 1 and 3 dc`. */
  private placeFirst(): boolean {
    const found = this.take(/in (next|same) sp#\d* make ([^;*.]*?)(?=, \*|;|\.|$)/);
    const ring = found ? null : this.take(/in (?:magic )?ring(?: work|,) ([^;*.]*?)(?=;|\.|$)/);
    const listed = found?.[2] ?? ring?.[1];
    if (!listed) return false;
    const space: Target = found?.[1] === "same" ? { at: "same" } : next(1, "sp", "between");
    this.nodes.push({ do: "in-one", body: this.sub(listed, "once"), target: ring ? { at: "ring" } : space });
    return true;
  }

  /** `in each sp around work (sc, 3 dc, sc)`. */
  private inEach(): boolean {
    const found = this.take(/in each sp#\d*(?: around)? work \(([^()]*)\)/);
    if (!found?.[1]) return false;
    const target: Target = { at: "each", sort: "sp", reserve: 0 };
    this.nodes.push({ do: "in-one", body: this.sub(found[1], "once"), target });
    return true;
  }

  /** `3 tr, 2 ch, 3 tr in next sp`: the same on both sides of a chain, but for a stitch that the opening chain stands for. */
  private listInOne(): boolean {
    const found = this.take(
      /(\d+)~?( ?)(\w+), (\d+ ch|ch \d+), (\d+)~?\2\3 in (?=(?:next|same|last|corner) sp#)/,
    );
    if (!found) return false;
    const opened = this.nodes.at(-1)?.do === "chain" ? 1 : 0;
    if (Number(found[1]) + opened !== Number(found[5])) throw new Unreadable("a list that is not even");
    const body = this.sub(found[0].replace(/ in $/, ""), "once");
    this.nodes.push({ do: "in-one", body, target: this.target() });
    return true;
  }

  // --- chains, joins, the start ------------------------------------------------------------------------------

  private closingLoop(): boolean {
    const found =
      this.take(/ch \d+, (?:sk last st, )?(?:dc|hdc|tr) in first \w+ to form last sp#/) ??
      this.take(/(?:join with |ending with )ch \d+, (?:dc|hdc|tr) in first \w+/);
    if (!found) return false;
    if (found[0].includes("sk last"))
      this.nodes.push({ do: "skip", target: next(1, "any", "last"), later: false });
    this.nodes.push({ do: "close-with-loop" });
    return true;
  }

  private chain(): boolean {
    const found = this.take(/(?:ch (\d+)|(\d+) ch)\b(?! from)/);
    if (!found) return false;
    const beginning = !this.begun && !this.hasWork();
    this.nodes.push({ do: "chain", count: Number(found[1] ?? found[2]), beginning });
    return true;
  }

  private otherSide(): boolean {
    const side = this.take(
      /(?:working )?(?:on |along )(?:opposite side|other side|underside|bottom sp#)(?: of ch)?/,
    );
    const turned = side ?? this.take(/(?:turn to )?other side(?: of ch)?|rotate/);
    const start = turned ? null : this.take(/start from (\d+)(?:st|nd|rd|th) ch/);
    if (turned) this.nodes.push({ do: "other-side" });
    if (start) this.startOnChain(Number(start[1]));
    return turned !== null || start !== null;
  }

  private join(): boolean {
    if (this.take(/join (?:\w+ )?with (?:a )?standing (?=sc|dc|hdc|tr)/)) return true;
    if (this.take(/join (?:\w+ )?with (?=(?:sc|dc|hdc) in)/)) return true;
    if (!this.hasWork() && this.take(/attach \w+ in (?:first|any) sp#\d*(?=,)/)) return true;
    if (this.take(/chained starting dc \(csdc\) (?=in)/)) {
      this.nodes.push(work([stitch("dc")], 1, this.behindIn()));
      return true;
    }
    if (
      !this.begun &&
      !this.hasWork() &&
      this.take(/sl st (?:to|in) [^,;.]*(?=, (?:ch|\d+ ch|\(ch|in same))/)
    )
      return true;
    // To a space where the round begins: whatever comes behind it goes into that space.
    if (
      !this.begun &&
      !this.hasWork() &&
      this.take(/sl st (?:to|in) (?:center of )?(?:first|next|any) sp#\d*(?=,)/)
    )
      return true;
    if (this.take(/(?:join|invisible join)\b[^,;.()]*/)) return true;
    return (
      this.take(
        /sl st (?:to|in) (?:top|first (?:sc|dc|hdc|tr|st)|\d+(?:st|nd|rd|th|d) (?:ch|st) of)[^,;.()]*/,
      ) !== null
    );
  }

  private behindIn(): Target {
    if (!this.take(/ ?in /)) throw new Unreadable("no place told");
    return this.targets()[0] ?? next(1, "any", "between");
  }

  // --- skipping ----------------------------------------------------------------------------------------------

  private skip(): boolean {
    const left = this.take(/leave (?:last |remaining )?(\d+) (?:remaining )?(?:st|ch) unworked/);
    if (left) this.nodes.push({ do: "skip", target: next(Number(left[1]), "any", "last"), later: false });
    if (left || this.take(/sk st behind it/)) return true;
    const list = this.take(/sk \(([^()]*)\)/)?.[1];
    if (list !== undefined) {
      const count = [...list.matchAll(/(\d+) ?~?(?:sc|hdc|dc|tr)\b/g)].reduce(
        (sum, [, n]) => sum + Number(n),
        0,
      );
      this.nodes.push({ do: "skip", target: next(count, "any", "between"), later: false });
      return true;
    }
    const found = this.take(
      new RegExp(`sk (first|next|last|each|all)? ?(\\d+)? ?(${noun}|picot|loop)?(?: and (sp#\\d*))?`),
    );
    if (!found) return false;
    const end = found[1] === "first" || found[1] === "last" ? found[1] : "between";
    const later = this.text.slice(this.at).includes("in skipped st");
    const count = Number(found[2] ?? 1);
    const sort = found[3]?.startsWith("sp#") ? "sp" : "any";
    if (!behindItem.test(this.text.slice(this.at))) throw new Unreadable(this.text.slice(this.at));
    if (found[3] !== "picot") this.nodes.push({ do: "skip", target: next(count, sort, end), later });
    if (found[4]) this.nodes.push({ do: "skip", target: next(1, "sp", "between"), later: false });
    return true;
  }

  private marker(): boolean {
    if (!this.take(/pm in next st and (?:sc|dc|hdc) in it/)) return false;
    this.nodes.push({ ...work([stitch("sc")], 1, next(1, "any", "between")), mark: true });
    return true;
  }

  // --- stitches ----------------------------------------------------------------------------------------------

  private foundationStitches(): boolean {
    const found = this.begun ? null : this.take(/(?:f(sc|hdc|dc)) (\d+)/);
    if (!found?.[1]) return false;
    const yields = Array.from({ length: Number(found[2]) }, () => stitch(found[1] ?? ""));
    this.nodes.push(work(yields, 0, { at: "ring" }));
    return true;
  }

  private ringAndNumber(): boolean {
    const found = this.take(/(?:magic ring|mr|mc) (\d+)/);
    if (!found) return false;
    const yields = Array.from({ length: Number(found[1]) }, () => stitch("sc"));
    this.nodes.push(work(yields, 0, { at: "ring" }));
    return true;
  }

  /** `2 dc in next st`, `sc 6`, `inc x6`, `dec around`, `1 in each of next 9`. */
  private work(): boolean {
    const names = [...this.words.keys()].sort((a, b) => b.length - a.length).join("|");
    const found =
      this.take(new RegExp(`(?:(\\d+) ?(~)?)?(${names})s?\\b(?! ?[=-])`)) ??
      this.take(/(\d+)()()(?= in (?:each|next|last|first))/);
    if (!found) return false;
    this.take(/ \(uk \w+\)/);
    this.lastStitch = found[3] || this.lastStitch;
    const working = this.words.get(this.lastStitch);
    if (!working) throw new Unreadable(`no stitch: ${found[0]}`);
    const number = found[1] === undefined ? null : Number(found[1]);
    this.place(working, number, found[2] === "~");
    this.take(/ until [^,;.()]*| along other side/);
    if (!behindItem.test(this.text.slice(this.at))) throw new Unreadable(this.text.slice(this.at));
    return true;
  }

  /** Works out where the stitch goes and repeats it if a number of times follows. */
  private place(working: Working, number: number | null, glued: boolean): void {
    const before = this.nodes.length;
    const behind = number === null ? this.take(/ (\d+)(?! ?x| times| more)\b/) : null;
    const direct = this.toTheEnd();
    if (direct?.how === "to-the-end") {
      this.add(working, number ?? 1, [{ at: "each", sort: "any", reserve: direct.reserve }]);
    } else if (this.take(/ to (?=marked st)/)) {
      this.take(/marked st/);
      this.add(working, number ?? 1, [{ at: "to-mark" }]);
    } else if (this.take(/ through both layers/)) {
      const target = next(number ?? 1, "any", "between");
      this.nodes.push(work(working.yields, 2, target));
    } else if (this.take(/ over /)) {
      this.over(working);
    } else if (this.sideBySide(working, number ?? 1)) {
      return;
    } else if (this.take(/ (?:in|around) /) || this.take(/ (?=next )/)) {
      this.add(working, number ?? Number(behind?.[1] ?? 1), this.targets());
    } else {
      const count = number ?? Number(behind?.[1] ?? 1);
      this.nodes.push({
        ...work(working.yields, working.over, next(count, "any", "between")),
        glued: glued && count > 1,
      });
    }
    this.again(before);
  }

  /** `sc in each dc and 3 sc in each sp`. */
  private sideBySide(working: Working, number: number): boolean {
    const found = this.take(
      new RegExp(` in each (?:sc|hdc|htr|dc|tr|st),? and (\\d+) ?~?(\\w+) in each sp#\\d*(?: ${extent})?`),
    );
    const second = this.words.get(found?.[2] ?? "");
    if (!found || !second) return false;
    const times = (made: readonly Made[], n: number): readonly Made[] =>
      Array.from({ length: n }, () => made).flat();
    const spaces = times(second.yields, Number(found[1]));
    this.nodes.push({ do: "side-by-side", stitches: times(working.yields, number), spaces });
    return true;
  }

  /** `over next 4 sts` closes them all into one stitch, by twos where so many belong together; `over same st and next st` takes one new place. */
  private over(working: Working): void {
    const [first, second] = this.targets();
    if (working.over > 1 && first?.at === "next" && first.count % working.over === 0 && !second) {
      const times = first.count / working.over;
      this.nodes.push(work(working.yields, working.over, next(times, "any", "between")));
      return;
    }
    const places = first?.at === "same" && second ? 1 : first?.at === "next" ? first.count : working.over;
    this.nodes.push(work(working.yields, places, next(1, "any", "between")));
  }

  private add(working: Working, each: number, targets: readonly Target[]): void {
    const yields = Array.from({ length: each }, () => working.yields).flat();
    for (const target of targets) {
      const made = this.take(/ \((\w+) made\)/)?.[1];
      const opens = this.nodes.at(-1)?.do === "chain" && (target.at === "same" || isFirst(target));
      const isGroup = each > (opens ? 1 : 2) && yields[0]?.unit === "";
      const unit = made ?? (isGroup ? "group" : undefined);
      this.nodes.push(work(unit ? asUnit(unit, yields) : yields, working.over, target));
    }
  }

  /** `3 times`, `x6` behind a single stitch; `around` behind `next st` means the sentence so far. */
  private again(before: number): void {
    const times = this.times(0);
    if (!times) return;
    if (times.how === "to-the-end") {
      this.nodes.push({ do: "whole-row-again", reserve: times.reserve });
      return;
    }
    const body = this.nodes.splice(before);
    this.nodes.push({ do: "repeat", body, times, tail: null });
  }

  // --- places ------------------------------------------------------------------------------------------------

  /** One place or several joined by `and`; a chain to start on becomes a node of its own. */
  private targets(): readonly Target[] {
    const first = this.target();
    const targets = [first];
    this.take(/ \((?:skipped|sk) [^)]*\)(?= and)/);
    while (this.take(/ and (?:in )?(?=each|next|\d+ |sp#|it\b)/)) {
      const more = this.target();
      targets.push(first.at === "aside" ? this.alongRay(more) : more);
    }
    if (first.at === "aside" && this.ray !== 0) throw new Unreadable("a ray that is not worked to its end");
    return targets;
  }

  private target(): Target {
    if (this.take(/(?:magic )?ring|mr\b|mc\b/)) return { at: "ring" };
    const part = this.take(
      /(?:center|\d(?:st|nd|rd|th)) (?:sc|dc|tr) of (next|last|any) (?:shell|group|petal|fan)/,
    );
    if (part) return next(1, "any", endOf(part[1]));
    if (this.take(/same ch as first[^,;.()]*/)) return next(1, "any", "last");
    if (this.take(/skipped st/)) return { at: "skipped" };
    const same =
      /(?:same (?:sc|hdc|dc|tr|st|place|sp#\d*|sp|ch)(?: as [^,;.()]*)?|it\b|base of ch(?: ?\d+)?|same as ch ?\d+)/;
    if (this.take(same)) return { at: "same" };
    const nth = this.take(/(\d+)(?:st|nd|rd|th|d) ch(?: from hook)?(?! (?:of|from))/);
    if (nth) return this.foundation(Number(nth[1]));
    if (
      this.take(
        /(?:\d+(?:st|nd|rd|th|d)(?: ch)?|top) of (?:beg |turning )?(?:turning ch|sk ch|skipped ch|ch \d+|\d+ ch|csdc|ch)/,
      )
    )
      return next(1, "any", "last");
    if (this.take(/(?:turning ch|tch)\b/)) return next(1, "any", "last");
    return this.eachOf() ?? this.nextOf();
  }

  private foundation(nth: number): Target {
    const before = this.nodes.at(-1);
    if (before?.do === "chain" && (this.nodes.length > 1 || this.begun)) {
      this.nodes.pop();
      this.ray = before.count - nth;
      return { at: "aside" };
    }
    this.startOnChain(nth);
    return next(1, "any", "first");
  }

  private alongRay(target: Target): Target {
    if (target.at !== "next") throw new Unreadable("a ray without a number");
    this.ray -= target.count;
    return { at: "aside" };
  }

  /** A chain that is the first thing in the row is the one that the row starts on. */
  private startOnChain(nth: number): void {
    const chain = this.nodes.at(-1);
    if (chain?.do === "chain") this.nodes.pop();
    this.nodes.push({ do: "foundation", nth, chain: chain?.do === "chain" ? chain.count : null });
  }

  private eachOf(): Target | null {
    const counted = this.take(
      new RegExp(
        `each (?:of )?(next |last |first |remaining )?(\\d+)\\b(?: (?:remaining )?(?:sp#\\d*|${noun}))?`,
      ),
    );
    if (counted)
      return next(Number(counted[2]), counted[0].includes("sp#") ? "sp" : "any", endOf(counted[1]));
    if (this.take(/sp#\d* of each v-st/)) return { at: "each", sort: "sp", reserve: 0 };
    const between = this.take(new RegExp(`each sp between \\w+(?: ${extent})?`));
    if (between) return { at: "each", sort: "any", reserve: 0 };
    const found = this.take(
      new RegExp(
        `each (${noun})(?: (?:and|or) (?:in )?(?:each )?(?:sp#\\d*|ch|(?:sc|hdc|dc|htr|tr|st)(?= (?:to|across|around))))?`,
      ),
    );
    if (!found) return null;
    const space = this.take(/ to (?:(?:within )?(\d+) st (?:before|of) )?(?:next )?sp#(\d+)/);
    if (space) return { at: "to-space", sort: "any", chains: Number(space[2]), short: Number(space[1] ?? 0) };
    const end = this.toTheEnd();
    const sort = found[0] === `each ${found[1]}` && found[1]?.startsWith("sp#") ? "sp" : "any";
    return { at: "each", sort, reserve: end?.how === "to-the-end" ? end.reserve : 0 };
  }

  private nextOf(): Target {
    const found = this.take(
      new RegExp(
        `(?:(next|first|last|corner|any|marked) ?)?(?:(\\d+)(?= |,|\\.|;|\\)|$) ?)?(?:sp between[^,;.]*|${noun})?`,
      ),
    );
    if (!found) throw new Unreadable(this.text.slice(this.at));
    return next(Number(found[2] ?? 1), found[0].includes("sp#") ? "sp" : "any", endOf(found[1]));
  }
}

function next(count: number, sort: "any" | "sp", end: EndOfRow): Target {
  return { at: "next", count, sort, end };
}

function isFirst(target: Target): boolean {
  return target.at === "next" && target.end === "first";
}

function endOf(word: string | undefined): EndOfRow {
  const trimmed = word?.trim();
  return trimmed === "first" || trimmed === "last" ? trimmed : "between";
}

function work(yields: readonly Made[], over: number, target: Target): Node & { readonly do: "work" } {
  return { do: "work", yields, over, target, glued: false, mark: false };
}

/** `(3 sc, ch 2) 4 times in ring`: the stitches inside go into the ring too. */
function intoRing(body: readonly Node[]): readonly Node[] {
  return body.map((node) => {
    if (node.do !== "work" || node.target.at !== "next") return node;
    const yields = Array.from({ length: node.target.count }, () => node.yields).flat();
    return work(yields, 0, { at: "ring" });
  });
}
