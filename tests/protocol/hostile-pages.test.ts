import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import { MarkupContent } from "vscode-languageserver-protocol/node";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess, PULL_AND_MARKDOWN } from "./client";

/** A reader of Markdown that was written elsewhere, with HTML and bare links let loose. */
interface Reader {
  render(markdown: string): string;
}
const MarkdownIt: new (options: object) => Reader = createRequire(import.meta.url)("markdown-it");
const reader = new MarkdownIt({ html: true, linkify: true });

const URI = "file:///stall.crochet";
/** Markup in every place of a pattern that is shown again somewhere. */
const markup = '<img src=x onerror=alert(1)><script>alert(1)</script>[a](command:x "b") https://example.com';
const PATTERN = [
  `The ${markup} pouch`,
  "",
  "Materials",
  `- DK cotton ${markup}, 50 g / 125 m: 45 g in A (${markup})`,
  `Shell ${markup} = 5 dc in same st`,
  "Sizes: S (M)",
  "",
  `Crown ${markup} (make 2)`,
  "Rnd 1: 6 (8) sc in mr, 6 (8) sts",
  `Rnd 2: inc x5 (7), 12 (16) sts ${markup}`,
  `Rnd 3: <b>lotus</b> x6 (${markup})`,
  "Rnd 4: <img src=x> 6 (8) sts, sc in <script>x</script> 6 (8) sts",
  `Sew the ${markup} to the Crown.`,
].join("\n");

async function opened(): Promise<Client> {
  const client = inProcess(() => new Checker());
  await client.initialize(PULL_AND_MARKDOWN);
  await client.open(URI, PATTERN);
  return client;
}

/** Tags that a reader makes of a page: only those that our own Markdown asks for may be there. */
function tags(markdown: string): string[] {
  const html = reader.render(markdown);
  return [...new Set([...html.matchAll(/<\/?([a-z0-9]+)/gi)].map(([, tag = ""]) => tag.toLowerCase()))];
}

const ours = /^(?:p|ul|ol|li|strong|em|table|thead|tbody|tr|th|td|h[1-6]|br|hr|code|pre|blockquote)$/;

test("what the test looks for is what the reader makes of markup that gets through", () => {
  expect(tags(markup).filter((tag) => !ours.test(tag))).toEqual(["img", "script", "a"]);
});

describe("markup in a pattern", () => {
  test("is shown as it is in every hover", async () => {
    const client = await opened();
    const lines = PATTERN.split("\n");
    let seen = 0;
    for (const [line, text] of lines.entries())
      for (let character = 0; character < text.length; character += 3) {
        const params = { textDocument: { uri: URI }, position: { line, character } };
        const hover = (await client.connection.sendRequest("textDocument/hover", params)) as {
          contents: unknown;
        } | null;
        if (!hover || !MarkupContent.is(hover.contents)) continue;
        seen++;
        expect(tags(hover.contents.value).filter((tag) => !ours.test(tag))).toEqual([]);
      }
    expect(seen).toBeGreaterThan(10);
  });

  test.each(["loopledger/materials", "loopledger/publishingPage", "loopledger/gradingSheet"])(
    "is shown as it is on the page of %s",
    async (method) => {
      const page = (await (
        await opened()
      ).connection.sendRequest(method, {
        textDocument: { uri: URI },
      })) as string;
      expect(page).toContain("img");
      expect(tags(page).filter((tag) => !ours.test(tag))).toEqual([]);
    },
  );
});

test("markup in a pattern is shown as it is for a word processor", async () => {
  const params = { textDocument: { uri: URI } };
  const page = (await (await opened()).connection.sendRequest("loopledger/richText", params)) as string;
  expect(page).toContain("&lt;img");
  const all = [...page.matchAll(/<\/?([a-z0-9]+)([^>]*)>/gi)];
  expect(all.length).toBeGreaterThan(10);
  expect(all.flatMap(([, tag = ""]) => (ours.test(tag) ? [] : [tag]))).toEqual([]);
  expect(
    all.flatMap(([, , rest = ""]) => (/^(?: style="[^"<>]*")?\s*\/?$/.test(rest) ? [] : [rest])),
  ).toEqual([]);
});

test("a letter of another alphabet is read as what it looks like, or told; never passed over", () => {
  const cyrillic = "Rnd 1: 6 s\u0441 in mr (6)\nRnd 2: \u0456nc x5 (12)";
  const told = new Checker().check(cyrillic).findings.map(({ message }) => message);
  const plain = new Checker().check("Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)").findings;
  expect(told).toEqual(plain.map(({ message }) => message));
  const greek = new Checker().check("Rnd 1: 6 \u03c3c in mr (6)").findings;
  expect(greek.map(({ message }) => message)).toEqual([expect.stringContaining("\u03c3c")]);
});

test("marks that turn the direction of writing change no count, and stand in no message", () => {
  const text = "Rnd 1: \u202e6 sc in mr\u202c (6)\nRnd 2: \u2067inc x5\u2069 (12)";
  const { findings } = new Checker().check(text);
  expect(findings.length).toBeGreaterThan(0);
  for (const { message } of findings) expect(message).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/);
});

test("of a text longer than any pattern, the part that is not checked is told", () => {
  const text = Array.from({ length: 200_000 }, (_, row) => `Rnd ${row + 1}: 6 sc in mr (6)`).join("\n");
  const { findings, pieces } = new Checker().check(text);
  const last = findings.at(-1);
  expect(last?.message).toContain("Nothing is checked from here on");
  expect(text.slice(last?.span.start, last?.span.end)).toBe("Rnd 1001: 6 sc in mr (6)");
  expect(pieces.flatMap(({ rows }) => rows).length).toBe(1000);
});

test("the longest text that is taken for a pattern is checked to its end", () => {
  const rows = Array.from({ length: 9_998 }, (_, row) => `Rnd ${row + 2}: sc in each st around (6)`);
  const text = ["Rnd 1: 6 sc in mr (6)", ...rows, "Rnd 10000: sc in each st around (7)"].join("\n");
  const told = new Checker().check(text).findings.map(({ message }) => message);
  expect(told).toEqual([expect.stringContaining("Rnd 10000 makes 6")]);
}, 120_000);

describe("more stitches than anyone can work", () => {
  const times = (depth: number) =>
    `Rnd 1: 6 sc in mr (6)\nRnd 2: ${"(".repeat(depth)}sc, inc${") x1000000000000".repeat(depth)}\nRnd 3: sc in each st (4)`;
  test.each([2, 3, 30])("repeats in repeats, %i deep", (depth) => {
    const { findings, pieces } = new Checker().check(times(depth));
    expect(findings[0]?.message).toMatch(
      /^Rnd 2 is not checked: it comes to more stitches than anyone can work/,
    );
    const numbers = pieces.flatMap(({ rows }) =>
      rows.flatMap(({ needs, has, makes }) => [needs, has, makes]),
    );
    for (const n of numbers.flat()) expect(n === null || Number.isSafeInteger(n)).toBe(true);
    expect(findings.map(({ message }) => message).join()).not.toMatch(/e\+|Infinity|NaN/);
  });
});
