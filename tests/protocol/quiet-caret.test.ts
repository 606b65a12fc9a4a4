import { describe, expect, test } from "vitest";
import { findingsToShow, isWordGrowing } from "../../server/src/lsp/quiet-caret";
import { inProcess, PULL, until } from "./client";
import { fakeChecker } from "./fake-checker";

const URI = "file:///hat.crochet";

/** Texts with `|` for the caret. */
function marked(text: string): [string, number] {
  const caret = text.indexOf("|");
  return [text.replace("|", ""), caret];
}

describe("a word may still be growing", () => {
  test.each([
    "Rnd 2: in|",
    "Rnd 2: sc2|",
    "Rnd 2: half-|",
    "Rnd 2: [sc, in|]",
    "Rnd 2: *in|*",
    "Rnd 2: in|  \nRnd 3: sc",
    "Rnd 2: in|\r\nRnd 3: sc",
    "Rnd 2: maša|",
    "in|",
  ])("in %j", (text) => {
    expect(isWordGrowing(...marked(text))).toBe(true);
  });

  test.each([
    "Rnd 2: inc |",
    "Rnd 2: inc,|",
    "Rnd 2: inc x5|",
    "Rnd 2: inc ×5|",
    "Rnd 2: 12|",
    "Rows 3-8|",
    "Rnd 2: inc (12)|",
    "Rnd 2: [sc, inc]|",
    "Rnd 2: in| each st",
    "Rnd 2: in|crease",
    "|",
    "\n|",
  ])("but not in %j", (text) => {
    expect(isWordGrowing(...marked(text))).toBe(false);
  });

  test("and a caret at the end of a very long line is soon seen through", () => {
    const text = "x".repeat(10_000_000);
    expect(isWordGrowing(text, text.length)).toBe(true);
  });
});

describe("findings wait while a word grows", () => {
  const shown = (text: string) => {
    const [plain, caret] = marked(text);
    return findingsToShow(fakeChecker().check(plain), plain, caret).map(({ rule }) => rule);
  };

  test("all of a row without a count", () => {
    expect(shown("Rnd 1: misfit, odd|")).toEqual([]);
    expect(shown("Rnd 1: misfit, in|")).toEqual([]);
  });

  test("of a row with its count only the word not understood", () => {
    expect(shown("Rnd 1: misfit (12) odd|")).toEqual(["does-not-fit"]);
    expect(shown("Rnd 1: misfit (12 odd|)")).toEqual([]);
  });

  test("never those of other rows", () => {
    expect(shown("Rnd 1: misfit (6)\nRnd 2: odd|\nRnd 3: hm")).toEqual(["does-not-fit", "ambiguous"]);
  });

  test("nor any once a number, a bracket or a space ends the row", () => {
    expect(shown("Rnd 1: misfit 6|")).toEqual(["does-not-fit"]);
    expect(shown("Rnd 1: misfit, odd (12)|")).toEqual(["does-not-fit", "not-understood"]);
    expect(shown("Rnd 1: odd |")).toEqual(["not-understood"]);
  });

  test("on a line that is no row as well", () => {
    expect(shown("Hook: odd|")).toEqual([]);
    expect(shown("Hook: odd|\nYarn: odd")).toEqual(["not-understood"]);
  });
});

describe("over the protocol", () => {
  const codes = async (client: ReturnType<typeof inProcess>) =>
    (await client.pullItems(URI)).map(({ code }) => code);

  test("typing a word is quiet until something follows it", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: fine (6)\nRnd 2: ");
    for (const letter of "odd") {
      await client.type(URI, letter);
      expect(await codes(client)).toEqual([]);
    }
    await client.type(URI, ",");
    expect(await codes(client)).toEqual(["not-understood"]);
  });

  test("typing on another row shows what waited", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: fine (6)\nRnd 2: ");
    await client.type(URI, "odd");
    expect(await codes(client)).toEqual([]);
    await client.replace(URI, "fine", "mine");
    expect(await codes(client)).toEqual(["not-understood"]);
  });

  test("a new line, or text of several lines, shows what waited", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: fine (6)\nRnd 2: ");
    await client.type(URI, "odd");
    await client.type(URI, "\n");
    expect(await codes(client)).toEqual(["not-understood"]);
    await client.type(URI, "Rnd 3: fine\nRnd 4: odd");
    expect(await codes(client)).toEqual(["not-understood", "not-understood"]);
  });

  test("saving shows what waited", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: ");
    await client.type(URI, "odd");
    expect(await codes(client)).toEqual([]);
    await client.save(URI);
    await until(() => client.refreshes || undefined);
    expect(await codes(client)).toEqual(["not-understood"]);
  });

  test("a text just opened has no caret in it", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: odd");
    expect(await codes(client)).toEqual(["not-understood"]);
  });
});
