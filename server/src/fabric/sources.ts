import type { Below, View } from "./below";
import { rowEnds } from "./bind-places";
import { Cursor } from "./cursor";
import { type Take, targetsOf } from "./instructions";
import { plainStrip, type Strip } from "./strip";

/** The key of the free side of the starting chain among the places elsewhere. */
export const chainSide = "chain side";

/** All that one row works on: its own places, those of other pieces, and the chain that joins them. */
export class Sources {
  readonly own: Cursor;
  private readonly others = new Map<string, Cursor>();
  /** The joining chain, once for each side of it that is worked. */
  private readonly sides: Cursor[] = [];
  /** Row ends, once for each side that is worked. */
  private readonly edges: Cursor[] = [];
  /** Where places are that are not named: the row's own, or the free side of the starting chain. */
  private unnamed: Cursor;
  /** Chains of the chain that joins pieces. */
  bridge: number;

  constructor(
    private readonly below: Below,
    private readonly view: View,
  ) {
    this.own = new Cursor(below, view);
    this.unnamed = this.own;
    this.bridge = below.chain ?? 0;
  }

  /** Where a take finds its places; `now` is where the one before did. */
  of(take: Take, now: Cursor): Cursor {
    if (!this.below.elsewhere || take.how === "same" || take.how === "nowhere") return now;
    const [target] = targetsOf(take);
    if (target?.piece !== undefined) return this.on(target.piece);
    return target?.sort === "chain" && this.joinsPieces ? this.onBridge() : this.unnamed;
  }

  private get joinsPieces(): boolean {
    return this.bridge > 0 && [...(this.below.elsewhere?.keys() ?? [])].some((key) => key !== chainSide);
  }

  /** From here on a piece, where nothing else is named. */
  goOn(piece: string): void {
    this.unnamed = this.on(piece);
  }

  /** From here on the free side of the starting chain; null where nobody knows of it. */
  alongChain(): Cursor | null {
    const strip = this.below.elsewhere?.get(chainSide);
    if (!strip) return null;
    this.unnamed = this.along(chainSide, strip);
    return this.unnamed;
  }

  /** Both sides of the joining chain are worked: none of it is left for the next row. */
  get chainIsUsedUp(): boolean {
    return this.sides.length > 1;
  }

  get total(): number {
    return this.used().reduce((sum, { total }) => sum + total, 0);
  }

  sums(): { needs: number; has: number } {
    const all = this.used().map((cursor) => cursor.sums());
    return {
      needs: all.reduce((sum, { needs }) => sum + needs, 0),
      has: all.reduce((sum, { has }) => sum + has, 0),
    };
  }

  /** Its own places are no part of a row that works only elsewhere. */
  private used(): Cursor[] {
    const elsewhere = [...this.others.values(), ...this.sides, ...this.edges];
    return elsewhere.length > 0 && this.own.used === 0 ? elsewhere : [this.own, ...elsewhere];
  }

  private on(piece: string): Cursor {
    const strip = this.below.elsewhere?.get(piece);
    if (strip && piece === rowEnds) return this.nextOf(this.edges, strip);
    return strip ? this.along(piece, strip) : this.own;
  }

  private along(key: string, strip: Strip): Cursor {
    const known = this.others.get(key);
    if (known) return known;
    const cursor = new Cursor({ ...this.below, strip, chain: null, ring: false }, this.view);
    this.others.set(key, cursor);
    return cursor;
  }

  private onBridge(): Cursor {
    return this.nextOf(this.sides, plainStrip("ch", this.bridge, "chain"));
  }

  /** The side that is being worked; the next one where that is done. */
  private nextOf(sides: Cursor[], strip: Strip): Cursor {
    const last = sides.at(-1);
    if (last && !last.ended) return last;
    const cursor = new Cursor({ ...this.below, strip, chain: null, ring: false }, this.view);
    sides.push(cursor);
    return cursor;
  }
}
