import type { Tree } from "../notation/tree";
import type { Word } from "../notation/words";
import { StatedBinder } from "./bind-stated";
import type { Instruction } from "./instructions";

/** Binds words among the instructions that instruct nothing, and what they tell of others. */
export class ProseBinder extends StatedBinder {
  /** Words that instruct nothing are passed; those that carry on may lead to the other side. */
  protected prose: "none" | "plain" | "carries on" | "told again" | "along" = "none";
  /** The first words among prose that may instruct something. */
  protected passedOver: string | null = null;

  /** `14 sc evenly along the row ends of the other side`: along what, is told behind it. */
  protected override make(node: Tree): Instruction[] {
    const made = super.make(node);
    const [only] = made;
    const isSpread = only?.op === "work" && only.takes[0]?.how === "nowhere";
    if (isSpread && /\bevenly\b/i.test(this.textOf(node))) this.prose = "along";
    return made;
  }

  /** Prose from here on; `working last sc in top of turning ch` tells where the last stitch of what stands before goes. */
  protected beginProse(word: Word, next: Tree | undefined): Instruction[] {
    this.prose = proseOf(word.value, this.textAt(word));
    if (this.prose !== "told again" || next?.rule !== "make") return [];
    const [work] = this.make(next.children[0] as Tree);
    return work?.op === "work" ? [{ op: "told", work, span: work.span }] : [];
  }

  /** Whether prose goes on over this node, or ends with it. */
  protected passes(node: Tree, next: Tree | undefined): boolean {
    if (this.prose === "none") return false;
    if (this.prose === "along" && !tellsWhere.has(node.rule)) this.prose = "none";
    if (this.prose === "none" || this.prose === "along") return this.prose === "along";
    const over =
      (this.prose === "carries on" && node.rule === "otherSide") ||
      this.throughBoth(node) ||
      (node.rule === "sep" && next?.rule === "make" && !this.joinsTold(node));
    if (!over && !endsProse(node, this.words)) {
      if (this.stated === null && instructing.has(node.rule)) this.passedOver ??= this.textOf(node);
      return true;
    }
    this.prose = "none";
    return node.rule === "sep";
  }

  /** `working last 2 sc in last sp and sc in top of ch`: both are told again. */
  protected joinsTold(sep: Tree): boolean {
    return this.prose === "told again" && this.word(sep.from).cls === "&";
  }

  /** `fold in half and crochet both sides together 5 sc`: what follows is worked so. */
  protected throughBoth(node: Tree): boolean {
    return this.word(node.from).cls === "Z";
  }
}

const tellsWhere = new Set(["other", "otherSide", "wherever"]);
const instructing = new Set(["make", "starred", "group", "prefixed", "skip", "slip"]);

function proseOf(value: string, text: string): "plain" | "carries on" | "told again" {
  if (value === "go on") return "carries on";
  return /\blast$/i.test(text) ? "told again" : "plain";
}

/** What ends a sentence that instructs nothing. */
function endsProse(node: Tree, words: readonly Word[]): boolean {
  if (node.rule === "count" || node.rule === "trailing") return true;
  const cls = words[node.from]?.cls;
  return node.rule === "sep" && (cls === "." || cls === ";" || cls === "," || cls === ":");
}
