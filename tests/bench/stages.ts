import { bindRow } from "../../server/src/fabric/bind";
import { ContextReader } from "../../server/src/fabric/context";
import { PatternReader, readPattern } from "../../server/src/fabric/pattern";
import { Fabric } from "../../server/src/fabric/worked";
import { readLines } from "../../server/src/notation/lines";
import { treeOf } from "../../server/src/notation/tree";
import { readWords, type Word } from "../../server/src/notation/words";
import { Checker } from "../../server/src/workspace/checker";
import { longPattern } from "./long-pattern";

/** Milliseconds of each stage of one check, every stage run over the whole text before the next. */
export type Stages = Readonly<Record<string, number>>;

export function stagesOf(rows: number, seed: number): Stages {
  const stages: Record<string, number> = {};
  const stage = <T>(name: string, work: () => T): T => {
    const start = performance.now();
    const result = work();
    stages[name] = performance.now() - start;
    return result;
  };
  const text = longPattern(rows, seed);
  const lines = stage("readLines", () => readLines(text));
  const context = stage("readContext", () => new ContextReader().read(lines));
  const texts = rowTexts(text);
  const words = stage("readWords", () => texts.map((row) => readWords(row, context.lexicon)));
  const unseen = words.map((row) => withUnseenShape(row, seed));
  stage("treeOf, shapes never seen", () => unseen.map((row) => treeOf(row)));
  const trees = words.map((row) => treeOf(row));
  stage("treeOf, shapes seen", () => words.map((row) => treeOf(row)));
  stage("bindRow", () =>
    texts.map((row, i) => {
      const tree = trees[i];
      return tree ? bindRow(row, words[i] ?? [], tree, context) : null;
    }),
  );
  const reader = new PatternReader();
  const pattern = reader.read(text);
  const slipped = text.replace(/\d+(?=\)\n)/, "$&1");
  stage("reading again after an edit", () => reader.read(slipped));
  const fabric = new Fabric();
  stage("walk (Fabric.work)", () => fabric.work(pattern));
  const edited = reader.read(text.replace(/\d+(?=\)\n)/, "$&2"));
  stage("walk again after an edit", () => fabric.work(edited));
  const kept = new Checker();
  kept.check(text);
  stage("whole check after an edit", () => kept.check(slipped));
  return stages;
}

/** Every row text once, as a checker reads it. */
function rowTexts(text: string): string[] {
  const rows = readPattern(text).pieces.flatMap((piece) => piece.rows);
  return [...new Set(rows.map((row) => row.text))];
}

/** Trees are kept by the shape of a row: unknown words at the end make it a shape of its own for every seed. */
function withUnseenShape(row: readonly Word[], seed: number): Word[] {
  const last = row.at(-1);
  if (!last) return [];
  return [...row, ...Array.from({ length: 2 + (seed % 7) }, () => ({ ...last, cls: "w" }))];
}
