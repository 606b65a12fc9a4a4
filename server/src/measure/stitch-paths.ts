import type { PatternContext } from "../fabric/context";
import type { Definition } from "../notation/front-matter/definitions";
import { say, sayings } from "../text/say";
import { type Stitch, stitchOf } from "../trade/stitches";
import { pathOf, pathOfOvers, type StitchPath, together } from "./stitch-path";

/** What is known of one kind of stitch as a pattern uses it. */
export interface KindOfStitch {
  readonly path: StitchPath;
  /** The plain stitch it is like, by its US name; for which a measured stitch speaks. */
  readonly plain: string | null;
  /** How it was taken, where the pattern does not explain it and the trade has no settled form. */
  readonly taken: string | null;
}

/** Finds how the yarn runs through each kind of stitch of a pattern. */
export class StitchPaths {
  private readonly known = new Map<string, KindOfStitch>();

  constructor(
    private readonly context: Pick<PatternContext, "terms" | "definitions">,
    private readonly special: readonly Definition[],
  ) {}

  /** Of a kind as it stands in the counts: `sc`, `sc*2`, `cluster<3 dc`. */
  of(key: string): KindOfStitch {
    let found = this.known.get(key);
    if (!found) {
      found = this.find(key);
      this.known.set(key, found);
    }
    return found;
  }

  private find(key: string): KindOfStitch {
    const [, kind = key, legs, of = ""] = /^(.*?)(?:<(\d+) (\w+))?$/.exec(key) ?? [];
    if (legs !== undefined) return cluster(Number(legs), this.trade(of)?.base ?? "dc");
    const [name = key, uses = "1"] = kind.split("*");
    return this.byHand(name) ?? this.ofTrade(name, Number(uses)) ?? unknown(name);
  }

  private trade(word: string): Stitch | undefined {
    return stitchOf(word, this.context.terms);
  }

  private ofTrade(name: string, uses: number): KindOfStitch | null {
    const stitch = this.trade(name);
    if (!stitch) return null;
    const taken = usual(stitch.id);
    return {
      path: pathOf(stitch, uses),
      plain: stitch.id === stitch.base && uses === 1 ? stitch.id : null,
      taken: taken === undefined ? null : say`each ${stitch.usName} as ${taken}`,
    };
  }

  /** A stitch that the pattern explains by what the hook does. */
  private byHand(name: string): KindOfStitch | null {
    const meaning = this.special.find(({ names }) => names.includes(name))?.meaning;
    const overs = meaning ? oversIn(meaning.text) : 0;
    if (overs === 0) return null;
    return { path: pathOfOvers(overs), plain: null, taken: null };
  }
}

const usual = sayings<string>({
  cluster: "3 dc together",
  bobble: "5 dc together",
  popcorn: "5 dc",
  puff: "3 loops drawn up twice",
});

function cluster(legs: number, of: string): KindOfStitch {
  return { path: together(of, legs), plain: null, taken: null };
}

function unknown(name: string): KindOfStitch {
  const dc = stitchOf("dc", "US") as Stitch;
  return { path: pathOf(dc), plain: null, taken: say`each ${name} as a double crochet (US)` };
}

const over = String.raw`\b(?:yo|yoh|yrh|yarn over(?: hook)?|yarn round hook|wrap(?: the)? yarn)\b`;
const drawn = String.raw`\b(?:pull|draw)(?:ing)?\b[^.,;)]*?\b(?:up|through|thru|out)\b`;
const acts = new RegExp(String.raw`(${over})|(\binsert)|${drawn}`, "gi");
const again =
  /[([*]([^()[\]*]+)[)\]*]?[\s,;]*(?:rep(?:eat)?[^.,;)]*?)?\b(?:(\d+|two|three|four|five|six) (?:more )?times|(twice|once more))/gi;
const numbers: Readonly<Record<string, number>> = { two: 2, three: 3, four: 4, five: 5, six: 6 };

/** How often yarn is laid over the hook by the words of a definition; 0 where they do not tell. */
export function oversIn(text: string): number {
  const once = countOvers(text);
  if (once === 0) return 0;
  const repeated = [...text.matchAll(again)].map(([, body = "", n]) => {
    const times = n === undefined ? 2 : (numbers[n.toLowerCase()] ?? Number(n));
    return countOvers(body) * (Math.min(times, 20) - 1);
  });
  return repeated.reduce((sum, n) => sum + n, once);
}

/** A loop that is drawn takes the yarn over before it; one that is laid before the hook goes in stays a wrap. */
function countOvers(text: string): number {
  let overs = 0;
  let isLaid = false;
  for (const [, laid, goesIn] of text.matchAll(acts)) {
    if (goesIn === undefined && (laid !== undefined || !isLaid)) overs++;
    isLaid = laid !== undefined;
  }
  return overs;
}
