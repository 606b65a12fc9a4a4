import { frontMatterOf } from "../../notation/front-matter/front-matter";
import { usesOf } from "../../rules/uses";
import { say } from "../../text/say";
import type { Span, TextEdit } from "../../text/span";
import { entryFor, needsNoList } from "../../trade/abbreviations";
import type { Finding } from "../../workspace/report";
import type { Action, ActionSource, Scene } from "./action";
import { newLine } from "./new-line";

/** The lists before the rows, brought up to date with them; and a list of abbreviations where there is none. */
export const writeLists: ActionSource = (scene, focus) => {
  if (!isBeforeRows(scene, focus)) return [];
  return [...newList(scene), ...refreshed(scene)];
};

/** The list of changes is made at every move of the caret: these are offered before the rows only. */
export function isBeforeRows({ worked }: Scene, { start }: Span): boolean {
  const first = worked.pieces[0]?.rows[0];
  return first !== undefined && start < first.line.span.start;
}

function newList(scene: Scene): Action[] {
  const { worked, prover } = scene;
  if (frontMatterOf(worked.lines).abbreviations.length > 0) return [];
  const entries = usedAbbreviations(scene);
  if (entries.length < 2) return [];
  const lineEnd = worked.text.includes("\r\n") ? "\r\n" : "\n";
  const edits = [newLine(worked, ["Abbreviations", ...entries].join(lineEnd), [])];
  if (!prover.proves(edits, [])) return [];
  const title = say`Write a list of the ${entries.length} abbreviations that are used`;
  return [{ kind: "rewrite", title, mends: [], preferred: false, edits: () => edits }];
}

/** `sc - single crochet`, in the order of the alphabet; without those that everybody knows. */
function usedAbbreviations({ worked }: Scene): string[] {
  const { terms } = worked.context;
  const used = [...usesOf(worked).abbreviations.values()].map(({ mention }) => mention);
  const entries = used.flatMap(({ word, key }) => {
    const name = /^\p{Lu}\p{Ll}/u.test(word) ? word.toLowerCase() : word;
    const meaning = needsNoList(word) || needsNoList(key) ? undefined : entryFor(word, terms);
    return meaning === undefined ? [] : [`${name} - ${meaning}`];
  });
  return entries.sort((a, b) => a.localeCompare(b, "en"));
}

/** What rows use and lists leave out, and the other way round. */
const listRules: ReadonlySet<string> = new Set([
  "undefined-abbreviation",
  "unused-abbreviation",
  "unlisted-hook",
  "unlisted-yarn",
  "unused-yarn",
]);

function refreshed({ findings, prover }: Scene): Action[] {
  const mends: Finding[] = [];
  let edits: readonly TextEdit[] = [];
  for (const finding of findings.filter(({ rule }) => listRules.has(rule))) {
    const joined = finding.fixes.length === 1 ? together(edits, finding.fixes[0]?.edits() ?? []) : null;
    if (!joined) continue;
    mends.push(finding);
    edits = joined;
  }
  if (mends.length < 2 || !prover.proves(edits, mends)) return [];
  const title = say`Bring what is listed up to date with the rows: ${mends.length} entries`;
  return [{ kind: "rewrite", title, mends, preferred: false, edits: () => edits }];
}

/** Two changes as one: what is added at the same place follows each other; null where they get in each other's way. */
function together(edits: readonly TextEdit[], more: readonly TextEdit[]): TextEdit[] | null {
  let all = [...edits];
  for (const edit of more) {
    const same = all.find(
      (one) => isInsertion(one) && isInsertion(edit) && one.span.start === edit.span.start,
    );
    if (same) all = all.map((one) => (one === same ? { ...one, newText: one.newText + edit.newText } : one));
    else if (all.some(({ span }) => span.start <= edit.span.end && edit.span.start <= span.end)) return null;
    else all.push(edit);
  }
  return all;
}

function isInsertion({ span }: TextEdit): boolean {
  return span.start === span.end;
}
