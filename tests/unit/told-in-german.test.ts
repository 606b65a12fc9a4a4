import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { say, sayings, speak } from "../../server/src/text/say";
import { Checker } from "../../server/src/workspace/checker";
import { samples, specCases } from "../corpus";
import { type SourceText, textsIn } from "./sentences-said";

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

/** What is written into patterns or a log, and what only the manifest and the README show. */
const notTold = [
  "features/reading/",
  "features/completion/phrases.ts",
  "features/draft-in-language.ts",
  "reshape/wording.ts",
  "reshape/terms/other-words.ts",
  "rules/documentation.ts",
  "rules/left-over",
  "workspace/settings-table.ts",
];
const written = new Set([
  "Ch {0} counts as a stitch.",
  "Ch {0} does not count as a stitch.",
  "Sew on the {0}{1}.",
  "Gauge: __ sts and __ rows = 10 cm",
  "leave remaining st unworked",
  "leave remaining {0} sts unworked",
  "worked over {0}, counts as {1}",
  "times in all",
  " (does not count as a st)",
  " (counts as a st)",
  "ch {0} at the start",
  ", easing in the larger edge",
  "{0} in each st {1}",
  "start turn slip mark",
]);
const isLogged =
  /failed|could not be had|will not be seen|did not answer|Cancelled|^(?:Sending|Asking|Looking)\b/;

/** A text like a sentence that is neither told nor known to be something else: a form of words, a log. */
function isForgotten({ told, text, file, within }: SourceText): boolean {
  const parts = within.map((node) => JSON.stringify([node.key, node.tag, node.callee]) ?? "");
  const isForm = parts.some((part) => /"name":"(?:documentation|raw|RegExp)"/.test(part));
  const isOfLog =
    file.startsWith("lsp/") && (/"name":"name"/.test(parts.at(-1) ?? "") || isLogged.test(text));
  const words = text.match(/(?<![\p{L}\\])\p{L}{2,}(?!\p{L})/gu) ?? [];
  const isLong = words.length > 3 || (words.length === 3 && /^\p{Lu}|[.;:,]|\{\d\}/u.test(text));
  const isSentence = isLong && / /.test(text) && !/\(\?|\\|\||<!--/.test(text);
  return (
    !told &&
    isSentence &&
    !isForm &&
    !isOfLog &&
    !written.has(text) &&
    !notTold.some((one) => file.startsWith(one))
  );
}

test("no sentence is said in English alone", () => {
  const texts = textsIn("fabric", "measure", "reshape", "rules", "workspace", "features", "lsp");
  expect(texts.filter(isForgotten).map(({ file, line, text }) => `${file}:${line} ${text}`)).toEqual([]);
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

/** All that a check comes to, but for the words. */
function foundIn(text: string): unknown {
  const { pieces, findings } = new Checker().check(text);
  return [
    pieces.flatMap(({ rows }) =>
      rows.map(({ result, needs, has, makes, readings }) => [result, needs, has, makes, readings.length]),
    ),
    findings.map(({ rule, severity, span, fixes, related }) => [
      [rule, severity, span],
      fixes.map((fix) => fix.edits()),
      related.map((one) => one.span),
    ]),
  ];
}

test("what is found, and what would mend it, is the same in every language", () => {
  const texts = [...samples(), ...specCases()].map(({ text }) => text);
  expect(texts.length).toBeGreaterThan(500);
  const inEnglish = texts.map(foundIn);
  speak(german);
  const inGerman = texts.map(foundIn);
  speak(null);
  expect(inGerman).toEqual(inEnglish);
}, 240_000);
