/** What the designer says a row comes to: numbers by noun, in order; the noun is empty where none is given. */
export interface Stated {
  readonly kinds: readonly { readonly noun: string; readonly count: number | null }[];
}

const noun =
  "(?:(?:open |solid )?~?[a-z#][a-z\\d#-]*(?: (?:\\d|st|sp#\\d*|sts?|loops|shells|total|around))?)";
const one = `(?:\\d+|-)(?: ?~?(?:total )?${noun})?(?: in each rnd| so far| total)?`;
const several = `${one}(?:(?:,| \\+|;) (?:\\d+ ?~?${noun}|ch \\d))*`;
const aside = "(?:,? (?:not )?(?:counting|including|incl)\\b[^)]*)?";
const bracket = new RegExp(
  `[([{<](${several})${aside}[)\\]}>](?! ?(?:\\d|x ?\\d|\\* ?\\d|in |around|times))`,
  "g",
);
const marked = new RegExp(`(?:=|–|(?<= )-) ?(${several})\\.?$`);
const beforeJoin = /– (\d+ \w+)\. (?=join|ch 1, turn)/;
const sentence = new RegExp(
  `(?:you (?:will|should) (?:now )?have|this rnd makes|this round makes|total) (${several})\\.?$`,
);
const last = new RegExp(`[.;:,] (${several})\\.?$`);

/** Splits a row into its instruction and the count behind it. */
export function splitCount(body: string): { readonly instruction: string; readonly stated: Stated | null } {
  const found =
    lastBracket(body) ??
    beforeJoin.exec(body) ??
    marked.exec(body) ??
    sentence.exec(body) ??
    lastSentence(body);
  if (!found?.[1]) return { instruction: body, stated: null };
  const ofChain = /,? (not )?(?:counting|including|incl) (?:beg |turning )?ch\b/.exec(found[0]);
  const counts = ofChain?.[1] ? "does not count" : "counts";
  const before = body
    .slice(0, found.index)
    .replace(/[=–] *$/, "")
    .replace(/^(?:ch \d+|\d+ ch)/, (chain) => (ofChain ? `${chain} (${counts})` : chain));
  const instruction = `${before} ; ${body.slice(found.index + found[0].length)}`;
  return { instruction, stated: { kinds: kindsOf(found[1]) } };
}

function lastBracket(body: string): RegExpExecArray | null {
  const all = [...body.matchAll(bracket)].filter(([text]) => !/\d (?:rounds|rnds|rows)\b|so far/.test(text));
  return (all.at(-1) as RegExpExecArray | undefined) ?? null;
}

/** `Turn. 20 dc.`: a sentence of its own that is nothing but a count. */
function lastSentence(body: string): RegExpExecArray | null {
  const found = last.exec(body);
  return found && /[.;:]/.test(found[0][0] ?? "") ? found : null;
}

function kindsOf(text: string): Stated["kinds"] {
  return text.split(/,|;| \+/).map((part) => {
    const trimmed = part.trim();
    if (/^ch \d$/.test(trimmed)) return { noun: trimmed, count: 1 };
    const split = /^(\d+|-) ?~?(?:total )?(.*)$/.exec(trimmed);
    const count = split?.[1] === "-" ? null : Number(split?.[1]);
    return {
      noun: (split?.[2] ?? "").replace(/ (?:in each rnd|total|around)$|^(?:in each rnd|total)$/, ""),
      count,
    };
  });
}
