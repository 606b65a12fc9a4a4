import type { Chunk } from "../../text/chunks";
import { keptBy } from "../../text/kept-by";
import { isAbbreviation } from "../../trade/abbreviations";
import type { LineContent } from "../document";
import type { PatternLine } from "../lines";
import { type Paragraph, type ParagraphContent, paragraphChunksOf, paragraphsOf } from "../paragraphs";
import { partOf, type Stretch } from "./stretch";

/** What a line of the front matter speaks of; `other` for what stands there without a title. */
export type Topic =
  | "abbreviations"
  | "stitches"
  | "special-stitches"
  | "materials"
  | "yarn"
  | "hook"
  | "gauge"
  | "sizes"
  | "measurements"
  | "notions"
  | "terms"
  | "notes"
  | "other";

/** One line of the front matter. */
export interface FrontLine {
  readonly topic: Topic;
  /** `Materials`, `Gauge`, where the line has a title of its own. */
  readonly title: Stretch | null;
  /** What is said, without title and bullet; empty under a title that stands alone. */
  readonly content: Stretch;
  /** The whole line. */
  readonly line: Stretch;
  /** Where the line starts in the pattern, with its blanks. */
  readonly at: number;
  /** What the line is wherever it stands. */
  readonly of: LineContent;
  /** Lines under one title have the same number. */
  readonly section: number;
}

const whose = "(?:US|UK|American|British)";

const titles: readonly (readonly [Topic, string])[] = [
  ["special-stitches", "special (?:stitch(?:es)?|abbreviations?|terms|techniques?)"],
  [
    "abbreviations",
    `(?:list of )?(?:${whose} )?(?:crochet |stitch |common )?(?:(?:stitches|terms|terminology|techniques|symbols) (?:and|&) )?(?:abbreviations?|abbrevs?\\.?|abb\\.?)(?: (?:and|&) (?:stitches|terms|terminology|techniques|symbols))?(?: (?:used|list|key|guide|explained|in this pattern))?`,
  ],
  [
    "stitches",
    `(?:${whose} )?stitch(?:es)? (?:used|guide|key|list|legend|explained)|stitches|legend|key|conventions|glossary|shorthand`,
  ],
  [
    "materials",
    "materials? list|list of materials|materials?(?: (?:needed|required|used))?|(?:materials|yarn) (?:and|&) (?:tools|notions|hook|supplies)|(?:tools|yarn|hook) (?:and|&) materials|(?:what |things |stuff )?(?:you|we)(?:['’]ll| will)?(?: also)? need(?:ed)?|what (?:is|you['’]ll be) (?:needed|using)|supplies|shopping list|ingredients|requirements",
  ],
  ["yarn", "yarns?|colou?rs?|wool|thread"],
  ["hook", "(?:crochet )?hooks?(?: sizes?)?"],
  ["gauge", "gauge|tension|stitches control"],
  [
    "measurements",
    "(?:finished |actual |approx(?:imate)? )?(?:measurements?|size|height|width|length|diameter|(?:\\w+ )?circumference|dimensions)",
  ],
  ["sizes", "sizes?|to fit(?: [\\w ]{1,20})?"],
  [
    "notions",
    "notions|tools|extras|you(?:['’]ll| will)? also need|other(?: (?:materials|supplies|things|notions))?|also needed|accessories|additional (?:materials|supplies)|haberdashery",
  ],
  ["terms", "terms?|terminology"],
  ["notes", "(?:pattern )?notes?"],
];

/** A title and what may stand behind it: nothing, a mark, a bracket, or at once its content. */
const forms = titles.map(([topic, words]) => ({
  topic,
  form: new RegExp(
    `^[\\s#*_>|]*(?:${whose} (?:crochet )?(?:terms|terminology)[.;]\\s+)?(${words})[*_]*(?:\\s*\\([^()]{0,40}\\))?[*_]*${termsBehind(topic)}(?:\\s*[:=–—]+[*_]*\\s*|(?<=(?:US|UK|American|British|terms?|terminology))\\.\\s+|\\s+-+(?:\\s+|$)|\\s*#*\\s*$|\\s+(?=\\d${leading(topic)}))`,
    "iu",
  ),
}));

/** `Abbreviations, US terms`, `Abbreviations — US`: whose they are is no entry of the list. */
function termsBehind(topic: Topic): string {
  if (topic !== "abbreviations" && topic !== "stitches") return "";
  return `(?:[\\s,:–—-]+(?:in )?${whose}(?: (?:crochet )?(?:terms?|terminology))?(?=[\\s*_]*(?:[:#]|\\.\\s|$)))?`;
}

/** Titles that many patterns go on from without a mark: `TENSION 24dc`, `Abbreviations see page 9`. */
function leading(topic: Topic): string {
  if (topic === "abbreviations" || topic === "materials" || topic === "gauge") return "|\\S";
  return topic === "yarn" ? "|[A-H]\\b" : "";
}

/** `Size: 20 cm` is a measurement where it holds a length, else the name of a size. */
function topicOf(topic: Topic, title: string, content: string): Topic {
  return topic === "measurements" &&
    /^sizes?$/i.test(title) &&
    !/\d\s*(?:cm|mm|in\b|inch|["″])/i.test(content)
    ? "sizes"
    : topic;
}

interface Title {
  readonly topic: Topic;
  readonly title: Stretch;
  readonly content: Stretch;
}

const bullet = /^\s*(?:[•·▪*>]|-(?=\s))\s*/u;

function titleOf(line: PatternLine): Title | null {
  const found = titleIn(line.content);
  return (
    found && {
      topic: found.topic,
      title: partOf(line, found.at, found.at + found.length),
      content: partOf(line, found.contentAt),
    }
  );
}

/** `US terms` with abbreviations right below it. */
function termsOverList(line: PatternLine, below: PatternLine | undefined): Title | null {
  if (!termsAlone.test(line.text) || below === undefined) return null;
  const [, name = ""] = /^[\s•*-]*([\p{L} ]{1,12}?)\s*(?:\s-|[=:–—])/u.exec(below.text) ?? [];
  return isAbbreviation(name.trim())
    ? { topic: "stitches", title: partOf(line, 0), content: partOf(line, line.text.length) }
    : null;
}

const termsAlone = new RegExp(`^[\\s#*_]*${whose}(?: crochet)? (?:terms?|terminology)[\\s:*_]*$`, "iu");

/** Looked for once in each line: patterns have many headings. */
const titleIn = keptBy(({ text }: LineContent) => {
  if (/^\s*(?:[•·▪-]|\*\s)/u.test(text)) return null;
  for (const { topic, form } of forms) {
    const [all, words] = form.exec(text) ?? [];
    if (all === undefined || words === undefined) continue;
    const content = text.slice(all.length).trim();
    const found = { at: all.indexOf(words), length: words.length, contentAt: all.length };
    return { ...found, topic: topicOf(topic, words, content) };
  }
  return null;
});

/** Characters; a longer line is no front matter. */
const longestLine = 5_000;

/** A list that is still open, and how it goes on. */
interface Open {
  readonly topic: Topic;
  readonly section: number;
  /** A list below its title goes on to the next blank line; a line with its title goes on behind a comma. */
  readonly goesOn: "list" | "comma";
  readonly filled: boolean;
}

/**
 * The lines of a pattern that are no rows: all lines before the first row, and later the lists
 * under a title that is known.
 */
export function readFrontLines(lines: readonly PatternLine[]): FrontLine[] {
  const reader = new FrontReader(lines);
  const paragraphs = paragraphsOf(lines);
  for (const { chunk, from } of paragraphChunksOf(lines)) {
    if (reader.isDone && !hasTitles(chunk)) continue;
    for (const paragraph of paragraphs.slice(from, from + chunk.items.length)) reader.take(paragraph);
  }
  return reader.found;
}

/** Whether a paragraph behind the first row may hold a list. */
const hasTitle = keptBy(({ lines }: ParagraphContent) =>
  lines.some((line) => line.kind !== "row" && line.text.length <= longestLine && titleIn(line) !== null),
);

const hasTitles = keptBy(({ items }: Chunk<ParagraphContent>) => items.some(hasTitle));

class FrontReader {
  readonly found: FrontLine[] = [];
  private open: Open | null = null;
  private worked = false;

  constructor(private readonly lines: readonly PatternLine[]) {}

  /** Nothing but another title can tell of more. */
  get isDone(): boolean {
    return this.worked && this.open === null;
  }

  take({ content, first }: Paragraph): void {
    if (this.open?.filled && this.lines[first - 1]?.kind === "blank") this.open = null;
    if (this.isDone && !hasTitle(content)) return;
    for (let i = first; i < first + content.lines.length; i++) this.takeLine(this.lines[i] as PatternLine, i);
  }

  private takeLine(line: PatternLine, i: number): void {
    if (line.text.length > longestLine) return;
    if (!isWorked(line, this.open)) return this.takeSaid(line, i);
    this.worked = true;
    this.open = null;
  }

  /** Behind the first row, prose is no front matter unless it stands under a title. */
  private takeSaid(line: PatternLine, i: number): void {
    const mayBeTitle = !this.worked || line.kind !== "prose" || this.open !== null;
    const title = mayBeTitle ? (titleOf(line) ?? termsOverList(line, this.lines[i + 1])) : null;
    // `Yarn: Petrol.` above the rows of a piece takes a yarn up and lists none.
    if (this.worked && title?.topic === "yarn" && !/\d/.test(title.content.text)) return;
    if (this.open && !title && !goesOn(this.open, this.lines, i)) this.open = null;
    const front = frontLine(line, title, this.open, i);
    if (front.topic !== "other" || !this.worked) this.found.push(front);
    if (title) this.open = openedBy(title, front, this.open);
    else if (this.open) this.open = { ...this.open, filled: true };
  }
}

/** Rows, and what else is worked; a numbered sentence of an open list is not. */
function isWorked({ kind, head, text }: PatternLine, open: Open | null): boolean {
  if (kind === "row") return !(open?.topic === "notes" && head?.word === "none");
  if (kind === "copy" || kind === "size") return open === null;
  return kind === "foundation" && !(open && /[=:]|\s[-–—]\s/.test(text));
}

function frontLine(line: PatternLine, title: Title | null, open: Open | null, section: number): FrontLine {
  const whole = { line: partOf(line, 0), at: line.start, of: line.content };
  if (title) {
    const inside = open !== null && belongsTo(title.topic, open);
    return { ...title, ...whole, section: inside ? open.section : section };
  }
  const content = partOf(line, bullet.exec(line.text)?.[0].length ?? 0);
  const { topic, section: of } = open ?? { topic: "other" as const, section };
  return { topic, title: null, content, ...whole, section: of };
}

function openedBy({ topic, content }: Title, { section }: FrontLine, open: Open | null): Open | null {
  if (open !== null && belongsTo(topic, open)) return { ...open, filled: true };
  if (content.text === "") return { topic, section, goesOn: "list", filled: false };
  return { topic, section, goesOn: "comma", filled: true };
}

/** `Yarn: …` and `Hook: …` are lines of the list of materials they stand in. */
function belongsTo(topic: Topic, open: Open): boolean {
  return (
    open.topic === "materials" &&
    open.goesOn === "list" &&
    (topic === "yarn" || topic === "hook" || topic === "notions")
  );
}

/** `Start with Brown.` right above the first row is none of the materials. */
function beginsWork(lines: readonly PatternLine[], i: number): boolean {
  const { text = "" } = lines[i] ?? {};
  if (!/^\s*(?:(?:start|begin)\s+(?:with|in)|with|using)\s/i.test(text)) return false;
  const next = lines.slice(i + 1, i + 3).find(({ kind }) => kind !== "blank");
  return next?.kind === "row" || next?.kind === "foundation";
}

function goesOn(open: Open, lines: readonly PatternLine[], i: number): boolean {
  if (open.goesOn === "comma") return /[,;]\s*$/.test(lines[i - 1]?.text ?? "");
  if (lines[i]?.kind !== "heading") return !beginsWork(lines, i);
  const next = lines.slice(i + 1, i + 4).find(({ kind }) => kind !== "blank");
  return (
    next?.kind !== "row" && next?.kind !== "foundation" && !/^\s*(?:with|using)\s/i.test(next?.text ?? "")
  );
}
