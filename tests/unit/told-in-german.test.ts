import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { say, sayings, speak } from "../../server/src/text/say";
import { textsIn } from "./sentences-said";

/* What the server says is told in German too. No published source: the sentences are our own. */

const german: Record<string, string> = JSON.parse(
  readFileSync(new URL("../../server/l10n/de.json", import.meta.url), "utf8"),
);
const layers = ["trade", "notation", "fabric", "measure", "reshape", "rules", "workspace", "features", "lsp"];
const said = textsIn(...layers).filter(({ told }) => told);

test("every sentence has its German, and no German is left of one that is gone", () => {
  expect(said.length).toBeGreaterThan(400);
  const without = said
    .filter(({ text }) => !(text in german))
    .map(({ file, line, text }) => `${file}:${line} ${text}`);
  expect(without).toEqual([]);
  const texts = new Set(said.map(({ text }) => text));
  expect(Object.keys(german).filter((text) => !texts.has(text))).toEqual([]);
});

test("what is put into a sentence is put into its German, and blanks at the ends stay", () => {
  const places = (text: string) => [...new Set(text.match(/\{\d\}/g))].sort();
  const ends = (text: string) => [/^\s*/.exec(text)?.[0], /\s*$/.exec(text)?.[0]];
  for (const [english, told] of Object.entries(german)) {
    expect(places(told), english).toEqual(places(english));
    expect(ends(told), english).toEqual(ends(english));
  }
});

// Rows that stand for each other are read alike by what their readings say.
test("what readings say is as different in German as it is in English", () => {
  const readings = said.filter(({ file }) => file.startsWith("fabric/")).map(({ text }) => text);
  const told = new Set([...new Set(readings)].map((text) => german[text]));
  expect(told.size).toBe(new Set(readings).size);
});

test("nothing is told before it is known who reads", async () => {
  const asked: string[] = [];
  speak(new Proxy({}, { get: (_, text) => void asked.push(String(text)) }));
  await import("../../server/src/lsp/server");
  speak(null);
  expect(asked).toEqual([]);
});

test("a sentence is told in the language that is spoken, and in English where that has none", () => {
  const names = sayings({ one: "stitch", many: "stitches" });
  const told = () => [say`Rnd ${7} needs ${names("many")}.`, say`${2} short`, names("one")];
  expect(told()).toEqual(["Rnd 7 needs stitches.", "2 short", "stitch"]);
  speak({ "Rnd {0} needs {1}.": "{1} braucht Rd {0}.", stitches: "Maschen" });
  expect(told()).toEqual(["Maschen braucht Rd 7.", "2 short", "stitch"]);
  speak(null);
  expect(told()).toEqual(["Rnd 7 needs stitches.", "2 short", "stitch"]);
});
