import type { Random } from "./random";

/** The habits of one designer, kept for a whole piece. */
export interface Wording {
  head(row: number, to?: number): string;
  count(text: string): string;
  times(n: number): string;
  /** `in next 4 sts`, in this designer's words. */
  next(n: number): string;
  each(word: "around" | "across"): string;
  /** `rep from *`, in this designer's words. */
  readonly again: string;
  /** `inc` in this piece may be spelled out. */
  readonly inc: string;
  readonly dec: string;
}

export function wordingOf(random: Random, row: "Rnd" | "Row"): Wording {
  const short = row === "Rnd" && random.fraction() < 0.3 ? "R" : `${row} `;
  const [open, close] = random.oneOf([
    ["(", ")"],
    ["[", "]"],
  ] as const);
  const nextWords = random.oneOf(["in next", "in the next", "in each of next", "in each of the next"]);
  const sts = random.oneOf(["sts", "stitches"]);
  const timesWords = random.oneOf(["x#", "x #", "# times"]);
  const eachWords = random.oneOf(["in each st", "in each stitch", "in every st"]);
  const stop = random.oneOf([".", ""]);
  const plural = short === "R" ? "R" : `${row}s `;
  return {
    head: (n, to) => (to === undefined ? `${short}${n}: ` : `${plural}${n}-${to}: `),
    count: (text) => `${stop} ${open}${text}${close}`,
    times: (n) => timesWords.replace("#", `${n}`),
    next: (n) => (n === 1 ? "in next st" : `${nextWords} ${n} ${sts}`),
    each: (word) => `${eachWords} ${word}`,
    again: random.oneOf(["rep from *", "repeat from *"]),
    inc: random.oneOf(["inc", "2 sc in next st"]),
    dec: random.oneOf(["dec", "sc2tog"]),
  };
}

/** The lines of one piece; its counts add up. */
export type PieceWriter = (random: Random) => string[];

/** Worked in a spiral, as the body of the buoy toy. */
const toy: PieceWriter = (random) => {
  const w = wordingOf(random, "Rnd");
  const base = random.between(5, 9);
  const widest = random.between(4, 9);
  const lines = [`${w.head(1)}${base} sc in MR${w.count(`${base}`)}`];
  lines.push(
    `${w.head(2)}${random.oneOf([`inc x${base}`, "inc in each st around"])}${w.count(`${base * 2}`)}`,
  );
  for (let k = 3; k <= widest; k++) lines.push(`${w.head(k)}${increases(random, w, base, k - 2)}`);
  let row = widest;
  const total = base * widest;
  const plain = () => random.oneOf([`${total} sc`, `sc ${w.each("around")}`]);
  const even = random.between(2, 9);
  lines.push(`${w.head(row + 1)}BLO sc ${w.each("around")}${w.count(`${total}`)}`);
  lines.push(`${w.head(row + 2, row + 1 + even)}${plain()}${w.count(`${total}`)}`, "Change to white.");
  row += 2 + even;
  for (let k = widest; k > 2; k--, row += 2) {
    lines.push(`${w.head(row)}(${k - 2} sc, ${w.dec}) ${w.times(base)}${w.count(`${base * (k - 1)}`)}`);
    lines.push(`${w.head(row + 1)}${base * (k - 1)} sc${w.count(`${base * (k - 1)}`)}`);
  }
  lines.push("Stuff firmly.", `${w.head(row)}dec x${base}${w.count(`${base}`)}`);
  return [...lines, `Fasten off, leaving a ${random.between(10, 40)} cm tail.`];
};

function increases(random: Random, w: Wording, base: number, plain: number): string {
  const count = w.count(`${base * (plain + 2)}`);
  const before = random.between(1, plain);
  if (plain < 2 || random.fraction() < 0.6) return `(${plain} sc, ${w.inc}) ${w.times(base)}${count}`;
  const rest = plain - before;
  const first = `${before} sc, ${w.inc}, (${plain} sc, ${w.inc}) ${w.times(base - 1)}`;
  return rest > 0 ? `${first}, ${rest} sc${count}` : `${first}${count}`;
}

/** Joined rounds with eyelets and a shell edge, as the pouch. */
const pouch: PieceWriter = (random) => {
  const w = wordingOf(random, "Rnd");
  const base = 6 * random.between(1, 3);
  const widest = random.between(3, 7);
  const st = random.oneOf(["hdc", "sc", "dc"]);
  const open = random.oneOf(["Ch 1, ", "Ch 1 (does not count as a st), "]);
  const round = (n: number, body: string, count: string) =>
    `${w.head(n)}${open}${body}, join${w.count(count)}`;
  const lines = [round(1, `${base} ${st} in magic ring`, `${base} ${st}`)];
  lines.push(round(2, `2 ${st} ${w.each("around")}`, `${base * 2} ${st}`));
  for (let k = 3; k <= widest; k++)
    lines.push(
      round(k, `*${st} ${w.next(k - 2)}, 2 ${st} in next st; ${w.again} around`, `${base * k} ${st}`),
    );
  const total = base * widest;
  const plain = random.between(3, 9);
  lines.push(round(widest + 1, `${st} ${w.each("around")}`, `${total} ${st}`));
  lines.push(`${w.head(widest + 2, widest + plain)}Rep Rnd ${widest + 1}${w.count(`${total} ${st}`)}`);
  const row = widest + plain;
  const third = total / 3;
  const eyelets = `*${st} ${w.next(2)}, ch 1, sk next st; ${w.again} around`;
  lines.push(round(row + 1, eyelets, `${third * 2} ${st}, ${third} ch-1 sps`));
  const filled = `*${st} ${w.next(2)}, ${st} in next ch-1 sp; ${w.again} around`;
  lines.push(round(row + 2, filled, `${total} ${st}`), "Change to tide blue.");
  const shells = `*sk 2 sts, shell in next st, sk 2 sts, sc in next st; ${w.again} around`;
  lines.push(round(row + 3, shells, `${total / 6} shells, ${total / 6} sc`));
  return [...lines, "Fasten off and weave in the ends."];
};

/** Waves, as the blanket. */
const ripple: PieceWriter = (random) => {
  const w = wordingOf(random, "Row");
  const [waves, side] = [random.between(2, 15), random.between(3, 9)];
  const total = (2 * side + 4) * (waves + 1) + 1;
  const wave = (st: string, open: string) =>
    `${open}, ${st} ${w.next(side)}, *${st}3tog, ${st} ${w.next(side)}, 3 ${st} in next st, ${st} ${w.next(side)}; ` +
    `${w.again} to last ${side + 4} sts, ${st}3tog, ${st} ${w.next(side)}, 2 ${st} in last st${w.count(`${total} ${st}`)}`;
  const lines = [
    `With A, ch ${total + 1}.`,
    `${w.head(1)}Sc in 2nd ch from hook and in each ch across${w.count(`${total} sc`)}`,
  ];
  const rows = random.between(6, 14);
  for (let row = 2; row <= rows; row++) {
    const again = row > 3 && random.fraction() < 0.3;
    const body =
      random.fraction() < 0.5
        ? wave("sc", "Ch 1, turn, 2 sc in first st")
        : wave("dc", "Ch 3, turn, dc in same st");
    lines.push(`${w.head(row)}${again ? `Rep Row ${row - 1}.` : body}`);
  }
  return [...lines, "Fasten off. Weave in the ends and block the waves flat."];
};

/** Worked round a ring with corners, as the square. */
const square: PieceWriter = (random) => {
  const w = wordingOf(random, "Rnd");
  const [g, c] = [random.between(2, 5), random.between(2, 4)];
  const corner = `(${g} dc, ch ${c}, ${g} dc) in next ch-${c} sp`;
  const first = `ch 3, (${g - 1} dc, ch ${c}, ${g} dc) in same sp`;
  const slips = `Sl st in next ${g - 1} dc and in ch-${c} sp`;
  const lines = [
    `With A, ch ${random.between(4, 6)}, join with sl st in first ch to form ring.`,
    `${w.head(1)}Ch 3 (counts as dc), ${g - 1} dc in ring, ch ${c}, [${g} dc in ring, ch ${c}] 3 times, join with sl st in top of ch-3${w.count(`${4 * g} dc, 4 ch-${c} sps`)}`,
    `${w.head(2)}${g > 2 ? slips : `Sl st in next dc and in ch-${c} sp`}, ${first}, ch 1, [${corner}, ch 1] 3 times, join${w.count(`${8 * g} dc, 4 ch-${c} sps, 4 ch-1 sps`)}`,
    `${w.head(3)}Join B with sl st in any ch-${c} sp, ${first}, ch 1, ${g} dc in next ch-1 sp, ch 1, [${corner}, ch 1, ${g} dc in next ch-1 sp, ch 1] 3 times, join${w.count(`${12 * g} dc, 4 ch-${c} sps, 8 ch-1 sps`)}`,
  ];
  return [...lines, "Fasten off and weave in the ends."];
};

/** Loops and fans with picots, as the edging. */
const edging: PieceWriter = (random) => {
  const w = wordingOf(random, "Row");
  const [k, a, b, loop] = [
    random.between(3, 30),
    random.between(2, 5),
    random.between(1, 4),
    random.between(4, 7),
  ];
  return [
    `Ch ${8 * k + 2}.`,
    `${w.head(1)}Sc in 2nd ch from hook and in each ch to end${w.count(`${8 * k + 1} sc`)}`,
    `${w.head(2)}Ch 1, turn, sc in first st, *ch ${loop}, sk next 3 sts, sc in next st; ${w.again} to end${w.count(`${2 * k + 1} sc, ${2 * k} loops`)}`,
    `${w.head(3)}Ch 1, turn, sc in first sc, *${a + b} dc in next loop, sc in next sc, ch ${loop}, sk next loop, sc in next sc; ${w.again} to end${w.count(`${(a + b) * k} dc, ${2 * k + 1} sc, ${k} loops`)}`,
    `${w.head(4)}Ch 1, turn, *sc in next sc, 5 sc in next loop, sc in next sc, sc ${w.next(a)}, picot, sc ${w.next(b)}; ${w.again} to last st, sc in last st${w.count(`${(7 + a + b) * k + 1} sc, ${k} picots`)}`,
    "Fasten off. Pin out each picot, starch lightly and let it dry.",
  ];
};

/** An oval round both sides of a chain, as the basket. */
const basket: PieceWriter = (random) => {
  const w = wordingOf(random, "Rnd");
  const [side, rounds] = [random.between(5, 24), random.between(3, 7)];
  const total = (k: number) => 2 * (side + 3) + 6 * (k - 1);
  const grow = (k: number) => (k === 2 ? "" : `sc ${w.next(k - 2)}, `);
  const lines = [
    `Ch ${side + 3}.`,
    `${w.head(1)}Sc in 2nd ch from hook, sc in next ${side} ch, 3 sc in last ch; working on opposite side of chain, sc in next ${side} ch, 2 sc in last ch${w.count(`${total(1)} sc`)}`,
    `${w.head(2)}2 sc in next st, sc ${w.next(side)}, 2 sc ${w.next(3).replace("in the next", "in each of the next").replace("in next", "in each of next")}, sc ${w.next(side)}, 2 sc in each of next 2 sts${w.count(`${total(2)} sc`)}`,
  ];
  for (let k = 3; k <= rounds; k++)
    lines.push(
      `${w.head(k)}${grow(k)}2 sc in next st, sc ${w.next(side)}, (${grow(k)}2 sc in next st) 3 times, sc ${w.next(side)}, (${grow(k)}2 sc in next st) twice${w.count(`${total(k)} sc`)}`,
    );
  const plain = `sc ${w.each("around")}${w.count(`${total(rounds)} sc`)}`;
  lines.push(`${w.head(rounds + 1, rounds + random.between(3, 9))}${plain}`);
  return [...lines, "Fasten off and weave in the ends."];
};

/** Shaped at both ends, as the pennant. */
const pennant: PieceWriter = (random) => {
  const w = wordingOf(random, "Row");
  const width = random.between(9, 40);
  const lines = [
    `With navy, ch ${width + 1}.`,
    `${w.head(1)}sc in 2nd ch from hook and in each ch across${w.count(`${width}`)}`,
  ];
  for (let row = 2, left = width; left > 4 && row < 14; row += 2) {
    lines.push(`${w.head(row)}ch 1, turn, sc ${w.each("across")}${w.count(`${left}`)}`);
    left -= 2;
    lines.push(`${w.head(row + 1)}ch 1, turn, ${w.dec}, sc to last 2 sts, ${w.dec}${w.count(`${left}`)}`);
  }
  return [...lines, `Fasten off, leaving a ${random.between(10, 40)} cm tail.`];
};

/** Loops in rounds, as the net bag. */
const net: PieceWriter = (random) => {
  const w = wordingOf(random, "Rnd");
  const [loops, chains, fill] = [random.between(6, 30), random.between(3, 7), random.between(2, 4)];
  const space = `ch-${chains} sp`;
  const both = w.count(`${loops} sc, ${loops} ${space}s`);
  const join = "join with sl st in first sc";
  const rows = random.between(3, 9);
  return [
    `${w.head(1)}Ch 1, ${loops} sc in magic ring, join${w.count(`${loops} sc`)}`,
    `${w.head(2)}Ch 1, sc in first st, *ch ${chains}, sc in next st; ${w.again} to end, ch ${chains}, ${join}${both}`,
    `${w.head(3)}Sl st in next ${space}, ch 1, sc in same sp, *ch ${chains}, sc in next ${space}; ${w.again} ${loops - 2} more times, ch ${chains}, ${join}${both}`,
    `${w.head(4, 4 + rows)}Rep Rnd 3${both}`,
    `${w.head(5 + rows)}Sl st in next ${space}, ch 1, ${fill} sc in each ${space} around, ${join}${w.count(`${loops * fill} sc`)}`,
    `${w.head(6 + rows)}Ch 1, sc ${w.each("around")}, ${join}${w.count(`${loops * fill} sc`)}`,
    "Fasten off and weave in the ends.",
  ];
};

export const pieceWriters: readonly [PieceWriter, ...PieceWriter[]] = [
  toy,
  pouch,
  ripple,
  square,
  edging,
  basket,
  pennant,
  net,
];
