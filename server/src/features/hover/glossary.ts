import type { PatternLine } from "../../notation/document";
import type { WorkedPattern } from "../../rules/rule";
import type { Span } from "../../text/span";

/** What a pattern itself says of a name: `sk - skip`, `Shell: 5 dc in one st.` */
export interface Entry {
  readonly name: string;
  readonly says: string;
  /** The line it stands in. */
  readonly line: Span;
}

const known = new WeakMap<WorkedPattern, ReadonlyMap<string, Entry>>();

/** What the pattern says of a name, in any case, in the singular or plural; undefined where it says nothing. */
export function explained(pattern: WorkedPattern, name: string): Entry | undefined {
  let entries = known.get(pattern);
  if (!entries) {
    entries = new Map(pattern.lines.filter(mayExplain).flatMap(entriesOf));
    known.set(pattern, entries);
  }
  const asked = name.toLowerCase();
  return entries.get(asked) ?? entries.get(asked.replace(/s$/, ""));
}

/** Characters; a longer line explains no abbreviation. */
const longestLine = 2_000;

function mayExplain({ kind, text }: PatternLine): boolean {
  return (
    kind !== "row" &&
    kind !== "copy" &&
    kind !== "foundation" &&
    kind !== "blank" &&
    text.length <= longestLine
  );
}

const listed =
  /^\s*(?:abbreviations?|special stitch(?:es)?|stitch(?:es)? used|stitch (?:guide|key)|legend)\s*[:–-]\s*/i;
/** In `Hook: 4 mm` the colon explains no name. */
const inField = /^\s*([\p{L}\p{N}][^=:–—]{0,40}?)\s*(?:=|\s[-–—]\s)\s*(.+)$/u;
const elsewhere = /^\s*([\p{L}\p{N}][^=:–—]{0,40}?)\s*(?:=|:|\s[-–—]\s|[–—]\s)\s*(.+)$/u;

function entriesOf(line: PatternLine): [string, Entry][] {
  const text = line.text.replace(listed, "");
  const shape = line.kind === "field" && text === line.text ? inField : elsewhere;
  return text.split(/\s*[;•·]\s*|,\s*(?=[\p{L}\d][^,=]{0,12}=)/u).flatMap((part) => {
    const match = shape.exec(part);
    if (!match) return [];
    const [name = "", says = ""] = match.slice(1).map((text) => text.trim());
    return namesIn(name).map((one): [string, Entry] => [one, { name, says, line }]);
  });
}

/** `sp(s)`, `MR / magic ring`: every name that a part gives. */
function namesIn(name: string): string[] {
  const singular = name.replace(/\((?:e?s)\)/g, "");
  return singular
    .toLowerCase()
    .split(/\s*[/,()]\s*|\s+or\s+/)
    .filter((one) => one !== "");
}
