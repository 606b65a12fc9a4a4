import { danish } from "./danish";
import { dutch } from "./dutch";
import { finnish } from "./finnish";
import { french } from "./french";
import { german } from "./german";
import { italian } from "./italian";
import { japanese } from "./japanese";
import type { Language } from "./language";
import { norwegian } from "./norwegian";
import { portuguese } from "./portuguese";
import { russian } from "./russian";
import { spanish } from "./spanish";
import { swedish } from "./swedish";

export type { Language } from "./language";

/** The languages that patterns are read in. Where two announce rows by the same word, the first is meant. */
export const languages: readonly Language[] = [
  german,
  french,
  spanish,
  portuguese,
  danish,
  dutch,
  italian,
  russian,
  finnish,
  swedish,
  norwegian,
  japanese,
];

/** The language of a code, or of what it is called in English or by itself; any capitals. */
export function languageNamed(name: string): Language | undefined {
  const wanted = name.toLowerCase();
  return languages.find(
    ({ code, name, itself }) =>
      code === wanted || name.toLowerCase() === wanted || itself.split("|").includes(wanted),
  );
}

/** The spellings of each stitch in a language, by its US letters; only those with a source, if so wanted. */
export function stitchNamesIn(
  { stitches }: Language,
  wanted: "all" | "sourced",
): ReadonlyMap<string, string[]> {
  const names = new Map<string, string[]>();
  for (const { source, names: printed } of stitches)
    if (wanted === "all" || source !== null)
      for (const [us, spellings] of Object.entries(printed))
        names.set(us, [...new Set([...(names.get(us) ?? []), ...spellings.split("|")])]);
  return names;
}
