import { readFileSync } from "node:fs";
import { beforeAll, expect, onTestFinished, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { bundleWorker } from "./bundles";
import { type Client, inProcess, PULL } from "./client";
import { inWorker } from "./in-worker";

/* The server tells what it says in the language of its client. Invented patterns; no published source. */

const sentences: unknown = JSON.parse(
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
  "Rnd 2 braucht 5 Maschen; Rnd 1 hat 6: 1 übrig. War x6 gemeint?",
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
