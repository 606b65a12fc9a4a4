// What people read is told in their language. English is the source: a sentence stands where it is
// said, and the whole of it, with {0}, {1} … for what is put in, is looked up in the other language.

/** The sentences of a language by the English ones. */
export type Sentences = Readonly<Record<string, string>>;

type Value = string | number | null | undefined;

let spoken: Sentences | null = null;

/** From now on sentences are told in this language; what it lacks, and everything where it is null, in English. */
export function speak(sentences: Sentences | null): void {
  spoken = sentences;
}

/** A sentence in the language that is spoken: say`${row} needs ${n} stitches.` */
export function say(parts: TemplateStringsArray, ...values: readonly Value[]): string {
  const told = spoken === null ? undefined : spoken[keyOf(parts)];
  return told === undefined ? joined(parts, values) : filled(told, values);
}

/** Of a table by any words, what is not in it is undefined. */
type Saying<K extends string> = string extends K ? string | undefined : string;

/** Words that are told when they are asked for, so that tables of them can be made before it is known who reads. */
export function sayings<K extends string>(table: Readonly<Record<K, string>>): (key: K) => Saying<K> {
  return (key) => (spoken?.[table[key]] ?? table[key]) as Saying<K>;
}

/** What is written into a pattern is told in English, whoever reads. */
export function inEnglish<T>(work: () => T): T {
  const other = spoken;
  spoken = null;
  try {
    return work();
  } finally {
    spoken = other;
  }
}

function joined(parts: readonly string[], values: readonly Value[]): string {
  let text = parts[0] ?? "";
  for (let i = 0; i < values.length; i++) text += `${values[i]}${parts[i + 1]}`;
  return text;
}

const keys = new WeakMap<TemplateStringsArray, string>();

function keyOf(parts: TemplateStringsArray): string {
  let key = keys.get(parts);
  if (key === undefined) {
    key = parts.reduce((before, part, i) => `${before}{${i - 1}}${part}`);
    keys.set(parts, key);
  }
  return key;
}

function filled(told: string, values: readonly Value[]): string {
  return told.replace(/\{(\d)\}/g, (_, i) => `${values[Number(i)]}`);
}
