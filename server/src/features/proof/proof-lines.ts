import { say } from "../../text/say";
import type { Done } from "./done";
import { type Item, isPass } from "./passes";

/** One line of a proof, with the row's places and stitches numbered from 1. */
export interface ProofLine {
  /** `3–12`, `3`, or "" where no place of the row below is used. */
  readonly places: string;
  readonly does: string;
  /** `4–18`, or "" where no stitch is made. */
  readonly makes: string;
  /** Stitches made so far. */
  readonly sum: string;
}

/** Numbers what is done, line by line. What comes again is one line that names those it repeats. */
export function proofLines(items: readonly Item[]): ProofLine[] {
  const writer = new Writer();
  writer.all(items);
  return writer.lines;
}

class Writer {
  readonly lines: ProofLine[] = [];
  private used = 0;
  private made = 0;

  all(items: readonly Item[]): void {
    for (const item of items) {
      if (isPass(item)) this.pass(item.items, item.times);
      else this.done(item);
    }
  }

  private done({ places, uses, makes, words }: Done): void {
    this.write(words(places), places * uses, places * makes);
  }

  private pass(items: readonly Item[], times: number): void {
    const { used, made, lines } = this;
    const first = lines.length + 1;
    this.all(items);
    const again = times - 1;
    if (again > 0)
      this.write(
        again === 1
          ? say`${stepsSaid(first, lines.length)} again, 1 more time`
          : say`${stepsSaid(first, lines.length)} again, ${again} more times`,
        (this.used - used) * again,
        (this.made - made) * again,
      );
  }

  private write(does: string, uses: number, makes: number): void {
    const places = stretch(this.used, uses);
    const stitches = stretch(this.made, makes);
    this.used += uses;
    this.made += makes;
    this.lines.push({ places, does, makes: stitches, sum: `${this.made}` });
  }
}

function stepsSaid(first: number, last: number): string {
  return first === last ? say`step ${first}` : say`steps ${first}–${last}`;
}

/** `3–12`: the `n` numbers behind the first `before`. */
function stretch(before: number, n: number): string {
  if (n <= 0) return "";
  return n === 1 ? `${before + 1}` : `${before + 1}–${before + n}`;
}
