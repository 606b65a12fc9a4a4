import { Lately } from "../text/lately";
import grammar from "./rows.ohm-bundle.js";
import type { Word } from "./words";

/**
 * The shape of a row: which words belong together, by index. It holds no text, offset or value, so
 * one tree serves every row whose words have the same classes.
 */
export interface Tree {
  readonly rule: string;
  /** Index of the first word, and of the one behind the last. */
  readonly from: number;
  readonly to: number;
  readonly children: readonly Tree[];
}

/** Deeper brackets and longer rows than any pattern has would overflow the matcher. */
export const limits = { nesting: 32, words: 2000 } as const;

/** Rules whose nodes say nothing that their children do not. */
const transparent = new Set([
  "part",
  "inside",
  "starPart",
  "markedPart",
  "plainPart",
  "daggerPart",
  "simple",
  "inner",
  "any",
  "end",
  "prefixBody",
  "tailBody",
]);

interface ShapeNode {
  readonly ctorName: string;
  readonly source: { readonly startIdx: number; readonly endIdx: number };
  shape(): Tree[];
}

const semantics = grammar.createSemantics().addOperation<Tree[]>("shape", {
  _terminal: () => [],
  _iter: (...children) => children.flatMap((child) => (child as unknown as ShapeNode).shape()),
  _nonterminal(...nodes) {
    const { ctorName: rule, source } = this as unknown as ShapeNode;
    const all = nodes.flatMap((node) => (node as unknown as ShapeNode).shape());
    const children = all.filter((child, i) => child.from < source.endIdx && !isAheadOf(child, all, i));
    return transparent.has(rule) ? children : [{ rule, from: source.startIdx, to: source.endIdx, children }];
  },
});

/** What the grammar only looks ahead at belongs to what it reads next. */
function isAheadOf({ from, to }: Tree, all: readonly Tree[], i: number): boolean {
  for (let k = i + 1; k < all.length; k++) {
    const later = all[k] as Tree;
    if (from < later.to && later.from < to) return true;
  }
  return false;
}

const kept = new Lately<Tree | null>(500);

/** The tree of a row's words; null where the row is beyond the limits. */
export function treeOf(words: readonly Word[]): Tree | null {
  const classes = words.map((word) => word.cls).join("");
  let tree = kept.get(classes);
  if (tree === undefined) {
    tree = read(classes);
    kept.set(classes, tree);
  }
  return tree;
}

function read(classes: string): Tree | null {
  if (classes.length > limits.words || nesting(classes) > limits.nesting) return null;
  const match = grammar.match(classes);
  if (match.failed()) return null;
  // Only our own small tree is kept: the matcher's nodes are heavy.
  return (semantics(match) as unknown as ShapeNode).shape()[0] ?? null;
}

function nesting(classes: string): number {
  let depth = 0;
  let deepest = 0;
  for (const c of classes) {
    if ("([{<".includes(c)) deepest = Math.max(deepest, ++depth);
    else if (")]}>".includes(c)) depth--;
  }
  return deepest;
}
