import type { Tree } from "../notation/tree";
import type { Sized } from "../notation/words";
import type { Span } from "../text/span";
import { StitchBinder } from "./bind-stitches";
import type { Instruction, Target } from "./instructions";
import { stitchUse } from "./stitch-use";
import { workedOver } from "./takes";
import { child, descendants } from "./tree-search";

const one: Sized = [1];
const anyStitch: Target = { sort: "stitch" };

/** Binds lists that stand behind their place, and stitches whose name is left out. */
export class ListBinder extends StitchBinder {
  protected elided(node: Tree): Instruction[] {
    const stitch = this.lastStitch ?? stitchUse("sc", this.context, null);
    if (!stitch) return [];
    const takes = this.coreTakes(child(node, "core"), child(node, "extent") !== undefined);
    return [
      {
        op: "work",
        stitch,
        per: this.numberAt((child(node, "number") as Tree).from),
        takes,
        span: this.span(node),
      },
    ];
  }

  /** `in next sp make 3 dc, ch 1 and 3 dc`; `inside`: what stands in a bracket behind the place. */
  protected placeFirst(node: Tree, inside: readonly Instruction[] | null): Instruction[] {
    const core = child(node, "core") as Tree;
    const lone = child(node, "lone")?.children[0];
    if (lone) return [this.loneIn(core, lone, this.span(node))];
    const items = inside ?? this.listed(node);
    const span = this.span(node);
    const piece = this.target(this.words.slice(core.from, core.to)).piece;
    return piece === undefined
      ? [{ op: "group", body: items, takes: this.coreTakes(core), span }]
      : [{ op: "onto", piece, span }, ...items];
  }

  /** `in next ch-3 sp, 5 dc` is `5 dc in next ch-3 sp`. */
  private loneIn(core: Tree, lone: Tree, span: Span): Instruction {
    const stitch = this.use(lone);
    const number = child(lone, "number");
    const takes = this.coreTakes(core);
    const over = workedOver(stitch, takes);
    const per = number ? this.numberAt(number.from) : one;
    return { op: "work", stitch, per, takes: over ? [over] : takes, span };
  }

  private listed(node: Tree): Instruction[] {
    return descendants(node, "listItem").flatMap((item): Instruction[] => {
      const inner = child(item, "listKind")?.children[0] as Tree;
      const note = child(item, "listNote");
      if (note) this.remark(note, []);
      if (inner.rule === "chain") return [{ op: "chain", n: this.numberIn(inner), span: this.span(inner) }];
      const stitch = this.use(inner);
      const n = child(inner, "number") ? this.numberAt((child(inner, "number") as Tree).from) : one;
      return [
        { op: "work", stitch, per: one, takes: [{ how: "next", n, of: anyStitch }], span: this.span(item) },
      ];
    });
  }
}
