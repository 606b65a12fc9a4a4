import type { Tree } from "../notation/tree";
import type { Sized } from "../notation/words";
import { say } from "../text/say";
import { PlaceBinder } from "./bind-places";
import { type Instruction, type OtherOver, targetsOf } from "./instructions";
import { placesOver } from "./takes";
import { child, find } from "./tree-search";

const one: Sized = [1];

/** Binds names that stand for several instructions along the row: `3 mesh`, `2/2 cable over next 4 sts`. */
export class SequenceBinder extends PlaceBinder {
  protected outOfReach: string | null = null;
  protected otherOver: OtherOver | null = null;

  protected timesNumber(node: Tree): Sized {
    const at = find(node, (i) => this.word(i).cls === "n" || this.word(i).cls === "W", this.words);
    return at < 0 ? one : this.word(at).cls === "W" ? [Number(this.word(at).value)] : this.numberAt(at);
  }

  protected sequenceOf(node: Tree): readonly Instruction[] | null {
    const at = find(node, (i) => this.word(i).cls === "S", this.words);
    const definition = this.context.definitions.get(this.word(at).value);
    if (!definition?.sequence) return null;
    // The first of a group that is explained besides is told by what it is made of.
    const isFirst = this.context.definitions.get(definition.kind)?.body !== undefined;
    if (isFirst) return definition.sequence;
    return [{ op: "begins", name: definition.kind, span: this.span(node) }, ...definition.sequence];
  }

  /** `3 mesh`, `mesh across`, `block in each of next 2 ch-3 sps`: what the name stands for, so many times. */
  protected inSequence(sequence: readonly Instruction[], node: Tree): Instruction[] {
    const span = this.span(node);
    const counted = child(node, "number") ?? child(node, "makeTimes");
    const wheres = node.children.filter(({ rule }) => rule === "where").flatMap(({ children }) => children);
    const toLast = wheres.find(({ rule }) => rule === "toLast");
    if (toLast || wheres.some(({ rule }) => rule === "extent")) {
      const until = toLast ? this.until(toLast) : null;
      return [{ op: "repeat", body: sequence, times: { how: "to-end", until }, span }];
    }
    const over = wheres.find(({ rule }) => rule === "place");
    const [told] = over ? this.placeTakes(over, false) : [];
    // `2/2 cable over next 3 sts`, where the cable is explained over 4.
    const explained = placesOver(sequence);
    if (told?.how === "next" && explained !== null && told.n[0] !== explained) {
      this.outOfReach ??= say`"${this.textOf(node)}" is explained over ${explained} sts`;
      // Over twice as many there may be two.
      if ((told.n[0] ?? 0) % explained !== 0) this.otherOver ??= { span, explained };
    }
    const inSpaces = told && targetsOf(told).some(({ sort }) => sort === "space");
    if (inSpaces && told.how === "each")
      return [{ op: "repeat", body: sequence, times: { how: "to-end", until: told.until }, span }];
    const n = counted ? this.countedIn(counted) : inSpaces && told.how === "next" ? told.n : one;
    if (n.every((times) => times === 1)) return [...sequence];
    return [{ op: "repeat", body: sequence, times: { how: "fixed", n }, span }];
  }

  private countedIn(node: Tree): Sized {
    return node.rule === "number" ? this.numberAt(node.from) : this.timesNumber(node);
  }
}
