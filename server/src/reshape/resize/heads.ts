import { isNew, type NumberedRow } from "./draft";

/** What stands before the instructions of a line, with the numbers that its rows have now. */
export function leadFor(lead: string, numbered: NumberedRow, sample: string | null): string {
  const { from, rows, row } = numbered;
  if (from === null || row.line.head?.from == null) return lead;
  const plain = isNew(numbered) ? withoutLabel(lead, row.line.head.label) : lead;
  const numbers = [...plain.matchAll(/\d+/g)];
  const [first, second] = numbers;
  if (!first) return lead;
  const to = from + rows - 1;
  const isRange = row.line.head.to !== null;
  if (!isRange && rows === 1) return withNumber(plain, first, `${from}`);
  if (!isRange) return plural(withNumber(plain, first, rangeLike(sample, plain, from, to)));
  if (rows === 1) return singular(`${plain.slice(0, first.index)}${from}${behindRange(plain)}`);
  const end = second ? withNumber(plain, second, `${to}`) : plain;
  return withNumber(end, first, `${from}`);
}

function withNumber(text: string, { 0: digits, index }: RegExpExecArray, newText: string): string {
  return text.slice(0, index) + newText + text.slice(index + digits.length);
}

/** `(Eyelet Rnd)` belongs to the row that has it. */
function withoutLabel(lead: string, label: string): string {
  const said = label.replace(/[\s:.–—-]+$/, "");
  return !/\p{L}/u.test(said) ? lead : lead.replace(said, "").replace(/\s+(?=[:.])/, "");
}

/** What follows the second number of a range. */
function behindRange(lead: string): string {
  return lead.replace(/^\D*\d+\D+\d+/, "");
}

/** `7-9`, or `R7-R9` where the pattern writes its ranges so. */
function rangeLike(sample: string | null, lead: string, from: number, to: number): string {
  const [, sign = "-", again = ""] = /\d(\s*[-–—]\s*)(\D*)\d/.exec(sample ?? "") ?? [];
  return `${from}${sign}${again === "" ? "" : (/(\p{L}+)\s*\d/u.exec(lead)?.[1] ?? "")}${to}`;
}

function plural(lead: string): string {
  return lead.replace(/\b(rnd|round|row|rd)\b(?=\.?\s*#?\s*\d)/i, "$1s");
}

function singular(lead: string): string {
  return lead.replace(/\b(rnd|round|row|rd)s\b(?=\.?\s*#?\s*\d)/i, "$1");
}
