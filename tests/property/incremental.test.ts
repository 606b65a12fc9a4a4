import fc from "fast-check";
import { expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { anyText, type Change, change, changed, goodText, runs } from "./pattern-texts";
import { plainReport } from "./report-shape";

/** All versions of a text, the first one included. */
function versionsOf(text: string, changes: readonly Change[]): readonly string[] {
  const versions = [text];
  for (const one of changes) versions.push(changed(versions.at(-1) ?? "", one));
  return versions;
}

function expectSameAsFresh(versions: readonly string[]): void {
  const kept = new Checker();
  for (const text of versions) {
    const fresh = plainReport(new Checker().check(text));
    expect(plainReport(kept.check(text)), text).toEqual(fresh);
  }
}

test("a kept checker reports what a fresh one does, edit after edit", () => {
  const check = (text: string, changes: readonly Change[]) => expectSameAsFresh(versionsOf(text, changes));
  fc.assert(fc.property(goodText, fc.array(change, { maxLength: 12 }), check), { numRuns: runs });
});

test("going back over the edits leads to the same reports", () => {
  const check = (text: string, changes: readonly Change[]) => {
    const versions = versionsOf(text, changes);
    expectSameAsFresh([...versions, ...versions.toReversed()]);
  };
  fc.assert(fc.property(goodText, fc.array(change, { maxLength: 6 }), check), { numRuns: runs });
});

test("what was checked before, of whatever text, leaves no trace", () => {
  fc.assert(fc.property(fc.array(anyText, { minLength: 2, maxLength: 6 }), expectSameAsFresh), {
    numRuns: runs,
  });
});

/** Moving a line touches no line itself: only what is handed down and the spans change. */
test("a line that moves is judged by its new neighbours", () => {
  const check = (text: string, from: number, to: number) => {
    const lines = text.split("\n");
    const [line = ""] = lines.splice(from % lines.length, 1);
    lines.splice(to % (lines.length + 1), 0, line);
    expectSameAsFresh([text, lines.join("\n"), text]);
  };
  fc.assert(fc.property(goodText, fc.nat(), fc.nat(), check), { numRuns: runs });
});

test("a stitch that is explained anew reads so under its short name too", () => {
  const long =
    "Beginning block (beg block): Ch 5, hdc in 3rd ch from hook and in next 2 ch.\nRow 2: Beg block, turn.\n";
  expectSameAsFresh([long, long.replace("Ch 5", "C5h 5"), long, long.replace("next 2", "next 3")]);
});
