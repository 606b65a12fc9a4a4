import { frontMatterOf } from "../../notation/front-matter/front-matter";
import type { PatternLine } from "../../notation/lines";
import { say } from "../../text/say";
import type { TextEdit } from "../../text/span";
import type { Action, ActionSource, Scene } from "./action";
import { newLine } from "./new-line";
import { isBeforeRows } from "./write-lists";

/** The line that lists the pieces, and what the text needs beside yarn and hook: written, or brought up to date. */
export const writeOtherLists: ActionSource = (scene, focus) =>
  isBeforeRows(scene, focus) ? [...piecesList(scene), ...missingNotions(scene)] : [];

const piecesLine = /^\s*Pieces\s*:\s*/i;
const notes = [/^\W*(?:pattern )?notes?\b/i];

function piecesList(scene: Scene): Action[] {
  const { worked } = scene;
  const named = worked.pieces.filter(({ piece }) => piece.name !== "");
  if (named.length < 2) return [];
  const list = named
    .map(({ piece: { name, make } }) => (make > 1 ? `${name} (make ${make})` : name))
    .join(", ");
  const there = worked.lines.find(({ text }) => piecesLine.test(text));
  const said = `Pieces: ${list}`;
  if (there?.text.trim() === said) return [];
  const title = there
    ? say`Bring the list of pieces up to date`
    : say`Write a list of the ${named.length} pieces`;
  const edit = there ? replaced(there, said) : newLine(worked, said, notes);
  return offered(scene, title, edit);
}

function replaced({ start, end }: PatternLine, newText: string): TextEdit {
  return { span: { start, end }, newText };
}

/** What a text asks for, and what it is called in a list. Common practice, no source. */
const notions: readonly { readonly name: string; readonly asked: RegExp; readonly listed: RegExp }[] = [
  {
    name: "stitch marker",
    asked: /\b(?:place|move|use)\b[^.]{0,20}\bmarkers?\b|\bpm\b/i,
    listed: /\bmarkers?\b/i,
  },
  { name: "stuffing", asked: /\bstuff(?:ing)?\b/i, listed: /\bstuffing\b|\bfibrefill\b|\bfiberfill\b/i },
  { name: "safety eyes", asked: /\bsafety eyes?\b/i, listed: /\beyes?\b/i },
  { name: "yarn needle", asked: /\bsew\b|\bweave in\b/i, listed: /\bneedles?\b/i },
  { name: "button", asked: /\bsew\b[^.]{0,30}\bbuttons?\b/i, listed: /\bbuttons?\b/i },
];

function missingNotions(scene: Scene): Action[] {
  const { worked } = scene;
  const front = frontMatterOf(worked.lines);
  const under = (wanted: string) => front.lines.findLast(({ topic }) => topic === wanted);
  const list = under("notions") ?? under("materials");
  const last = front.lines.findLast(({ section }) => section === list?.section);
  const first = worked.pieces[0]?.rows[0]?.line.span.start ?? 0;
  if (!last || last.at > first) return [];
  const before = worked.lines.filter(({ start }) => start < first || front.listLines.has(start));
  const behind = worked.lines.filter(({ start, kind }) => start > first && kind !== "row");
  const says = (lines: readonly PatternLine[], form: RegExp) => lines.some(({ text }) => form.test(text));
  const missing = notions.filter(({ asked, listed }) => says(behind, asked) && !says(before, listed));
  if (missing.length === 0) return [];
  const names = missing.map(({ name }) => name).join(", ");
  const line = `${names.slice(0, 1).toUpperCase()}${names.slice(1)}`;
  const end = last.at + last.of.text.length;
  const lineEnd = worked.text.includes("\r\n") ? "\r\n" : "\n";
  return offered(scene, say`List what the text needs: ${names}`, {
    span: { start: end, end },
    newText: `${lineEnd}${line}`,
  });
}

function offered({ prover }: Scene, title: string, edit: TextEdit): Action[] {
  const edits = [edit];
  return prover.proves(edits, [])
    ? [{ kind: "rewrite", title, mends: [], preferred: false, edits: () => edits }]
    : [];
}
