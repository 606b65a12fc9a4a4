import fc from "fast-check";
import { expect, test } from "vitest";
import { type Client, inProcess, PULL } from "./client";
import { fakeChecker } from "./fake-checker";

const URI = "file:///tide-ripple.crochet";

interface Edit {
  /** Where the edit starts and how much it takes out, as parts of what there is. */
  readonly from: number;
  readonly length: number;
  readonly inserted: string;
  readonly pulls: boolean;
}

const PIECES = [
  "Rnd 1: ",
  "misfit",
  "odd",
  "hm",
  "\n",
  "\r\n",
  "\r",
  " ",
  "(6)",
  "🧶",
  "\ud800",
  "\u2028",
  "é",
  "\u0000",
];
const someText = fc.array(fc.constantFrom(...PIECES), { maxLength: 12 }).map((pieces) => pieces.join(""));
const part = fc.double({ min: 0, max: 1, noNaN: true });
const edits: fc.Arbitrary<Edit[]> = fc.array(
  fc.record({ from: part, length: part, inserted: someText, pulls: fc.boolean() }),
  { maxLength: 12 },
);

/** The protocol has no place between the two halves of a line end. */
function place(text: string, offset: number): number {
  return text[offset - 1] === "\r" && text[offset] === "\n" ? offset - 1 : offset;
}

async function follow(client: Client, start: string, session: readonly Edit[]): Promise<string> {
  let text = start;
  for (const { from, length, inserted, pulls } of session) {
    const first = place(text, Math.floor(from * text.length));
    const last = place(text, first + Math.floor(length * (text.length - first)));
    void client.edit(URI, { start: first, end: last }, inserted);
    text = text.slice(0, first) + inserted + text.slice(last);
    if (pulls) await client.pull(URI);
  }
  return text;
}

test("after any edits the server has the client's text, and its findings are those of a fresh start", async () => {
  const checked: string[] = [];
  const recording = () => ({
    work(text: string) {
      checked.push(text);
      return fakeChecker().work(text);
    },
  });
  const [client, fresh] = [inProcess(recording), inProcess()];
  await Promise.all([client.initialize(PULL), fresh.initialize(PULL)]);
  const property = fc.asyncProperty(someText, edits, async (start, session) => {
    await client.open(URI, start);
    const text = await follow(client, start, session);
    await client.save(URI);
    await fresh.open(URI, text);
    expect(await client.pullItems(URI)).toEqual(await fresh.pullItems(URI));
    expect(checked.at(-1)).toBe(text);
    await Promise.all([client.close(URI), fresh.close(URI)]);
  });
  await fc.assert(property, { numRuns: 300 });
  expect(client.logged).toEqual([]);
});
