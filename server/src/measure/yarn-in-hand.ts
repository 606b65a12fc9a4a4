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
import { heldIn, tellsOfStrands } from "./held-together";
import { yarnsOfRow } from "./stitch-counts";
import type { YarnKey, YarnList } from "./yarn-list";

export type { YarnKey } from "./yarn-list";

/** What is worked with: one yarn, or several strands held together. */
export interface Hand {
  /** One entry a strand where the pattern tells them; else one. */
  readonly yarns: readonly YarnKey[];
  /** How much of the yarn of a stitch, all strands together, each entry is. */
  readonly share: number;
}

/** With which yarns the rows of one piece are worked. */
export interface PieceYarns {
  /** What is in hand when each row begins, in the order of the rows: one for each that a line asks for in turn. */
  readonly atStart: readonly (readonly Hand[])[];
  /** Ends to weave in and to sew with, in millimetres. */
  readonly tails: ReadonlyMap<YarnKey, number>;
}

/** Common practice: at least 15 cm (free-crochet.com/blog/?p=735, "at least 6 in (15 cm)"). */
const usualTail = 150;

/** Follows the yarns through a piece; its lines are those from its heading to the next one. */
export function yarnsOfPiece(
  piece: WorkedPiece,
  lines: readonly PatternLine[],
  { list, strands }: { readonly list: YarnList; readonly strands: number },
): PieceYarns {
  const reader = new HandReader(list, strands);
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
  readonly atStart: (readonly Hand[])[] = [];
  readonly tails = new Map<YarnKey, number>();
  private readonly byNumber = new Map<number, Hand>();
  private hand: Hand;
  /** Nothing is worked yet with the yarn in hand. */
  private isFresh = true;

  constructor(
    private readonly list: YarnList,
    private readonly strands: number,
  ) {
    this.hand = this.handOf(0);
  }

  between({ content }: PatternLine): void {
    const { kind, text } = content;
    this.takeAll(kind === "heading" ? this.namedIn(text) : mentionsIn(content).map(({ name }) => name));
    this.hold(text);
    this.tail(text);
  }

  row(row: WorkedRow, { content, start }: PatternLine): void {
    const before = row.line.start - start;
    const inHead = mentionsIn(content).filter(({ end }) => end <= before);
    this.takeAll([...this.lettersIn(content.text.slice(0, before)), ...inHead.map(({ name }) => name)]);
    this.hold(content.text.slice(0, before));
    const turns = this.turnsOf(row);
    this.atStart.push(turns);
    this.number(row, turns);
    for (const turn of turns) this.work(turn, 1);
    this.again(row, turns);
    const { plan, text } = row.line;
    this.takeAll((plan ? yarnsOfRow(plan) : yarnsIn(text)).map(({ name }) => name));
    this.hold(text);
    this.tail(text);
  }

  /** Rows that are repeated in turn, in several yarns, are repeated in those. */
  private turnsOf({ line }: WorkedRow): readonly Hand[] {
    const copy = copyOf(line.content);
    const hands = copy ? rowsOf(copy).map((n) => this.byNumber.get(n) ?? this.hand) : [];
    return hands.some((hand) => !isSame(hand, hands[0] as Hand)) ? hands : [this.hand];
  }

  private number({ line: { head } }: WorkedRow, turns: readonly Hand[]): void {
    if (head?.from == null) return;
    const last = Math.max(head.from, ...(head.to ?? []).map((n) => n ?? 0));
    for (let n = head.from; n <= Math.min(last, head.from + 500); n++)
      this.byNumber.set(n, turns[(n - head.from) % turns.length] as Hand);
  }

  /** The changes of yarn of the passes behind the first one. */
  private again({ outcome }: WorkedRow, turns: readonly Hand[]): void {
    if (turns.length === 1) return;
    const rows = (outcome?.worked ?? []).reduce((sum, { times }) => sum + times, 0);
    const passes = Math.floor(rows / turns.length) - 1;
    for (const turn of turns) this.work(turn, passes);
  }

  private takeAll(names: readonly string[]): void {
    for (const name of names) this.take(this.handOf(this.list.keyOf(name)));
  }

  /** `with A and B held together`, `with two strands of A`. */
  private hold(text: string): void {
    const yarns = heldIn(text, this.list, this.hand.yarns);
    if (yarns) this.take({ yarns, share: 1 / this.strands });
  }

  private take(taken: Hand): void {
    this.isFresh ||= !isSame(taken, this.hand);
    this.hand = taken;
  }

  /** Of yarns that are held together throughout, one stands for all. */
  private handOf(yarn: YarnKey): Hand {
    const { together } = this.list;
    return together.includes(yarn)
      ? { yarns: together, share: 1 / this.strands }
      : { yarns: [yarn], share: 1 };
  }

  private work(hand: Hand, times: number): void {
    if (isSame(hand, this.hand) && !this.isFresh) return;
    this.addTail(hand, 2 * usualTail * Math.max(times, 0));
    this.isFresh = false;
    this.hand = hand;
  }

  private addTail({ yarns, share }: Hand, millimetres: number): void {
    for (const yarn of yarns) this.tails.set(yarn, (this.tails.get(yarn) ?? 0) + millimetres * share);
  }

  /** `leaving a 25 cm tail`: in place of the usual one. */
  private tail(text: string): void {
    const told = this.isFresh ? null : tailIn(text);
    if (told !== null) this.addTail(this.hand, Math.max(told - usualTail, 0));
  }

  private lettersIn(head: string): string[] {
    const own = this.list.yarns.flatMap(({ yarn }) => yarn?.letter?.text ?? []);
    return own.length === 0 ? [] : lettersAlone(head).filter((letter) => own.includes(letter));
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

function isSame(a: Hand, b: Hand): boolean {
  return (
    a === b ||
    (a.share === b.share &&
      a.yarns.length === b.yarns.length &&
      a.yarns.every((yarn, i) => yarn === b.yarns[i]))
  );
}

/** Between the yarns of pieces that are made in one of them each. */
export const eachInOne = " / ";

function firstIn(bracket: string, names: readonly string[]): string {
  const at = (name: string): number => bracket.indexOf(name.toLowerCase());
  return names.toSorted((a, b) => at(a) - at(b))[0] as string;
}

const tailLength = /\b(?:leav\w*|with|tail)\b[^.]*\d[^.]*\b(?:tail|long|cm|in)/i;

/** Millimetres of a tail that is told with its length; null where none is. */
export function tailIn(text: string): number | null {
  if (!/\btail\b/i.test(text) || !tailLength.test(text)) return null;
  const [length] = readLengths(stretchAt(text, 0));
  const value = length?.values[0];
  return length && value !== undefined ? convertLength(value, length.unit, "mm") : null;
}

const mentionsIn: (content: LineContent) => readonly YarnMention[] = keptBy(({ text }) => yarnsIn(text));

const tailOrStrands = new RegExp(String.raw`\btail\b|${tellsOfStrands.source}`, "i");

/** Whether a line takes up a yarn, or tells of a tail or of several strands. */
export const tellsOfYarn: (content: LineContent) => boolean = keptBy(
  (content) =>
    content.kind === "heading" || mentionsIn(content).length > 0 || tailOrStrands.test(content.text),
);

function rowsOf(copy: Copy): readonly number[] {
  return copy.how === "rows" ? copy.rows : [];
}
