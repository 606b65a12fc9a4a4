import type { Tree } from "../notation/tree";
import type { Sized } from "../notation/words";
import type { Span } from "../text/span";
import { bindCount } from "./bind-count";
import { JoinBinder, works } from "./bind-joins";
import { changeAtEnds } from "./copies";
import type { Instruction, StatedTerm, Target } from "./instructions";
import { stitchUse } from "./stitch-use";
import { child, descendants } from "./tree-search";

const one: Sized = [1];
const anyStitch: Target = { sort: "stitch" };

/** `(19¾ in)`, `(50 cm)`: how long it is, not how many. */
const isLength = /\d\s*[½¼¾⅛⅜⅝⅞]|\d\s*(?:cm|mm|in|ins|inch(?:es)?)\b|\d\s*["″]/i;

/** `16.5 (18, 19) cm`: behind the bracket. */
const isUnit = /^\s*(?:cm|mm|in\.|in\s*(?:\/|from\b|long\b|$)|inch(?:es)?\b|["″])/i;

/** Binds the count that a row states, wherever it stands and whatever is said of it. */
export class StatedBinder extends JoinBinder {
  protected statedSpan: Span | null = null;

  /** `Turn. 20 dc.` at the end is the count; where nothing was worked before, it is the instruction. */
  protected trailing(node: Tree, before: readonly Instruction[]): Instruction[] {
    const terms = bindCount(child(node, "countList") as Tree, this.words, this.text);
    if (terms === null) return [];
    const dash = this.word(node.from);
    const behindRow = /\d\s*$/.test(this.text.slice(0, dash.start));
    const range = dash.cls === "-" && behindRow && terms[0]?.noun === "" && standsForRows.test(this.text);
    if (range) return [];
    const hasWork = before.some(works) || (before.some(slips) && countsSlips(terms));
    if (this.stated !== null || !(hasWork || standsForRows.test(this.text)))
      return terms.flatMap((term) => this.plainRun(term.word, term.n, this.span(node)));
    this.stated = terms;
    const first = this.word(node.from + 1);
    this.statedSpan = { start: first.start, end: this.word(node.to - 1).end };
    return [];
  }

  private plainRun(word: string, n: Sized, span: Span): Instruction[] {
    const stitch = stitchUse(word, this.context, this.lastStitch);
    return stitch && this.stated === null
      ? [{ op: "work", stitch, per: one, takes: [{ how: "next", n, of: anyStitch }], span }]
      : [];
  }

  /** What looks like a count, as the stitches that it names. */
  protected runsOf(node: Tree): Instruction[] | null {
    const list = descendants(node, "countList")[0];
    const terms = list ? bindCount(list, this.words, this.text) : null;
    const runs = terms?.flatMap(({ word, n }) => this.plainRun(word, n, this.span(node))) ?? [];
    return runs.length === terms?.length ? runs : null;
  }

  protected count(node: Tree): Instruction[] {
    const bracket =
      child(node, "count_bracket") ??
      child(node, "count_aside") ??
      child(node, "count_parts") ??
      child(node, "count_made") ??
      child(node, "count_madeBracket");
    const text = this.textOf(node);
    const terms = bindCount(child(bracket as Tree, "countList") as Tree, this.words, this.text);
    const isMeasure = isUnit.test(this.text.slice(this.span(node).end));
    if (
      terms === null ||
      isMeasure ||
      isLength.test(text) ||
      /so far|^\W*\d+\s*(?:rows?|rnds?|rounds?)\b/i.test(text)
    )
      return [];
    this.stated = terms;
    this.statedSpan = this.span(node);
    this.countedAs(child(bracket as Tree, "countAside"));
    return [];
  }

  /** `(18 dc, counting the ch 3 as 1)`, `(24 hdc, not counting beg ch)`: what the chain that opens this row is. */
  private countedAs(aside: Tree | undefined): void {
    const words = aside ? this.words.slice(aside.from, aside.to) : [];
    const ofChain = words.some(({ cls }) => cls === "c" || cls === "H");
    if (!aside || !ofChain || words.some(({ cls }) => "Cpe".includes(cls))) return;
    const counts = /\b(?:not|excl\w*)\b|n['’]t\b/i.test(this.textOf(aside)) ? "no" : "yes";
    const kind = words.find(({ cls }) => cls === "S")?.value ?? null;
    this.declared ??= { from: 0, counts, space: 0, kind };
  }
}

/** `Rep Row 2. 9 sc.`: what stands behind the copy is its count. */
const standsForRows = new RegExp(
  String.raw`^\s*[[(]?(?:${[
    "rep(?:eat)?",
    "as",
    "same as",
    "work as",
    "work the same as",
    String.raw`work\s+(?:(?:rows|rnds|rounds)\s+)?\d[^.;]*\b(?:as|straight|even)`,
    "work even",
    "cont",
    String.raw`(?:\w+\s[^.;]{1,40},\s*)?${changeAtEnds}`,
  ].join("|")})\b`,
  "i",
);

export function slips(instruction: Instruction): boolean {
  return "body" in instruction ? instruction.body.some(slips) : instruction.op === "slip";
}

function countsSlips([first]: readonly StatedTerm[]): boolean {
  return first?.sort === "any" || first?.noun === "sl st";
}
