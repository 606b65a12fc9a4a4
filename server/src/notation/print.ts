import type { Tree } from "./tree";
import type { Word } from "./words";

/**
 * The text of a row from its tree: every word the tree holds, and the gaps between them. An unchanged
 * tree prints back byte for byte.
 */
export function printTree(tree: Tree, words: readonly Word[], text: string): string {
  let out = "";
  let end = 0;
  for (const i of leavesOf(tree)) {
    const word = words[i];
    if (!word) continue;
    out += text.slice(end, word.start) + text.slice(word.start, word.end);
    end = word.end;
  }
  return out + text.slice(end);
}

/** Indexes of the words a tree holds, in order: those of its children and those only it holds. */
function leavesOf(tree: Tree): number[] {
  const out: number[] = [];
  let at = tree.from;
  for (const child of tree.children) {
    while (at < child.from) out.push(at++);
    out.push(...leavesOf(child));
    at = Math.max(at, child.to);
  }
  while (at < tree.to) out.push(at++);
  return out;
}
