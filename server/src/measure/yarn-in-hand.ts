import { type Copy, copyOf } from "../fabric/copies";
import type { RowLine } from "../fabric/pattern";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { LineContent } from "../notation/document";
import { readLengths } from "../notation/front-matter/lengths";
import { stretchAt } from "../notation/front-matter/stretch";
import type { PatternLine } from "../notation/lines";
import { lettersAlone, type YarnMention, yarnsIn } from "../notation/mentions/yarns";
import { keptBy } from "../text/kept-by";
import { convertLength } from "../trade/units";
import type { YarnKey, YarnList } from "./yarn-list";

export type { YarnKey } from "./yarn-list";

/** With which yarns the rows of one piece are worked. */
export interface PieceYarns {
  /** The yarns in hand when each row begins, in the order of the rows: one for each that a line asks for in turn. */
  readonly atStart: readonly (readonly YarnKey[])[];
  /** Ends to weave in and to sew with, in millimetres. */
  readonly tails: ReadonlyMap<YarnKey, number>;
}

/** Common practice: at least 15 cm (free-crochet.com/blog/?p=735, "at least 6 in (15 cm)"). */
const usualTail = 150;

/** Follows the yarns through a piece; its lines are those from its heading to the next one. */
export function yarnsOfPiece(piece: WorkedPiece, lines: readonly PatternLine[], list: YarnList): PieceYarns {
  const reader = new HandReader(list);
  const rows = new Map(piece.rows.map((row) => [lineStart(row.line), row]));
  let end = -1;
  for (const line of lines) {
    const row = rows.get(line.start) ?? rowFrom(rows, line);
    if (row) {
      reader.row(row, line);
      end = row.line.span.end;
    } else if (line.start >= end) reader.between(line);
  }
  return reader;
}

/** A row may begin in the middle of its line, behind another. */
function rowFrom(
  rows: ReadonlyMap<number, WorkedRow>,
  { start, end, text }: PatternLine,
): WorkedRow | undefined {
  const indent = text.length - text.trimStart().length;
  return indent > 0 && start + indent < end ? rows.get(start + indent) : undefined;
}

function lineStart({ span }: RowLine): number {
  return span.start;
}

class HandReader implements PieceYarns {
  readonly atStart: (readonly YarnKey[])[] = [];
  readonly tails = new Map<YarnKey, number>();
  private readonly byNumber = new Map<number, YarnKey>();
  private hand: YarnKey = 0;
  /** Nothing is worked yet with the yarn in hand. */
  private isFresh = true;

  constructor(private readonly list: YarnList) {}

  between({ content }: PatternLine): void {
    this.takeAll(
      content.kind === "heading" ? this.namedIn(content.text) : mentionsIn(content).map(({ name }) => name),
    );
    this.tail(content.text);
  }

  row(row: WorkedRow, { content, start }: PatternLine): void {
    const before = row.line.start - start;
    const inHead = mentionsIn(content).filter(({ end }) => end <= before);
    this.takeAll([...this.lettersIn(content.text.slice(0, before)), ...inHead.map(({ name }) => name)]);
    const turns = this.turnsOf(row);
    this.atStart.push(turns);
    this.number(row, turns);
    for (const turn of turns) this.work(turn, 1);
    this.again(row, turns);
    this.takeAll(yarnsIn(row.line.text).map(({ name }) => name));
    this.tail(row.line.text);
  }

  /** Rows that are repeated in turn, in several yarns, are repeated in those. */
  private turnsOf({ line }: WorkedRow): readonly YarnKey[] {
    const copy = copyOf(line.content);
    const yarns = copy ? rowsOf(copy).map((n) => this.byNumber.get(n) ?? this.hand) : [];
    return new Set(yarns).size > 1 ? yarns : [this.hand];
  }

  private number({ line: { head } }: WorkedRow, turns: readonly YarnKey[]): void {
    if (head?.from == null) return;
    const last = Math.max(head.from, ...(head.to ?? []).map((n) => n ?? 0));
    for (let n = head.from; n <= Math.min(last, head.from + 500); n++)
      this.byNumber.set(n, turns[(n - head.from) % turns.length] as YarnKey);
  }

  /** The changes of yarn of the passes behind the first one. */
  private again({ outcome }: WorkedRow, turns: readonly YarnKey[]): void {
    if (turns.length === 1) return;
    const rows = (outcome?.worked ?? []).reduce((sum, { times }) => sum + times, 0);
    const passes = Math.floor(rows / turns.length) - 1;
    for (const turn of turns) this.work(turn, passes);
  }

  private takeAll(names: readonly string[]): void {
    for (const name of names) {
      const taken = this.list.keyOf(name);
      this.isFresh ||= taken !== this.hand;
      this.hand = taken;
    }
  }

  private work(yarn: YarnKey, times: number): void {
    if (yarn === this.hand && !this.isFresh) return;
    this.addTail(yarn, 2 * usualTail * Math.max(times, 0));
    this.isFresh = false;
    this.hand = yarn;
  }

  private addTail(yarn: YarnKey, millimetres: number): void {
    this.tails.set(yarn, (this.tails.get(yarn) ?? 0) + millimetres);
  }

  /** `leaving a 25 cm tail`: in place of the usual one. */
  private tail(text: string): void {
    if (!/\btail\b/i.test(text) || this.isFresh) return;
    const [length] = readLengths(stretchAt(text, 0));
    const value = length?.values[0];
    if (!length || value === undefined || !tailLength.test(text)) return;
    this.addTail(this.hand, Math.max(convertLength(value, length.unit, "mm") - usualTail, 0));
  }

  private lettersIn(head: string): string[] {
    return lettersAlone(head).filter((letter) =>
      this.list.yarns.some(({ yarn }) => yarn?.letter?.text === letter),
    );
  }

  /** `LEAF (make 3 in green)`. */
  private namedIn(heading: string): string[] {
    const bracket = /[([]([^)\]]*)[)\]]/.exec(heading)?.[1]?.toLowerCase() ?? "";
    const words = bracket.split(/[\s,]+/);
    const named = this.list.yarns.flatMap(({ yarn }) =>
      yarn?.colour && words.includes(yarn.colour.text.toLowerCase()) ? [yarn.colour.text] : [],
    );
    if (named.length < 2) return named;
    // `make 9: 3 in coral, 3 in mint, 3 in cream`: each piece in one of them; else the piece begins with the first.
    const isShared = /\d\s+(?:each\s+)?in\b/.test(bracket);
    return isShared ? [named.join(eachInOne)] : [firstIn(bracket, named)];
  }
}

/** Between the yarns of pieces that are made in one of them each. */
export const eachInOne = " / ";

function firstIn(bracket: string, names: readonly string[]): string {
  const at = (name: string): number => bracket.indexOf(name.toLowerCase());
  return names.toSorted((a, b) => at(a) - at(b))[0] as string;
}

const tailLength = /\b(?:leav\w*|with|tail)\b[^.]*\d[^.]*\b(?:tail|long|cm|in)/i;

const mentionsIn: (content: LineContent) => readonly YarnMention[] = keptBy(({ text }) => yarnsIn(text));

/** Whether a line takes up a yarn or tells of a tail. */
export const tellsOfYarn: (content: LineContent) => boolean = keptBy(
  (content) => content.kind === "heading" || mentionsIn(content).length > 0 || /\btail\b/i.test(content.text),
);

function rowsOf(copy: Copy): readonly number[] {
  return copy.how === "rows" ? copy.rows : [];
}
