import type { Tree } from "../notation/tree";
import type { Word } from "../notation/words";

/** The first child of a rule. */
export function child(node: Tree, rule: string): Tree | undefined {
  return node.children.find((part) => part.rule === rule);
}

/** All nodes of a rule, outermost only. */
export function descendants(node: Tree, rule: string): Tree[] {
  const found: Tree[] = [];
  addDescendants(found, node, rule);
  return found;
}

function addDescendants(found: Tree[], node: Tree, rule: string): void {
  for (const part of node.children)
    if (part.rule === rule) found.push(part);
    else addDescendants(found, part, rule);
}

/** The index of the first word of a node that passes; -1 for none. */
export function find(node: Tree, test: (i: number) => boolean, words: readonly Word[]): number {
  for (let i = node.from; i < Math.min(node.to, words.length); i++) if (test(i)) return i;
  return -1;
}
