import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type Action, actionsAt } from "../../server/src/features/actions/all-actions";
import { draftLanguages, languageDraftOf } from "../../server/src/features/draft-in-language";
import { glossaryOf } from "../../server/src/notation/other-languages";
import { withEdits } from "../../server/src/text/span";
import { type Language, languageNamed, languages } from "../../server/src/trade/languages/languages";
import { Checker } from "../../server/src/workspace/checker";
import type { RowReport } from "../../server/src/workspace/report";
import { sceneOf } from "../mutants/promises";

const samples = readdirSync("samples").map((file) => readFileSync(`samples/${file}`, "utf8"));

function named(name: string): Language {
  const found = languageNamed(name);
  if (!found) throw new Error(`there is no language ${name}`);
  return found;
}

function rowsOf(text: string): readonly RowReport[] {
  return new Checker().check(text).pieces.flatMap(({ rows }) => rows);
}

describe("names of stitches", () => {
  // Printed in the sources named in the tables: code-knacker.de, elrincondemaryjoe.blogspot.com,
  // cachalabibi.com, the Crochet Terms Translation Chart, crochejolie.com.br.
  test.each([
    ["German", "hstb", "hdc"],
    ["German", "feste masche", "sc"],
    ["Spanish", "punto alto doble", "tr"],
    ["Spanish", "dism", "dec"],
    ["French", "maille coulée", "sl st"],
    ["Danish", "udt", "inc"],
    ["Dutch", "st", "dc"],
    ["Dutch", "hv", "sl st"],
    ["Finnish", "ps", "sl st"],
    ["Finnish", "ks", "sc"],
    ["Portuguese", "pbx", "sl st"],
    ["Italian", "mezzo punto alto", "hdc"],
    ["Japanese", "長編み2目一度", "dc2tog"],
    // Met in a survey of published patterns.
    ["Russian", "сбн", "sc"],
    ["French", "aug", "inc"],
  ])("%s: %s is %s", (language, spelling, us) => {
    expect(glossaryOf(named(language)).get(spelling)).toBe(us);
  });

  test("letters that two sources give to two stitches are neither", () => {
    expect(glossaryOf(named("French")).has("db")).toBe(false);
  });

  test("languages whose names are from memory are read and never written", () => {
    const written = draftLanguages.map(({ name }) => name);
    expect(languages.map(({ name }) => name).filter((name) => !written.includes(name))).toEqual([
      "Russian",
      "Swedish",
      "Norwegian",
    ]);
  });
});

describe("a draft in another language", () => {
  const pouch =
    "Terms: US\n\nBody\nRnd 1: 6 sc in mr (6)\nRnd 2: (sc, inc) x3 (9)\nRnds 3-4: sc in each st around (9)\n";

  test("says what it is, and writes stitches by names with a source", () => {
    const draft = languageDraftOf(pouch, named("German"));
    expect(
      draft?.text,
    ).toBe(`Draft, word for word from the English text. To be checked by a maker whose language is German before anybody works from it.

Language: German

Body
1. Runde: 6 fM in Fadenring (6)
2. Runde: (fM, M verd) x3 (9)
3-4. Runde: fM in jede M rundherum (9)
`);
    expect(draft?.left).toEqual([]);
  });

  test("lists what has no name with a source, and leaves it English", () => {
    const draft = languageDraftOf("Rnd 1: 6 sc in mr (6)\nRnd 2: sc2tog x3 (3)\n", named("French"));
    expect(draft?.text).toContain("Tour 2: sc2tog x3 (3)");
    expect(draft?.left).toEqual([
      '"mr" (line 1): no French word with a source is known',
      '"sc2tog" (line 2): no French word with a source is known',
    ]);
  });

  test("of a pattern in UK terms goes by the stitches, not by their letters", () => {
    const draft = languageDraftOf(
      "Terms: UK\nRnd 1: 6 dc in mr (6)\nRnd 2: 2 tr in each st (12)\n",
      named("German"),
    );
    expect(draft?.text).toContain("1. Runde: 6 fM in Fadenring (6)\n2. Runde: 2 Stb in jede M (12)");
  });

  test("there is none of a pattern that is in another language already", () => {
    expect(languageDraftOf("Tour 1 : 6 ms dans un cercle magique (6)\n", named("German"))).toBeNull();
  });

  test.each(draftLanguages.map((language) => [language.name, language] as const))(
    "%s: read again, the rows of all samples need and make the same",
    (_, language) => {
      const pairs = samples.flatMap((text) => {
        const draft = rowsOf(languageDraftOf(text, language)?.text ?? "");
        const rows = rowsOf(text);
        expect(draft).toHaveLength(rows.length);
        return rows.map((row, i) => [row, draft[i] as RowReport] as const);
      });
      const read = pairs.filter(([, { result }]) => result !== "unchecked");
      const numbers = ({ needs, has, makes, stated, result }: RowReport) => [
        needs,
        has,
        makes,
        stated,
        result,
      ];
      expect(read.map(([, row]) => numbers(row))).toEqual(read.map(([row]) => numbers(row)));
      // A row whose beginning stays English for want of a word may go unchecked, never wrong.
      expect(read.length / pairs.length).toBeGreaterThan(0.98);
    },
  );
});

test("a pattern whose words are stitches of another language is asked whether it is in it", () => {
  const text =
    "Rd 1: 6 fM in einen Fadenring (6)\nRd 2: alle M verdoppeln (12)\nRd 3: (1 fM, 1 Zun) 6x (18)\n";
  const scene = sceneOf(text);
  expect(scene.findings[0]?.message).toContain(
    'In German "fM" is sc: if the pattern is in German, say so at the top: "Language: German".',
  );
  const action = actionsAt(scene, { start: 0, end: 5 }).find(
    ({ title }: Action) => title === "Say that the pattern is in German",
  );
  const mended = withEdits(text, action?.edits() ?? []);
  expect(mended).toBe(`Language: German\n\n${text}`);
  expect(rowsOf(mended).map(({ makes, result }) => [makes, result])).toEqual([
    [[6], "ok"],
    [[12], "ok"],
    [[18], "ok"],
  ]);
});

test("a row whose head alone looks like another language is English", () => {
  const text = "Fila 2: 6 sc in mr (6)\nRnd 2: inc x6 (12)\n";
  expect(new Checker().work(text).worked.context.language).toBeNull();
  expect(new Checker().work("Fila 2: 6 pb en anillo mágico (6)\n").worked.context.language?.name).toBe(
    "Spanish",
  );
});
