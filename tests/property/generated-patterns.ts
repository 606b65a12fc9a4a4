import fc from "fast-check";
import { Checker } from "../../server/src/workspace/checker";
import { Random } from "../bench/random";
import { countPattern } from "../spec/naive-counter";

/** A row as it is worked on so many stitches. */
interface Made {
  readonly body: string;
  readonly makes: number;
  /** As the row states it, where it is not the number alone. */
  readonly count?: string;
}

/** A way to work a row on `n` stitches; null where it does not fit. */
type Form = (random: Random, n: number) => Made | null;

/** Of one sort of work: how it begins, and what its rows are. */
interface Work {
  readonly head: "Rnd" | "Row";
  readonly begin: (random: Random) => { readonly lines: readonly string[]; readonly makes: number };
  readonly forms: readonly [Form, ...Form[]];
}

function next(n: number): string {
  return n === 1 ? "in next st" : `in next ${n} sts`;
}

function again(random: Random, body: string, times: number): string {
  return random.oneOf([
    () => `(${body}) x${times}`,
    () => `[${body}] ${times} times`,
    () => `*${body}; rep from * around`,
    ...(times > 2 ? [() => `*${body}; rep from * ${times - 1} more times`] : []),
  ])();
}

/** Ways to part `n` stitches into so many alike, each of `least` or more. */
function part(random: Random, n: number, least: number): { each: number; times: number } | null {
  const all = [2, 3, 4, 5, 6, 7, 8, 9].filter((times) => n % times === 0 && n / times >= least);
  const [first, ...rest] = all;
  if (first === undefined) return null;
  const times = random.oneOf([first, ...rest]);
  return { each: n / times, times };
}

const plain: Form = (random, n) => {
  const stitch = random.oneOf(["sc", "hdc"]);
  return { body: random.oneOf([`${stitch} in each st around`, `${n} ${stitch}`]), makes: n };
};

const increases: Form = (random, n) => {
  const parts = part(random, n, 2);
  if (!parts) return null;
  const { each, times } = parts;
  const body = random.oneOf([
    `${each - 1} sc, inc`,
    `sc ${next(each - 1)}, 2 sc in next st`,
    `inc, ${each - 1} sc`,
  ]);
  return { body: again(random, body, times), makes: n + times };
};

const decreases: Form = (random, n) => {
  const parts = n > 11 ? part(random, n, 3) : null;
  if (!parts) return null;
  const { each, times } = parts;
  const body = random.oneOf([`${each - 2} sc, dec`, `sc ${next(each - 2)}, sc2tog`, `dec, ${each - 2} sc`]);
  return { body: again(random, body, times), makes: n - times };
};

/** Increases and decreases here and there. */
const uneven: Form = (random, n) => {
  if (n < 12) return null;
  const before = random.between(1, n - 6);
  const middle = random.between(1, n - before - 4);
  const rest = n - before - middle - 3;
  return { body: `${before} sc, inc, ${middle} sc, dec, ${rest} sc`, makes: n };
};

const nested: Form = (random, n) => {
  const parts = part(random, n, 6);
  if (!parts) return null;
  const { each, times } = parts;
  const run = random.between(1, Math.floor((each - 1) / 2) - 1);
  const rest = each - 2 * (run + 1);
  if (rest < 1) return null;
  return { body: `[(${run} sc, inc) x2, ${rest} sc] x${times}`, makes: n + 2 * times };
};

const twice: Form = (_, n) => (n > 24 ? null : { body: `inc x${n}`, makes: 2 * n });
const halves: Form = (_, n) => (n % 2 === 0 && n > 15 ? { body: `dec x${n / 2}`, makes: n / 2 } : null);

const amigurumi: Work = {
  head: "Rnd",
  begin: (random) => {
    const makes = random.between(5, 9);
    return { lines: [`Rnd 1: ${makes} sc in mr (${makes})`], makes };
  },
  forms: [plain, increases, increases, decreases, uneven, nested, twice, halves],
};

const even: Form = (random, n) => {
  const stitch = random.oneOf(["sc", "hdc"]);
  const each = random.oneOf(["across", ""]);
  return { body: `Ch 1, turn, ${stitch} in each st ${each}`.trim(), makes: n };
};

const narrower: Form = (_, n) =>
  n > 7 ? { body: "Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog", makes: n - 2 } : null;
const wider: Form = (_, n) => ({
  body: "Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st",
  makes: n + 2,
});
const counted: Form = (random, n) => {
  const a = random.between(1, n - 2);
  return { body: `Ch 1, turn, sc ${next(a)}, 2 sc in next st, sc in each st across`, makes: n + 1 };
};
/** Chain 3 stands for the first stitch. */
const tall: Form = (_, n) => ({
  body: `Ch 3 (counts as dc), turn, dc in next ${n - 1} sts`,
  makes: n,
  count: `${n} dc`,
});

const flat: Work = {
  head: "Row",
  begin: (random) => {
    const makes = random.between(8, 40);
    return {
      lines: [`Ch ${makes + 1}.`, `Row 1: Sc in 2nd ch from hook and in each ch across. (${makes})`],
      makes,
    };
  },
  forms: [even, narrower, wider, counted, tall],
};

const works = [amigurumi, flat] as const;

/** A pattern in which every row fits and counts, in the forms of the trade, by arithmetic alone. */
export function generated(seed: number): string {
  const random = new Random(seed);
  const { head, begin, forms } = random.oneOf(works);
  const { lines, makes } = begin(random);
  const out = [...lines];
  let n = makes;
  for (let row = 2; row < random.between(4, 16); row++) {
    const made = random.oneOf(forms)(random, n) ?? forms[0](random, n);
    if (!made) continue;
    n = made.makes;
    out.push(`${head} ${out.length - lines.length + 2}: ${made.body} (${made.count ?? n})`);
  }
  return out.join("\n");
}

export const generatedPattern = fc.nat().map(generated);

/** What is told otherwise than the second count has it, of a pattern that is right by that; null where nothing is. */
export function disagreement(text: string): string | null {
  const second = countPattern(text);
  const doubtful = second.find(({ verdict }) => verdict !== "ok");
  if (doubtful) return `the second count finds ${doubtful.head} ${doubtful.verdict}\n${text}`;
  const { pieces, findings } = new Checker().check(text);
  const rows = pieces.flatMap((piece) => piece.rows).filter(({ kind }) => kind === "row");
  const other = rows.findIndex(
    ({ result, makes }, i) => result !== "ok" || makes?.[0] !== second[i]?.makes[0],
  );
  if (other >= 0 || rows.length !== second.length) return `row ${other + 1} is told otherwise\n${text}`;
  const loud = findings.find(({ severity }) => severity === "error" || severity === "warning");
  return loud ? `${loud.rule}: ${loud.message}\n${text}` : null;
}
