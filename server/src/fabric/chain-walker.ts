import { say } from "../text/say";
import type { Span } from "../text/span";
import type { StitchUse, Take } from "./instructions";
import { PlaceTaker } from "./place-taker";
import { isStepLoop } from "./steps";
import { plainStrip } from "./strip";

/** Works back along chains: those made in the row, those that lengthen an edge, the other side of the starting chain. */
export abstract class ChainWalker extends PlaceTaker {
  /** Chains left of a side chain that is being worked back along. */
  protected side: number | null = null;
  /** Chains of the last picot. */
  private picotOf = 0;
  /** Chains left of one that adds to the edge and is worked back along. */
  protected edge: number | null = null;

  protected openSide(n: number, kind: string, span: Span): void {
    const { lastChain } = this;
    if (lastChain === null) {
      this.outOfReach ??= say`there is no chain to work back along`;
      return;
    }
    this.steps.pop();
    this.aside(`ch ${lastChain}`, 1, span, lastChain);
    this.aside(kind, 1, span);
    this.side = lastChain - n;
    this.lastChain = null;
  }

  /** `ch 20, start in 2nd ch from hook:` so many chains are passed, and none is worked yet. */
  protected beginSide(n: number, span: Span): void {
    const { lastChain } = this;
    this.steps.pop();
    if (lastChain !== null) this.aside(`ch ${lastChain}`, 1, span, lastChain);
    this.side = (lastChain ?? 0) - (n - 1);
    this.lastChain = null;
  }

  /** Not by `emit`: what stands before the side chain goes on behind it. */
  private aside(kind: string, n: number, span: Span, chains?: number): void {
    const long = chains === undefined ? {} : { chains };
    this.steps.push({
      kind,
      sort: "none",
      n,
      at: this.cursor.at,
      uses: 0,
      perPlace: 1,
      aside: true,
      span,
      ...long,
    });
  }

  /** Stitches on a chain at the edge are stitches of the row; what they stand on is none of the row below. */
  protected workEdge(stitch: StitchUse, per: number, take: Take, span: Span): boolean {
    const left = this.edge ?? 0;
    const n = this.onChain(take, left);
    if (n === null) {
      this.closeEdge();
      return false;
    }
    const before = take.how === "from-hook" ? this.n(take.n) - 1 : 0;
    this.edge = Math.max(left - before - n, 0);
    if (n + before > left) this.cursor.overreach(n + before - left);
    this.make(stitch, n, per, { at: this.cursor.at, uses: 0, span });
    return true;
  }

  /** How many chains a take means of those that are left; null where it means other places. */
  protected onChain(take: Take, left: number): number | null {
    if (take.how === "from-hook") return 1;
    if (take.how === "each") return take.of.some((target) => target.sort === "chain") ? left : null;
    const chain = (take.how === "next" || take.how === "last") && take.of.sort === "chain";
    return chain ? this.n(take.n) : null;
  }

  /** A side chain's own stitches are no places of the round and not in its count. */
  protected workSide(kind: string, per: number, take: Take, span: Span): boolean {
    const left = this.side ?? 0;
    const n = take.how === "from-hook" ? null : this.onChain(take, left);
    if (n === null) {
      this.cursor.leave(left);
      this.side = null;
      return false;
    }
    if (n > left) this.cursor.overreach(n - left);
    if (n > 0) this.aside(kind, n * per, span);
    this.side = Math.max(left - n, 0);
    return true;
  }

  protected closeEdge(): void {
    this.cursor.leave(this.edge ?? 0);
    this.edge = null;
  }

  protected otherSide(): void {
    // A ring has no other side: what is counted there is counted anywhere.
    if (this.beyondChain || this.below.ring) return;
    if (this.below.chain === null) {
      const free = this.sources.alongChain();
      if (free) this.cursor = free;
      else this.outOfReach ??= say`it is worked along a chain that other rows stand on`;
      return;
    }
    const out = this.cursor.total - ((this.fromHook ?? 1) - 1);
    const short = { no: 2, first: 1, opening: 0 }[this.view.returns];
    this.cursor.carryOn(plainStrip("ch", Math.max(out - short, 0), "chain"));
    this.beyondChain = true;
  }

  /** The last `n` chains are closed to a picot; what is left of the chain leads up to it. */
  protected picot(n: number, span: Span): void {
    this.picotOf = n;
    const left = (this.lastChain ?? n) - n;
    if (this.lastChain !== null) this.steps.pop();
    if (left > 0) this.chain(left, span);
    this.emit({ kind: "picot", sort: "none", n: 1, span, begins: "picot" });
    this.lastChain = left > 0 ? left : null;
  }

  /** `ch 6, sl st in 2nd ch from hook, sc in next 4 ch`: what looked like a picot was the first stitch back along a chain. */
  protected alongPicot(kind: string, per: number, take: Take, span: Span): boolean {
    const { lastChain } = this;
    const last = this.steps.at(-1);
    if (lastChain === null || last === undefined || isStepLoop(last) || last.kind !== "picot") return false;
    const n = this.below.chain === null ? this.onChain(take, lastChain) : null;
    if (n === null || n > lastChain) return false;
    const [chain] = this.steps.splice(-2);
    const before = chain !== undefined && !isStepLoop(chain) ? (chain.chains ?? 0) : 0;
    // The picot took the chains behind its stitch: 2 of them with the second chain from the hook.
    this.aside(`ch ${before + this.picotOf}`, 1, last.span, before + this.picotOf);
    this.aside("sl st", 1, last.span);
    this.aside(kind, n * per, span);
    this.side = lastChain - n;
    this.lastChain = null;
    return true;
  }

  protected tie(span: Span): void {
    const { lastChain } = this;
    this.emit({ kind: "tie", sort: "none", n: 1, span });
    this.lastChain = lastChain;
  }
}
