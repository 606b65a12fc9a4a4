import { pieceWriters } from "./pieces";
import { Random } from "./random";

const header = `Harbour Sampler

Every piece of the stall in many sizes, written down by many hands.

Terms: US
Level: easy

Materials
Worsted cotton: 50 g red, 20 g white, 10 g navy
3.5 mm (E/4) hook

Gauge: 20 sc and 22 rounds = 10 cm (4")

Abbreviations
MR = magic ring
ch = chain
sc = single crochet
hdc = half double crochet
dc = double crochet
inc = 2 sc in the same st
dec = sc2tog
BLO = back loop only
sk = skip
sp(s) = space(s)
st(s) = stitch(es)

Special stitches
Shell: 5 dc in one st.
Picot: ch 3, sl st in 3rd ch from hook.

Notes
Ch 1 at the start of a row does not count as a stitch. Ch 3 counts as a dc.
Safety: small parts can come off; keep them away from children under 3 years.
`;

const headed = /^(?:R|Rnds?|Rows?) ?\d+[^:]*: /;

/** One row in so many has a number that is off by one. */
const rowsPerSlip = 50;

export function isRow(line: string): boolean {
  return headed.test(line);
}

/** A pattern with at least so many rows, in the notation of the samples; hardly two rows are the same. */
export function longPattern(rows: number, seed: number): string {
  const random = new Random(seed);
  const lines = header.split("\n");
  let written = 0;
  for (let piece = 1; written < rows; piece++) {
    const body = random
      .oneOf(pieceWriters)(random)
      .map((line) => withSlip(line, random));
    lines.push("", nameOf(piece), ...body);
    written += body.filter(isRow).length;
  }
  return `${lines.join("\n")}\n`;
}

/** Part Bc, Part Bd: in letters, as names of pieces are. */
function nameOf(piece: number): string {
  const letters = [...piece.toString(20)].map((digit) => "bcdfghjklmnpqrstvwxz"[Number.parseInt(digit, 20)]);
  return `Part ${letters.join("").toUpperCase()}`;
}

function withSlip(line: string, random: Random): string {
  if (!isRow(line) || random.between(1, rowsPerSlip) > 1) return line;
  const from = line.indexOf(":");
  const numbers = [...line.matchAll(/\d+/g)].filter(({ index }) => index > from);
  const picked = numbers[random.between(0, numbers.length - 1)];
  if (!picked) return line;
  const end = picked.index + picked[0].length;
  return `${line.slice(0, picked.index)}${Number(picked[0]) + 1}${line.slice(end)}`;
}

export interface Mix {
  readonly lines: number;
  readonly rows: number;
  readonly bytes: number;
  /** Rows that no other row of the text equals behind its head, as a share. */
  readonly distinct: number;
}

export function mixOf(text: string): Mix {
  const lines = text.split("\n");
  const rows = lines.filter(isRow);
  const bodies = new Set(rows.map((row) => row.replace(headed, "")));
  return {
    lines: lines.length,
    rows: rows.length,
    bytes: Buffer.byteLength(text),
    distinct: bodies.size / rows.length,
  };
}
