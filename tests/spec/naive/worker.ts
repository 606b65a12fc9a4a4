import { asUnit, type Made, type Node, space, stitch, type Target } from "./instructions";
import { Unreadable } from "./spelling";

/** What an opening chain is: nothing, a stitch, a stitch and a space; whether it stands on the first place. */
export interface ChainRule {
  readonly counts: boolean;
  readonly name: string | null;
  readonly space: number;
  readonly stands: boolean;
}

/** Picks one of several readings; the first is the usual one. The same key gets the same answer. */
export type Choose = (key: string, options: number) => number;

export interface Setting {
  readonly choose: Choose;
  /** What is said of an opening chain of so many chains; null where nothing is said. */
  readonly ruleOf: (chains: number) => ChainRule | null;
  /** Whether the chains left out at the start of a foundation count; null where nothing is said. */
  readonly skippedCount: boolean | null;
  /** The chain that the piece starts on, where the row does not make its own. */
  readonly chain: number | null;
  /** Whether a row without repeat marks may be worked again to the end. */
  readonly mayRepeatWhole: boolean;
  readonly inRounds: boolean;
}

const limit = 20_000;

/** Works instructions stitch by stitch on the places of the row below. */
export class Worker {
  readonly made: Made[] = [];
  private readonly used: number[] = [];
  private cursor = 0;
  private last = -1;
  private fixed = false;
  private standing = false;
  private out = 0;
  /** How many places chains of a length are led over in this row. */
  private readonly ledOver = new Map<number, number>();

  constructor(
    public places: readonly Made[],
    private readonly nodes: readonly Node[],
    private readonly setting: Setting,
  ) {}

  get needs(): number {
    return this.used.length;
  }

  work(): void {
    this.run(this.nodes);
    const plain = this.nodes.every(({ do: what }) => what !== "repeat" && what !== "whole-row-again");
    const several = this.nodes.filter(({ do: what }) => what === "work").length > 1;
    const rest = this.places.length - this.cursor;
    if (
      this.setting.mayRepeatWhole &&
      plain &&
      several &&
      rest > 0 &&
      this.setting.choose("whole row", 2) === 1
    ) {
      this.toTheEnd(this.nodes, 0);
    }
    this.closeOver();
  }

  /** A round that ends with a chain: it leads over as many places as its like do elsewhere in the row. */
  private closeOver(): void {
    const last = this.nodes.at(-1);
    const rest = this.places.length - this.cursor;
    if (!this.setting.inRounds || last?.do !== "chain" || rest !== this.ledOver.get(last.count)) return;
    for (let index = 0; index < rest; index++) this.take("any");
  }

  private run(nodes: readonly Node[]): void {
    nodes.forEach((node, index) => {
      const used = this.used.length;
      this.step(node, nodes.slice(0, index), nodes.slice(index + 1));
      const before = nodes[index - 1];
      if (node.do === "skip" && before?.do === "chain")
        this.ledOver.set(before.count, this.used.length - used);
      if (this.made.length > limit) throw new Unreadable("too many stitches");
    });
  }

  private step(node: Node, before: readonly Node[], rest: readonly Node[]): void {
    switch (node.do) {
      case "work":
        this.stitches(node, rest);
        break;
      case "chain":
        this.chain(node.count, node.beginning, rest);
        break;
      case "foundation":
        this.foundation(node.nth, node.chain);
        break;
      case "skip":
        this.skip(node.target, rest);
        break;
      case "in-one":
        this.inOne(node.body, node.target, rest);
        break;
      case "repeat":
        this.repeat(node, rest);
        break;
      case "whole-row-again":
        this.toTheEnd(
          before.filter(({ do: what }) => what !== "chain"),
          lastPlaces(rest),
        );
        break;
      case "side-by-side":
        while (this.cursor < this.places.length)
          this.made.push(
            ...(this.places[this.cursor]?.sort === "sp" ? this.over(node.spaces) : this.over(node.stitches)),
          );
        break;
      case "other-side":
        this.otherSide(rest);
        break;
      case "close-with-loop":
        this.made.push(space(0));
    }
  }

  // --- places ------------------------------------------------------------------------------------------------

  private take(sort: "any" | "sp"): void {
    if (this.fixed) return;
    const found =
      sort === "sp" ? this.places.findIndex((place, at) => at >= this.cursor && place.sort === "sp") : -1;
    const index = found >= 0 ? found : this.cursor;
    if (index >= this.places.length && sort === "any" && this.comesRound()) return;
    this.used.push(index);
    this.last = index;
    this.cursor = index + 1;
  }

  /** The next place gets these. */
  private over(made: readonly Made[]): readonly Made[] {
    this.take("any");
    return made;
  }

  /** A round that passed its first places comes to them again at its end. */
  private comesRound(): boolean {
    const wrapped = this.used.filter((index, at) => at > 0 && index < (this.used[0] ?? 0)).length;
    if (!this.setting.inRounds || wrapped >= (this.used[0] ?? 0)) return false;
    this.used.push(wrapped);
    this.cursor = this.places.length;
    return true;
  }

  /** Works something on each place of the target in turn. */
  private onEach(target: Target, over: number, rest: readonly Node[], act: () => void): void {
    if (target.at === "next") this.onNext(target.count, target.sort, target.end === "first", over, act);
    else if (target.at === "each")
      this.toLimit(target.sort, over, this.endOf(target.reserve || lastPlaces(rest)), act);
    else if (target.at === "to-mark") this.onTo(({ unit }) => unit === "mark", act);
    else if (target.at === "to-space") this.toSpace(target, act);
    else {
      if (target.at === "same" && this.last < 0) this.take("any");
      act();
    }
  }

  private endOf(reserve: number): number {
    return this.places.length - reserve;
  }

  /** A space of that many chains; where there is none, any. */
  private toSpace({ chains, short }: Target & { at: "to-space" }, act: () => void): void {
    const long = this.places.some((place) => place.sort === "sp" && place.chains === chains);
    this.onTo((place) => place.sort === "sp" && (!long || place.chains === chains), act, short);
  }

  private onTo(isEnd: (place: Made) => boolean, act: () => void, short = 0): void {
    const end = this.places.findIndex((place, at) => at >= this.cursor && isEnd(place));
    const stop = (end < 0 ? this.places.length : end) - short;
    while (this.cursor < stop) this.takeAnd("any", 1, act);
  }

  private onNext(count: number, sort: "any" | "sp", first: boolean, over: number, act: () => void): void {
    for (let index = 0; index < count; index++) {
      const under = first && index === 0 && this.standing;
      if (under) act();
      else this.takeAnd(sort, over, act);
    }
  }

  private toLimit(sort: "any" | "sp", over: number, end: number, act: () => void): void {
    const more = (): boolean =>
      sort === "sp"
        ? this.places.some((place, at) => at >= this.cursor && at < end && place.sort === "sp")
        : this.cursor + over <= end;
    while (more()) this.takeAnd(sort, over, act);
  }

  private takeAnd(sort: "any" | "sp", over: number, act: () => void): void {
    for (let index = 0; index < over; index++) this.take(sort);
    act();
    if (this.made.length > limit || this.used.length > limit) throw new Unreadable("too many stitches");
  }

  // --- instructions ------------------------------------------------------------------------------------------

  private stitches(node: Node & { readonly do: "work" }, rest: readonly Node[]): void {
    const { target, yields, over } = node;
    if (this.joins(node, rest)) return;
    const put = (): void => {
      const loose = target.at === "aside";
      for (const one of yields)
        this.made.push(loose ? { ...one, sort: "loose" } : node.mark ? { ...one, unit: "mark" } : one);
    };
    if (node.glued && target.at === "next" && this.setting.choose(`bare ${target.count}`, 2) === 1) {
      this.takeAnd("any", 1, () => {
        for (let index = 0; index < target.count; index++) put();
      });
    } else {
      this.onEach(target, over, rest, put);
    }
  }

  /** Behind the last place of a round the next one is the first: a slip stitch there joins it. */
  private joins({ yields, target }: Node & { readonly do: "work" }, rest: readonly Node[]): boolean {
    const isLast = rest.length === 0 && this.cursor >= this.places.length && this.used.length > 0;
    const isOne = target.at === "next" && target.count === 1 && yields.every(({ name }) => name === "sl st");
    return this.setting.inRounds && isLast && isOne;
  }

  private skip(target: Target, rest: readonly Node[]): void {
    const last = this.last;
    const isOne = target.at === "next" && target.count === 1 && target.end === "between";
    // The one that is missed may be that under the opening chain.
    const under = isOne && this.standing && this.used.length === 1 && this.made.length === 1;
    if (under && this.setting.choose("missed under", 2) === 1) return;
    this.onEach(target, 1, rest, () => undefined);
    this.last = last;
  }

  private inOne(body: readonly Node[], target: Target, rest: readonly Node[]): void {
    this.onEach(target, 1, rest, () => {
      const from = this.made.length;
      this.fixed = true;
      this.run(body);
      this.fixed = false;
      // Several in one place are a group, whatever their name.
      const own = this.made.slice(from);
      if (own.length > 1 && own.every(({ unit }) => unit === ""))
        this.made.splice(from, own.length, ...asUnit("group", own));
    });
  }

  private chain(count: number, beginning: boolean, rest: readonly Node[]): void {
    if (!beginning) this.made.push(space(count));
    else this.begin(this.ruleFor(count, rest), rest);
  }

  private ruleFor(count: number, rest: readonly Node[]): ChainRule {
    const told = this.setting.ruleOf(count);
    if (told) return told;
    const counted = { counts: true, name: null, space: 0, stands: true };
    const not = { ...counted, counts: false };
    if (count === 1 || worksFirst(rest) || (count === 2 && nameOf(rest) === "sc")) return not;
    const usual = count > 2 ? [counted, not] : [not, counted];
    return usual[this.setting.choose(count === 2 ? "doubt: opening ch 2" : "opening ch", 2)] ?? not;
  }

  private begin(rule: ChainRule, rest: readonly Node[]): void {
    if (!rule.counts) return;
    const ring = intoRing(rest);
    if (rule.stands && !ring && !this.fixed) this.take("any");
    this.standing = rule.stands && !ring && !this.fixed;
    this.made.push({ ...stitch(rule.name ?? nameOf(rest)), unit: "turning" });
    if (rule.space > 0) this.made.push(space(rule.space));
  }

  private foundation(nth: number, chain: number | null): void {
    const chains = chain ?? this.setting.chain;
    if (chains === null || chains < nth) throw new Unreadable("no chain to start on");
    this.places = Array.from({ length: chains - nth + 1 }, () => stitch("ch"));
    this.out = this.places.length;
    for (const one of this.skippedChains(nth)) this.made.push(one);
  }

  /** The chains left out: nothing, a stitch, or a stitch and a space of an open mesh. */
  private skippedChains(nth: number): readonly Made[] {
    const counted = { ...stitch(nameOf(this.nodes)), unit: "turning" };
    const readings = [[], [counted], [counted, space(meshSpace(this.nodes))], [space(nth - 1)]];
    const low = nameOf(this.nodes) === "sc" && meshSpace(this.nodes) > 2;
    const order = nth <= 3 ? [0, 1] : low ? [3, 0, 1] : nth < 6 ? [1, 0] : [2, 1, 0];
    const { skippedCount } = this.setting;
    if (skippedCount !== null) return readings[skippedCount ? 1 : 0] ?? [];
    if (nth < 3) return [];
    return (
      readings[
        order[this.setting.choose(nth === 3 ? "doubt: skipped ch" : "skipped ch", order.length)] ?? 0
      ] ?? []
    );
  }

  /** Back along the chain: without the last chain, and with the first only where the words go back into it. */
  private otherSide(rest: readonly Node[]): void {
    const back = this.out - (lastPlaces(rest) > 0 ? 1 : 2);
    this.cursor = this.out;
    this.places = Array.from({ length: this.out + back }, () => stitch("ch"));
  }

  // --- repeats -----------------------------------------------------------------------------------------------

  private repeat(node: Node & { readonly do: "repeat" }, rest: readonly Node[]): void {
    const { times, body } = node;
    if (node.ending) return this.endingWith(body, node.ending);
    if (times.how === "to-the-end") {
      this.toTheEnd(body, times.reserve || lastPlaces(rest));
      // What the last pass made last is taken back.
      if (node.omits) this.made.pop();
      else if (node.tail) this.run(node.tail);
      else if (rest.length === 0) this.backToTheStart(body);
      return;
    }
    if (times.how === "to-space") {
      const ahead = (): Made | undefined => this.places[this.cursor];
      while (ahead() && !(ahead()?.sort === "sp" && ahead()?.chains === times.chains)) this.run(body);
      return;
    }
    const more = times.how === "in-all-or-more" ? this.setting.choose("doubt: times", 2) : 0;
    if (times.count > limit) throw new Unreadable("too many repeats");
    for (let pass = 0; pass < times.count + more; pass++) this.run(body);
  }

  /** `sc in first sp, *ch 5, sc in next sp*`: the last ch 5 may lead to the sc that the round began with. */
  private backToTheStart(body: readonly Node[]): void {
    const last = body.at(-1);
    const began = this.made[0]?.name;
    const like = last?.do === "work" && last.yields[0]?.name === began && body.length > 1;
    if (!like || !this.setting.mayRepeatWhole || this.nodes[0]?.do === "repeat") return;
    if (this.setting.choose("last repeat", 2) === 1) this.run(body.slice(0, -1));
  }

  /** As many passes as leave room for one that keeps some of its first parts and ends in its own way. */
  private endingWith(body: readonly Node[], ending: readonly Node[]): void {
    const keeps = this.setting.choose("ending", body.length);
    const { cursor, last } = this;
    const [made, used] = [this.made.length, this.used.length];
    for (let passes = 0; passes < this.places.length; passes++) {
      Object.assign(this, { cursor, last });
      [this.made.length, this.used.length] = [made, used];
      for (let pass = 0; pass < passes; pass++) this.run(body);
      this.run([...body.slice(0, keeps), ...ending]);
      if (this.cursor >= this.places.length) return;
    }
  }

  private toTheEnd(body: readonly Node[], reserve: number): void {
    for (;;) {
      const before = { cursor: this.cursor, last: this.last, made: this.made.length, used: this.used.length };
      this.run(body);
      if (this.cursor <= this.places.length - reserve && this.cursor > before.cursor) continue;
      if (this.cursor === before.cursor) throw new Unreadable("a repeat that gets nowhere");
      this.cursor = before.cursor;
      this.last = before.last;
      this.made.length = before.made;
      this.used.length = before.used;
      return;
    }
  }
}

/** How many places at the end of the row the words name as last ones. */
export function lastPlaces(nodes: readonly Node[]): number {
  return nodes.reduce((sum, node) => {
    const target = "target" in node ? node.target : null;
    const over = node.do === "work" ? node.over : 1;
    return sum + (target?.at === "next" && target.end === "last" ? target.count * over : 0);
  }, 0);
}

/** All instructions, those inside of others too. */
export function flat(nodes: readonly Node[]): readonly Node[] {
  return nodes.flatMap((node) => ("body" in node ? [node, ...flat(node.body)] : [node]));
}

/** The first stitch has the first place to itself, so the chain before it is none. */
function worksFirst(nodes: readonly Node[]): boolean {
  const first = flat(nodes).find(({ do: what }) => what === "work" || what === "skip");
  return first?.do === "work" && first.target.at === "next" && first.target.end === "first";
}

function intoRing(nodes: readonly Node[]): boolean {
  return flat(nodes).some((node) => "target" in node && node.target.at === "ring");
}

function nameOf(nodes: readonly Node[]): string {
  const first = flat(nodes).find(({ do: what }) => what === "work");
  return first?.do === "work" ? (first.yields[0]?.name ?? "") : "";
}

function meshSpace(nodes: readonly Node[]): number {
  const chain = flat(nodes).find((node) => node.do === "chain");
  return chain?.do === "chain" ? chain.count : 0;
}
