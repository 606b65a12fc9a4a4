import { readdirSync, readFileSync } from "node:fs";
import { beforeAll, expect, onTestFinished, test } from "vitest";
import { CodeActionRequest, InlayHintRequest } from "vscode-languageserver-protocol";
import { Checker } from "../../server/src/workspace/checker";
import { bundleWorker } from "./bundles";
import { type Client, inProcess, PULL } from "./client";
import { inWorker } from "./in-worker";

/* The server tells what it says in the language of its client. Invented patterns; no published source. */

const sentences: Record<string, string> = JSON.parse(
  readFileSync(new URL("../../server/l10n/de.json", import.meta.url), "utf8"),
);
const URI = "file:///stall/buoy.crochet";
const WRONG = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)\nRnd 3: lotus x12 (12)";

/** What is told of a wrong pattern to a client of some language. */
async function told(client: Client, locale: string, brought?: object): Promise<string[]> {
  await client.initialize(PULL, brought, null, locale);
  await client.open(URI, WRONG);
  return (await client.pullItems(URI)).map(({ message }) => `${message}`);
}

const inEnglish = [
  "Rnd 2 needs 5 stitches; Rnd 1 has 6: 1 left over. Did you mean x6?",
  'Rnd 3 is not checked: "lotus" is not explained in this pattern. If it is a stitch, say how it is worked on a line of its own: "lotus = 3 dc in same st".',
];
const inGerman = [
  "Rnd 2 braucht 5 Maschen; Rnd 1 hat 6: 1 übrig. War „x6“ gemeint?",
  "Rnd 3 ist nicht geprüft: „lotus“ wird in dieser Anleitung nicht erklärt. Wenn es eine Masche ist, sagen Sie auf einer eigenen Zeile, wie sie gearbeitet wird: „lotus = 3 dc in same st“.",
];

test.each([
  ["de", inGerman],
  ["de-AT", inGerman],
  ["de_CH.UTF-8", inGerman],
  ["en", inEnglish],
  ["en-GB", inEnglish],
  // A language that is not there, and names that are none.
  ["fr", inEnglish],
  ["../de", inEnglish],
  ["", inEnglish],
])("a client in %o", async (locale, expected) => {
  expect(
    await told(
      inProcess(() => new Checker()),
      locale,
    ),
  ).toEqual(expected);
});

let script: string;
beforeAll(async () => {
  script = await bundleWorker();
});

test("a worker, which reads no files, tells the sentences that its client brings", async () => {
  const { client, end } = inWorker(script);
  onTestFinished(end);
  expect(await told(client, "de", { sentences })).toEqual(inGerman);
});

test("what a client brings and is none is not told", async () => {
  const { client, end } = inWorker(script);
  onTestFinished(end);
  expect(await told(client, "de", { sentences: { stitches: 5 } })).toEqual(inEnglish);
});

const samples = new URL("../../samples/", import.meta.url);
const patterns = readdirSync(samples).filter((name) => name.endsWith(".crochet"));

const wordsOf = (text: string): string[] => text.toLowerCase().match(/\p{L}{2,}/gu) ?? [];
/** Without what is quoted from a pattern, or is to be typed into one. */
const unquoted = (text: string): string => text.replace(/„[^“]*“|: (?:20 )?sc\b.*/g, "");
const germanWords = new Set(Object.values(sentences).flatMap((text) => wordsOf(unquoted(text))));
const english = new Set(Object.keys(sentences).flatMap(wordsOf));

/** English words of our own sentences that German ones do not have, and the pattern neither. */
function englishIn(text: string, pattern: string): string[] {
  const own = new Set(wordsOf(pattern));
  // A row is read out in the language that patterns are written in.
  const told = unquoted(text).replace(/\\?- In Worten:.*|In Worten:.*/g, "");
  return wordsOf(told).filter((word) => english.has(word) && !germanWords.has(word) && !own.has(word));
}

/** All that is shown of a pattern without anybody typing: findings, changes, hints, what stands above pieces, hovers, pages. */
async function shownOf(client: Client, uri: string, pattern: string): Promise<string[]> {
  const { connection } = client;
  const textDocument = { uri };
  const items = await client.pullItems(uri);
  const end = { line: pattern.split("\n").length, character: 0 };
  const hints = await connection.sendRequest(InlayHintRequest.type, {
    textDocument,
    range: { start: { line: 0, character: 0 }, end },
  });
  const changes = await Promise.all(
    items.map(({ range }) => {
      const params = { textDocument, range, context: { diagnostics: [] } };
      return connection.sendRequest(CodeActionRequest.type, params);
    }),
  );
  const heads = [...new Set(pattern.match(/^(?:Rnd|Row|Round|R)\s?\d+/gm))].slice(0, 12);
  const hovers = await Promise.all(heads.map((head) => client.hover(uri, head)));
  return [
    ...items.flatMap((item) => [
      item.message,
      ...(item.relatedInformation ?? []).map(({ message }) => message),
    ]),
    ...((await client.lenses(uri)) ?? []).map(({ command }) => command?.title),
    ...(hints ?? []).flatMap(({ label, tooltip }) => [label, tooltip]),
    ...changes.flatMap((each) => (each ?? []).map(({ title }) => title)),
    ...hovers.map((hover) => (hover?.contents as { value: string } | undefined)?.value),
    await connection.sendRequest<string>("loopledger/materials", { textDocument }),
  ].map((text) => (typeof text === "string" ? text : JSON.stringify(text ?? "")));
}

test.each(patterns)("%s: nothing that is shown is left in English", async (name) => {
  const pattern = readFileSync(new URL(name, samples), "utf8");
  const client = inProcess(() => new Checker());
  await client.initialize(PULL, undefined, null, "de");
  await client.open(URI, pattern);
  const shown = await shownOf(client, URI, pattern);
  expect(shown.length).toBeGreaterThan(1);
  for (const text of shown) expect(englishIn(text, pattern), text).toEqual([]);
});
