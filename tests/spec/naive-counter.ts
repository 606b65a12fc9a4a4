import type { Made } from "./naive/instructions";
import { asUnit, space, stitch } from "./naive/instructions";
import { type Line, layoutOf } from "./naive/lines";
import { overPieces } from "./naive/pieces";
import type { Vocabulary, Working } from "./naive/reader";
import { bestOf, type Outcome, outcomesOf, type RowTask, type Verdict } from "./naive/row";
import { sizesOf } from "./naive/sizes";
import { tidy, Unreadable } from "./naive/spelling";
import { type Stated, splitCount } from "./naive/stated";
import { translated } from "./naive/translated";
import type { ChainRule } from "./naive/worker";

/** One number a size; null where it is not known or the size does not work the row. */
export type CountedNumbers = readonly (number | null)[];

/** A row line as this counter works it out. */
export interface CountedRow {
  readonly piece: string;
  readonly head: string;
  readonly needs: CountedNumbers;
  readonly has: CountedNumbers;
  readonly makes: CountedNumbers;
  /** By the nouns of the stated count, spaces as `sp#2` or `sp#`; empty where none is stated. */
  readonly kinds: Readonly<Record<string, CountedNumbers>>;
  readonly stated: CountedNumbers;
  /** `unreadable` where a word is beyond this counter; nothing is claimed about such a row. */
  readonly verdict: Verdict;
}

/** A line for one size; null where that size does not work it. */
interface Worked {
  readonly line: Line;
  readonly stated: Stated | null;
  readonly first: Outcome | null;
  readonly last: Outcome | null;
  readonly verdict: Verdict | null;
}

interface State {
  readonly piece: string;
  /** The last row as made, in the order in which it was made. */
  readonly made: readonly Made[] | null;
  /** The number of stitches the designer plainly had in mind after a wrong row. */
  readonly meant: number | null;
  readonly chain: number | null;
  readonly turned: boolean;
  /** An opening chain written at the end of the row before. */
  readonly carried: string;
}

/**
 * Reads a pattern and counts it stitch by stitch, sharing no code with the project: every repeat is worked out
 * into single stitches on an array of single places. Where the trade leaves a choice all readings are tried.
 */
export function countPattern(text: string): readonly CountedRow[] {
  const expanded = withLegend(translated(text));
  const sizes = sizesOf(expanded);
  const perSize = sizes.names.map((_, size) => new PatternRun(expanded, size).rows());
  const first = perSize[0] ?? [];
  return first.map((_, index) => together(perSize.flatMap((rows) => rows[index] ?? [])));
}

/** Whether every row of the pattern is within reach of this counter. */
export function canCount(text: string): boolean {
  return countPattern(text).every(({ verdict }) => verdict !== "unreadable");
}

/** `X = sc, V = inc`: the letters give way to what they stand for. */
function withLegend(text: string): string {
  return [...text.matchAll(/\b([A-Z]) = (sc|inc|dec|hdc|dc|turn)\b/g)].reduce(
    (line, [, letter, word]) =>
      line.replace(new RegExp(`(?<![A-Za-z])${letter}(?![A-Za-z\\d]| =)`, "g"), ` ${word}`),
    text,
  );
}

function together(sizes: readonly Worked[]): CountedRow {
  const nouns = [...new Set(sizes.flatMap(({ last }) => Object.keys(last?.tally.kinds ?? {})))];
  const verdicts = sizes.flatMap(({ verdict }) => verdict ?? []);
  const order: readonly Verdict[] = ["unreadable", "does-not-fit", "wrong-count", "ambiguous"];
  return {
    piece: sizes[0]?.line.piece ?? "",
    head: sizes[0]?.line.head ?? "",
    needs: sizes.map(({ first }) => first?.needs ?? null),
    has: sizes.map(({ first }) => first?.has ?? null),
    makes: sizes.map(({ last }) => last?.tally.makes ?? null),
    kinds: Object.fromEntries(
      nouns.map((noun) => [noun, sizes.map(({ last }) => last?.tally.kinds[noun] ?? null)]),
    ),
    stated: sizes.map(({ stated }) => (stated ? sumOf(stated) : null)),
    verdict: order.find((verdict) => verdicts.includes(verdict)) ?? "ok",
  };
}

function sumOf({ kinds }: Stated): number | null {
  const stitches = kinds.filter(({ noun }) => !/^(?:sp#|eyelet|ch$|ch \d|picot)/.test(noun));
  const counted = stitches.length > 0 ? stitches : kinds;
  return counted.reduce<number | null>(
    (sum, { count }) => (sum === null || count === null ? null : sum + count),
    0,
  );
}

/** One pattern worked from top to bottom for one size. */
class PatternRun {
  private readonly lines: readonly Line[];
  private readonly words: Vocabulary;
  private readonly rules = new Map<number, ChainRule>();
  private readonly bodies = new Map<string, string>();
  private previous = "";
  private lastNumber = 0;
  /** What the pieces before this one ended with. */
  private readonly ends = new Map<string, readonly Made[]>();
  private state: State = fresh("");

  constructor(text: string, size: number) {
    const layout = layoutOf(text, size, sizesOf(text));
    this.lines = layout.lines;
    this.words = vocabularyOf(layout.remarks);
    for (const sentence of layout.remarks.split(/\.\s|\n/)) this.learn(tidy(sentence));
  }

  rows(): readonly Worked[] {
    return this.lines.flatMap((line) => {
      if (line.piece !== this.state.piece) {
        if (this.state.made) this.ends.set(this.state.piece, this.state.made);
        const goesOn = line.numbers[0] !== undefined && line.numbers[0] === this.lastNumber + 1;
        this.state = goesOn ? { ...this.state, piece: line.piece } : fresh(line.piece);
      }
      this.lastNumber = line.numbers.at(-1) ?? this.lastNumber;
      if (line.kind === "start") this.begin(line.body ?? "");
      return line.kind === "start" ? [] : [this.line(line)];
    });
  }

  private begin(body: string): void {
    const chain = /\bch (\d+)|(\d+) ch\b/.exec(body);
    const ring = /magic ring|form ring|in a ring|join\.?$/.test(body);
    const chains = chain && !ring ? Number(chain[1] ?? chain[2]) : null;
    const joined =
      chains !== null && /\bjoin/.test(body) ? Array.from({ length: chains }, () => stitch("ch")) : null;
    const foundation = /^f(sc|hdc|dc) (\d+)/.exec(body);
    const stitches =
      foundation && Array.from({ length: Number(foundation[2]) }, () => stitch(foundation[1] ?? ""));
    this.state = { ...this.state, chain: chains, made: stitches ?? joined };
  }

  private line(line: Line): Worked {
    if (line.body === null || /[\])] - times/.test(line.body))
      return { line, stated: null, first: null, last: null, verdict: null };
    const { instruction, stated } = splitCount(line.body);
    const bodies = this.bodiesOf(line, instruction);
    const before = this.state;
    const made = this.attempt(bodies, stated, line, before);
    const meant =
      before.meant === null || made.verdict === "ok"
        ? null
        : this.attempt(bodies, stated, line, asMeant(before));
    const result = meant?.verdict === "ok" ? meant : made;
    this.state = result.state;
    for (const number of line.numbers) this.bodies.set(`${line.piece} ${number}`, bodies.at(-1) ?? "");
    this.previous = bodies.at(-1) ?? "";
    return { line, stated, first: result.first, last: result.last, verdict: result.verdict };
  }

  // --- rows that stand for others ----------------------------------------------------------------------------

  /** The instructions a line stands for, one for each row that is worked. */
  private bodiesOf(line: Line, instruction: string): readonly string[] {
    const ends = /^(dec|inc) 1 st each end of next and foll (\d+) alt rows/.exec(instruction);
    if (ends) return eachEnd(ends[1] ?? "", Number(ends[2]), this.previous);
    const even = /^work even in patt for (\d+) rows/.exec(instruction);
    if (even) return Array.from({ length: Number(even[1]) }, () => this.previous);
    const like = /^(?:work )?(?:(?:(?:the )?same )?as for|as rnds [\d-]+ of) ([a-z]\w*(?: [a-z]\w*)?)/.exec(
      instruction,
    )?.[1];
    if (like) return line.numbers.map((number) => this.bodyOf(like, number));
    const named = this.namedRows(
      instruction.replace(/^(?:change to [^.]+\. |(?:with|working in) \w+, (?:work )?(?=rep|as))/, ""),
    );
    const rows = named ?? [instruction];
    const passes =
      line.numbers.length > 1 ? 1 : named ? Number(/\b(\d+) (?:more )?times/.exec(instruction)?.[1] ?? 1) : 1;
    const count = line.numbers.length > 1 ? line.numbers.length : rows.length * passes;
    return Array.from({ length: count }, (_, index) => rows[index % rows.length] ?? "");
  }

  private bodyOf(piece: string, number: number): string {
    const isIts = (key: string): boolean => key.toLowerCase() === `${piece} ${number}`;
    return [...this.bodies].find(([key]) => isIts(key))?.[1] ?? "?";
  }

  private namedRows(instruction: string): readonly string[] | null {
    if (/^rep dec row/.test(instruction)) return [this.previous];
    if (/^\[?rep last (?:row|rnd|round)/.test(instruction)) return [this.previous];
    const copy =
      /^\[?(?:rep|as|same as|work as(?: given)? for) (?:body )?(?:rows?|rnds?|rounds?)? ?(\d+)(?:nd|st|rd|th)?(?: ?(?:and|to|-) ?(\d+))?/;
    const found = copy.exec(instruction);
    if (!found) return null;
    const [from, to] = [Number(found[1]), Number(found[2] ?? found[1])];
    return Array.from(
      { length: to - from + 1 },
      (_, index) => this.bodies.get(`${this.state.piece} ${from + index}`) ?? "?",
    );
  }

  // --- working -----------------------------------------------------------------------------------------------

  private attempt(bodies: readonly string[], stated: Stated | null, line: Line, from: State): Attempt {
    try {
      const constant = this.all(bodies, () => stated, line, from);
      if (constant.verdict === "ok" || bodies.length === 1) return constant;
      return this.all(bodies, (index) => (index === bodies.length - 1 ? stated : null), line, from);
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      const count = stated ? sumOf(stated) : null;
      const places = count === null || stated?.kinds.length !== 1 ? null : plain(count);
      return {
        first: null,
        last: null,
        verdict: "unreadable",
        state: { ...fresh(from.piece), made: places },
      };
    }
  }

  private all(
    bodies: readonly string[],
    stated: (row: number) => Stated | null,
    line: Line,
    from: State,
  ): Attempt {
    let state = from;
    const outcomes = bodies.map((body, index) => {
      const outcome = this.row(body, stated(index), line, state);
      state = after(state, outcome, body, index === bodies.length - 1 ? stated(index) : null);
      return outcome;
    });
    const wrong = outcomes.find(({ verdict }) => verdict !== "ok");
    return {
      first: outcomes[0] ?? null,
      last: outcomes.at(-1) ?? null,
      verdict: wrong?.verdict ?? "ok",
      state,
    };
  }

  private row(body: string, stated: Stated | null, line: Line, state: State): Outcome {
    const opened = /^(?:with \w+, )?(?:turn, )?(?:ch \d|\d+ ch)/.test(body)
      ? body
      : `${state.carried}${body}`;
    const joined = overPieces(opened, this.ends);
    const text = (joined?.text ?? opened).replace(carriedChain, "").replace(/picot \([^)]*\)/g, "picot");
    if (/counts? as (?:[2-9]|\d\d)/.test(text))
      throw new Unreadable("a chain that counts as several stitches");
    this.learn(text);
    const turned = state.turned || turnsFirst.test(text.replace(/\([^()]*(?:\([^()]*\))?[^()]*\)/g, ""));
    const places =
      state.made === null ? null : state.made.filter(({ sort }) => sort === "st" || sort === "sp");
    const skipped = /\((?:skipped|sk) (?:\d+ )?ch (count|do(?:es)? not count)/.exec(text)?.[1];
    const task: RowTask = {
      text,
      words: this.words,
      places: joined?.places ?? (places && turned ? places.toReversed() : places),
      stated,
      inRounds: line.inRounds,
      setting: {
        ruleOf: (chains) => this.rules.get(chains) ?? null,
        skippedCount: skipped ? skipped === "count" : null,
        chain: state.chain,
      },
    };
    return bestOf(outcomesOf(task));
  }

  /** What a sentence or a bracket says of an opening chain holds from here on. */
  private learn(text: string): void {
    const said =
      /(?:ch (\d+)|(\d+) ch)\b[^.;,]*?\b(counts?|does not count|never counts)(?: as (?:a |first |1[ ~])*(\w+))?([^);]*)/g;
    for (const [, one, other, verb, name, rest = ""] of text.matchAll(said)) {
      const counts = verb === "counts" || verb === "count";
      const chain = Number(/^ ?(?:and|,) ch (\d+)/.exec(rest)?.[1] ?? 0);
      const stands = !/beside/.test(rest);
      this.rules.set(Number(one ?? other), { counts, name: name ?? null, space: chain, stands });
    }
  }
}

interface Attempt {
  readonly first: Outcome | null;
  readonly last: Outcome | null;
  readonly verdict: Verdict;
  readonly state: State;
}

const carriedChain = /[,.] ?(?:ch \d+|\d+ ch)(?: \([^)]*\))?, turn[ .;]*$/;
const turnsFirst = /^(?:[^a-z]|with \w+|ch \d+|\d+ ch|join \w+[^,]*)*\bturn\b(?! to)(?=.*[a-z])/;

function fresh(piece: string): State {
  return { piece, made: null, meant: null, chain: null, turned: false, carried: "" };
}

function after(state: State, { made, verdict }: Outcome, body: string, stated: Stated | null): State {
  const carried =
    carriedChain
      .exec(body)?.[0]
      .replace(/^[,.] ?/, "")
      .replace(/, turn.*$/, ", ") ?? "";
  const meant = verdict === "ok" || !stated ? null : sumOf(stated);
  return { ...state, made, meant, chain: null, turned: /\bturn[ .;]*$/.test(body), carried };
}

/** The same state on as many plain stitches as the row before promised. */
function asMeant(state: State): State {
  return { ...state, made: plain(state.meant ?? 0), meant: null };
}

function plain(count: number): readonly Made[] {
  return Array.from({ length: count }, () => stitch("st"));
}

function eachEnd(what: string, alternate: number, plainRow: string): readonly string[] {
  const name = /\b(hdc|sc|dc|tr)\b/.exec(plainRow)?.[1] ?? "sc";
  const shaped =
    what === "dec"
      ? `turn, ${name}2tog, ${name} to last 2 st, ${name}2tog`
      : `turn, 2 ${name} in first st, ${name} to last st, 2 ${name} in last st`;
  return [shaped, ...Array.from({ length: alternate }, () => [`turn, ${name} in each st`, shaped]).flat()];
}

// --- words -----------------------------------------------------------------------------------------------------

function vocabularyOf(remarks: string): Vocabulary {
  const words = new Map<string, Working>();
  const one = (name: string): Working => ({ yields: [stitch(name)], over: 1 });
  const heights = ["sc", "hdc", "htr", "dc", "dtr", "tr"];
  for (const name of [...heights, "sl st", "popcorn", "pc", "puff", "bobble", "bo", "cluster"])
    words.set(name, one(name));
  for (const name of heights) for (const post of ["fp", "bp"]) words.set(post + name, one(post + name));
  for (const name of heights) {
    for (const legs of [2, 3, 4, 5]) words.set(`${name}${legs}tog`, { yields: [stitch(name)], over: legs });
  }
  const text = tidy(remarks);
  const increase = Number(/\binc ?[=:-] ?(\d) sc in/.exec(text)?.[1] ?? 2);
  words.set("inc", { yields: Array.from({ length: increase }, () => stitch("sc")), over: 1 });
  words.set("dec", { yields: [stitch("sc")], over: 2 });
  words.set("csdc", one("dc"));
  // A cable crosses so many stitches and makes as many.
  for (const [, name = "", n] of text.matchAll(/(\d\/\d \w+): [^\n]*\((\d+) st\)/g))
    words.set(name, { yields: Array.from({ length: Number(n) }, () => stitch(name)), over: Number(n) });
  if (/\bfdc = first dc/.test(text)) words.set("fdc", one("dc"));
  const [, size = "5", name = "dc"] = /\bshell\b[^\n:=]*[:=] ?\(?(\d+)[ ~](\w+)/.exec(text) ?? [];
  words.set("shell", {
    yields: asUnit(
      "shell",
      Array.from({ length: Number(size) }, () => stitch(name)),
    ),
    over: 1,
  });
  words.set("v-st", { yields: asUnit("v-st", [stitch("dc"), space(1), stitch("dc")]), over: 1 });
  words.set("picot", { yields: [{ ...stitch("picot"), sort: "picot" }], over: 0 });
  return words;
}
