/** Where the hook labels were read. */
export const hookSources = {
  lindley:
    "Lindley General Store needle and hook chart (cdn.shopify.com/s/files/1/2284/3931/files/Knitting_Needle_Conversion_Chart_0abb8724-d65e-4ae3-84d1-9a41893c7f1d.pdf)",
  tangled:
    "Tangled Yarn chart, crochet columns (cdn.shopify.com/s/files/1/0218/9234/files/Tangled_Yarn_Needle_Conversion_Chart_1.pdf)",
  matifs: "matifs.com/crochet-hooks-size-chart",
  grosor:
    "Grosor de los Crochets (cdn.shopify.com/s/files/1/0605/4900/5517/files/Grosor_de_los_Crochets.pdf)",
  sheets: "Yarnspirations pattern sheets",
  reference: "reference.com/hobbies-games/different-american-crochet-hook-sizes-a6c78d7fa99fed25",
  council: "Craft Yarn Council hook list, from memory",
} as const;

type Labels = Readonly<Partial<Record<keyof typeof hookSources, string>>>;

/** One hook. Millimetres are the only sure key: letters and numbers differ between publishers. */
export interface Hook {
  readonly mm: number;
  /** The US letter and number that each source prints. */
  readonly us: Labels;
  /** The old UK number that each source prints. */
  readonly ukOld: Labels;
}

/** Thinnest first. The disagreements are kept: one letter may stand at several sizes. */
export const hooks: readonly Hook[] = [
  { mm: 1, us: {}, ukOld: { lindley: "19" } },
  { mm: 1.25, us: {}, ukOld: { lindley: "18" } },
  { mm: 1.5, us: {}, ukOld: { lindley: "17" } },
  { mm: 1.75, us: {}, ukOld: { lindley: "15" } },
  { mm: 2, us: { matifs: "B/1", grosor: "B/1" }, ukOld: { lindley: "14", tangled: "14", matifs: "14" } },
  {
    mm: 2.25,
    us: { lindley: "B-1", tangled: "B/1", matifs: "B/1", council: "B-1" },
    ukOld: { lindley: "13", tangled: "13", matifs: "13" },
  },
  { mm: 2.5, us: { grosor: "C/2", reference: "B" }, ukOld: { tangled: "12" } },
  {
    mm: 2.75,
    us: { lindley: "C-2", tangled: "C/2", matifs: "C/2", sheets: "C/2", council: "C-2" },
    ukOld: { lindley: "12", tangled: "11", matifs: "12" },
  },
  { mm: 3, us: {}, ukOld: { lindley: "11", tangled: "11" } },
  { mm: 3.125, us: { council: "D" }, ukOld: {} },
  {
    mm: 3.25,
    us: { lindley: "D-3", tangled: "D/3", matifs: "D/3", grosor: "D/3", sheets: "D/3", council: "D-3" },
    ukOld: { lindley: "10", tangled: "10", matifs: "10" },
  },
  {
    mm: 3.5,
    us: { lindley: "E-4", tangled: "E/4", matifs: "E/4", grosor: "E/4", council: "E-4" },
    ukOld: { tangled: "9", matifs: "9" },
  },
  {
    mm: 3.75,
    us: { lindley: "F-5", tangled: "F/5", matifs: "F/5", grosor: "F/5", council: "F-5" },
    ukOld: { lindley: "9" },
  },
  {
    mm: 4,
    us: { lindley: "G-6", tangled: "G/6", matifs: "G/6", grosor: "G/6", council: "G-6" },
    ukOld: { lindley: "8", tangled: "8", matifs: "8" },
  },
  { mm: 4.25, us: { council: "G" }, ukOld: {} },
  {
    mm: 4.5,
    us: { lindley: "7", matifs: "7", grosor: "7", sheets: "7", council: "7" },
    ukOld: { lindley: "7", tangled: "7", matifs: "7" },
  },
  {
    mm: 5,
    us: { lindley: "H-8", tangled: "H/8", matifs: "H/8", grosor: "H/8", sheets: "H/8", council: "H-8" },
    ukOld: { lindley: "6", tangled: "6", matifs: "6" },
  },
  { mm: 5.25, us: { council: "I" }, ukOld: {} },
  {
    mm: 5.5,
    us: { lindley: "I-9", tangled: "I/9", matifs: "I/9", grosor: "I/9", sheets: "9", council: "I-9" },
    ukOld: { lindley: "5", tangled: "5", matifs: "5" },
  },
  { mm: 5.75, us: { council: "J" }, ukOld: {} },
  {
    mm: 6,
    us: { lindley: "J-10", tangled: "J/10", matifs: "J/10", grosor: "J/10", sheets: "J/10", council: "J-10" },
    ukOld: { lindley: "4", tangled: "3", matifs: "4" },
  },
  {
    mm: 6.5,
    us: {
      lindley: "K-10 1/2",
      tangled: "K/10.5",
      matifs: "K/10.5",
      grosor: "K/10.5",
      sheets: "K/10 1/2",
      council: "K-10 1/2",
    },
    ukOld: { lindley: "3", tangled: "2", matifs: "3" },
  },
  { mm: 7, us: {}, ukOld: { lindley: "2", tangled: "1" } },
  { mm: 7.5, us: {}, ukOld: { lindley: "1" } },
  {
    mm: 8,
    us: { lindley: "L-11", tangled: "L/11", matifs: "L/11", grosor: "L/11", sheets: "L/11", council: "L-11" },
    ukOld: { lindley: "0", tangled: "0", matifs: "0" },
  },
  {
    mm: 9,
    us: {
      lindley: "M/N-13",
      tangled: "M/13",
      matifs: "M/N/13",
      grosor: "M/13",
      sheets: "M/13",
      council: "M/N-13",
    },
    ukOld: { lindley: "00", tangled: "00", matifs: "00" },
  },
  {
    mm: 10,
    us: {
      lindley: "N/P-15",
      tangled: "N/15",
      matifs: "N/P/15",
      grosor: "N/13",
      sheets: "N/15",
      council: "N/P-15",
    },
    ukOld: { lindley: "000", tangled: "000", matifs: "000" },
  },
  { mm: 11.5, us: { tangled: "P/16", sheets: "P-16", council: "P-16" }, ukOld: {} },
  { mm: 12, us: { lindley: "O", grosor: "O/16" }, ukOld: {} },
  { mm: 15, us: { lindley: "P/Q", grosor: "P/19", sheets: "P", council: "P/Q" }, ukOld: {} },
  { mm: 15.75, us: { council: "Q" }, ukOld: {} },
  { mm: 16, us: { tangled: "Q", grosor: "Q", council: "Q" }, ukOld: {} },
  { mm: 17.5, us: { grosor: "R" }, ukOld: {} },
  { mm: 19, us: { grosor: "S/35", council: "S-35" }, ukOld: {} },
  { mm: 25, us: { council: "T/U/X" }, ukOld: {} },
  { mm: 30, us: { council: "T/X" }, ukOld: {} },
];

/** A steel hook for thread. */
export interface SteelHook {
  readonly size: string;
  readonly mm: number;
  readonly source: string;
}

const fromMemory = "from memory";
const homeQuestions = "homequestionsanswered.com/what-are-the-different-crochet-hook-sizes.htm";
const craftLessons = "anniescatalog.com/studio/learn.html?cat_id=3&content_id=708";

/**
 * Thickest first. Another printed table (222handspun.com/tips-and-tutorials/tag/Yarn%20size%20gauge)
 * has 1.6 to 1.4 mm for sizes 6 to 8.
 */
export const steelHooks: readonly SteelHook[] = [
  { size: "00", mm: 3.5, source: homeQuestions },
  { size: "0", mm: 3.25, source: fromMemory },
  { size: "1", mm: 2.75, source: fromMemory },
  { size: "2", mm: 2.25, source: fromMemory },
  { size: "3", mm: 2.1, source: fromMemory },
  { size: "4", mm: 2, source: fromMemory },
  { size: "5", mm: 1.9, source: fromMemory },
  { size: "6", mm: 1.8, source: fromMemory },
  { size: "7", mm: 1.65, source: craftLessons },
  { size: "8", mm: 1.5, source: fromMemory },
  { size: "9", mm: 1.4, source: fromMemory },
  { size: "10", mm: 1.3, source: fromMemory },
  { size: "11", mm: 1.1, source: fromMemory },
  { size: "12", mm: 1, source: fromMemory },
  { size: "13", mm: 0.85, source: fromMemory },
  { size: "14", mm: 0.75, source: homeQuestions },
];

/**
 * The sizes in millimetres that a US label may mean: a letter, a number, or both as in `H-8`, `K/10.5`
 * and `K-10 1/2`. With a letter and a number, only sizes that some source prints with both. Empty when
 * nobody prints it.
 */
export function hookSizesOf(label: string): readonly number[] {
  const wanted = partsOf(label);
  const fits = (printed: string) => wanted.every((part) => partsOf(printed).includes(part));
  return wanted.length === 0
    ? []
    : hooks.filter((hook) => Object.values(hook.us).some(fits)).map((hook) => hook.mm);
}

/** The sizes in millimetres that an old UK number may mean; empty when nobody prints it. */
export function hookSizesOfUk(label: string): readonly number[] {
  return hooks.filter(({ ukOld }) => Object.values(ukOld).includes(label.trim())).map(({ mm }) => mm);
}

/** The sizes in millimetres that a number of a steel hook may mean: the table above, and the other printed one. */
export function hookSizesOfSteel(label: string): readonly number[] {
  const size = label.trim();
  const other = { "6": 1.6, "7": 1.5, "8": 1.4 }[size];
  return [...steelHooks.filter((hook) => hook.size === size).map(({ mm }) => mm), ...(other ? [other] : [])];
}

/** The US label most sources print for a size, with a hyphen; null where a size has none. */
export function hookLabelOf(mm: number): string | null {
  const printed = Object.values(hooks.find((hook) => hook.mm === mm)?.us ?? {}).map((label) =>
    partsOf(label).join("-"),
  );
  const times = (label: string) => printed.filter((other) => other === label).length;
  return printed.toSorted((a, b) => times(b) - times(a))[0] ?? null;
}

function partsOf(label: string): string[] {
  return (
    label
      .toUpperCase()
      .replace(/[ -]1\/2|\s?½/, ".5")
      .match(/[A-Z]|\d+(\.\d+)?/g) ?? []
  );
}
