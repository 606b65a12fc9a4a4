import { type Language, languageNamed, languages, stitchNamesIn } from "../trade/languages/languages";

/** What a spelling of another language is in US pattern English, by the spelling in lower case. */
export type Glossary = ReadonlyMap<string, string>;

const glossaries = new Map<Language, Glossary>();

/** A spelling that two sources give to two stitches is left out: it says nothing until the pattern explains it. */
export function glossaryOf(language: Language): Glossary {
  let found = glossaries.get(language);
  if (!found) {
    found = readGlossary(language);
    glossaries.set(language, found);
  }
  return found;
}

function readGlossary(language: Language): Glossary {
  const pairs = [
    ...Object.entries(language.words).map(([english, spellings]) => [english, spellings.split("|")] as const),
    ...stitchNamesIn(language, "all"),
  ];
  const glossary = new Map<string, string>();
  const doubtful = new Set<string>();
  for (const [english, spellings] of pairs)
    for (const spelling of spellings.flatMap(asRead)) {
      if (glossary.has(spelling) && glossary.get(spelling) !== english) doubtful.add(spelling);
      glossary.set(spelling, english);
    }
  for (const spelling of doubtful) glossary.delete(spelling);
  return glossary;
}

/** As rows are read: `p.m.a.` is pma. */
function asRead(spelling: string): string[] {
  const small = spelling.toLowerCase();
  return [...new Set([small, small.replace(/(\p{L})\./gu, "$1")])];
}

const declaring =
  /^\W*(?:language|sprache|langue|idioma|sprog|taal|språk|kieli|lingua|язык|言語)\s*[:：]\s*(\p{L}+)/iu;

/** The language that a line declares: `Language: French`, `Langue : français`. */
export function languageDeclaredIn(text: string): Language | null {
  const [, name] = declaring.exec(text) ?? [];
  return (name !== undefined && languageNamed(name)) || null;
}

/** Single letters name stitches in some language always. */
const shortestName = 2;

/** The first language in which all these words are names of stitches or words between them. */
export function languageOfWords(words: readonly string[]): Language | null {
  const wanted = words.map((word) => word.toLowerCase());
  if (!wanted.some((word) => word.length >= shortestName)) return null;
  return languages.find((language) => wanted.every((word) => glossaryOf(language).has(word))) ?? null;
}

/** Words that announce rows, each with its language and what it announces. */
export const headWords: ReadonlyMap<string, { readonly language: Language; readonly word: "row" | "round" }> =
  new Map(
    [...languages].reverse().flatMap((language) =>
      (["row", "round"] as const).flatMap((word) =>
        language[word].words
          .split("|")
          .filter((one) => one !== "")
          .map((one) => [one, { language, word }] as const),
      ),
    ),
  );

/** How a starting chain is asked for in all languages: `Faça 16 corr`, `16 Lm anschlagen`. */
export const startingChain: string = chainForm();

function chainForm(): string {
  const verbs = alternatives(languages.flatMap(({ chain }) => chain.verbs.split("|")));
  const names = languages.flatMap((language) => stitchNamesIn(language, "all").get("ch") ?? []);
  const words = alternatives(names.map((name) => name.toLowerCase()));
  return `(?:(?:${verbs})\\s+\\d+\\s*(?:${words})(?!\\p{L})|\\d+\\s*(?:${words})\\s+(?:anschlagen|opzetten|slås op)(?!\\p{L}))`;
}

/** Spellings as one regular expression, the longest first. */
export function alternatives(spellings: readonly string[]): string {
  return [...new Set(spellings)]
    .filter((one) => one !== "")
    .sort((a, b) => b.length - a.length)
    .map((one) => one.replace(/[.*+?]/g, "\\$&"))
    .join("|");
}
