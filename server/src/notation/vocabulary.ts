import { stitchSpellings } from "../trade/stitches";

/** The class of a word is one character: the grammar of rows is written over these. */
export interface Meaning {
  readonly cls: string;
  readonly value: string;
}

/** The loop that a stitch closed in place of chains, told by that stitch. */
function joiningLoops(): string[] {
  const stitches = ["sc", "hdc", "dc", "htr", "tr", "dtr", "st", "stitch"].map((name) => `joining ${name}`);
  const leads = ["", "post of ", "loop formed by ", "lp formed by ", "sp formed by ", "space formed by "];
  return leads.flatMap((lead) => stitches.map((name) => lead + name));
}

/** Where the hook goes past what is done already: it changes nothing that is counted. */
function pastWork(): string[] {
  const ways = ["in front of", "behind", "in back of"].flatMap((way) => [`working ${way}`, `work ${way}`]);
  const made = ["made", "just made", "worked", "just worked"];
  const stitches = [
    "sts",
    "stitches",
    "st",
    "stitch",
    "last 2 sts",
    "last 3 sts",
    "2 sts",
    "3 sts",
    ...["sc", "hdc", "dc", "htr", "tr", "dtr", "fpdc", "fptr"].flatMap((name) => [name, `last ${name}`]),
  ];
  const done = stitches.flatMap((noun) => made.map((how) => `${noun} ${how}`));
  const skipped = ["skipped sts", "skipped st", "skipped stitches", "missed sts", "missed st"];
  return ways.flatMap((way) => [...done, ...skipped].map((what) => `${way} ${what}`));
}

/** What tells where the middle of the stitches before it goes. */
function workedMiddle(): string[] {
  const stitches = ["st", "stitch", "sc", "hdc", "dc", "htr", "tr", "dtr"];
  return ["working", "placing"].flatMap((verb) =>
    ["center", "centre", "middle"].flatMap((which) => stitches.map((name) => `${verb} ${which} ${name}`)),
  );
}

/** Where rows end, at the sides of what was worked in rows: each of them. */
function rowEnds(): string[] {
  const rows = ["row", ...["sc", "hdc", "dc", "htr", "tr"].map((name) => `${name} row`)];
  const each = rows.flatMap((row) => ["each", "every"].map((which) => `of ${which} ${row}`));
  const told = [...each, "of each of", "of rows"].flatMap((what) =>
    ["end", "ends", "side", "edge"].map((at) => `${at} ${what}`),
  );
  return ["row end", "row ends", "row-end", "row-ends", ...told];
}

/** What stands for instructions that are not written out. */
function inTheSameWay(): string[] {
  const which = [
    "remaining",
    "rem",
    "other",
    "all",
    "next",
    "other two",
    "other three",
    "remaining 3",
    "other 3",
  ];
  const sides = which.flatMap((one) => ["side", "sides"].map((side) => `${one} ${side}`));
  const same = ["the same", "same", "to correspond", "to match", "in same manner", "in the same manner"];
  const ways = ["manner", "way"].flatMap((way) => [
    `same ${way}`,
    `the same ${way}`,
    `this ${way}`,
    `like ${way}`,
  ]);
  const goOn = ["cont", "continue", "continuing", "proceed"];
  return [
    ...sides.flatMap((side) => same.map((how) => `${side} ${how}`)),
    ...goOn.flatMap((verb) => ways.map((way) => `${verb} in ${way}`)),
  ];
}

/** Another motif, beside the one in hand. */
function otherWork(): string[] {
  const pieces = ["motif", "square", "hexagon", "flower", "circle", "triangle", "snowflake", "medallion"];
  const beside = ["previous", "prev", "first", "last", "second", "other", "another", "completed", "finished"];
  const next = ["adjacent", "adjoining", "neighboring", "neighbouring", "joined"];
  const named = pieces.flatMap((piece) => [...beside, ...next].map((which) => `${which} ${piece}`));
  return ["motif", "motifs", ...named];
}

/** Words and phrases of the trade that are no stitches. One line a class; spellings in lower case. */
const phrases: readonly (readonly [cls: string, value: string, spellings: string])[] = [
  ["t", "st", "st|sts|stitch|stitches|st's|position|places|place"],
  [
    "p",
    "sp",
    "turning ch sp|turning ch-sp|turning chain sp|turning chain space|tch sp|sp|sps|space|spaces|mesh|meshes|gap|gaps",
  ],
  ["p", "loop", "loop|loops|lp|lps|arch|arches"],
  ["p", "joining loop", joiningLoops().join("|")],
  ["p", "eyelet", "eyelet|eyelets"],
  ["p", "handle", "handle|handles|handle loop|handle loops|handle sp|handle space|handle spaces"],
  ["p", "hole", "hole|holes|opening|openings"],
  [
    "p",
    "corner sp",
    "corner sp|corner sps|corner space|corner spaces|corner ch sp|corner loop|corner loops|corner ch-sp",
  ],
  ["q", "corner", "corner|corners|corner st|corner sts"],
  [
    "g",
    "ring",
    "ring|mr|magic ring|magic circle|mc ring|magic loop|adjustable ring|adjustable loop|sliding ring|sliding loop|amigurumi ring|amigurumi loop|circle|sloppy knot|centre of ring|center of ring",
  ],
  ["@", "group", "group|groups|grp|grps"],
  ["@", "petal", "petal|petals"],
  ["@", "scallop", "scallop|scallops"],
  ["@", "block", "block|blocks"],
  ["@", "tile", "tile|tiles"],
  ["@", "box", "box|boxes"],
  ["@", "square", "square|squares"],
  ["@", "fan", "fan|fans"],
  ["k", "skip", "sk|skip|skipping|skp|miss|missing|pass over|passing over|omit"],
  ["L", "leave", "leave|leaving"],
  ["u", "unworked", "unworked|unused|unmade"],
  ["i", "in", "in back of|in the back of|into back of|in|into|onto|on|over|along|through"],
  ["O", "to", "to|until|till|to within|until within"],
  ["e", "each", "each|ea|every|all|both"],
  [
    "E",
    "every other",
    "every other|each alternate|every alternate|every second|every 2nd|every alt|each alt",
  ],
  ["X", "next", "next|following|foll|nxt|subsequent"],
  ["f", "first", "first|1st"],
  ["z", "last", "last|final"],
  ["m", "same", "same|same place"],
  ["y", "remaining", "remaining|rem|remain|remains|left|these|those|rest|rest of sts|rest of stitches"],
  ["Y", "any", "any"],
  ["Y", "centre", "center|centre|middle"],
  ["Y", "skipped", "skipped|missed"],
  ["Y", "marked", "marked"],
  ["Y", "previous", "previous|prev|preceding"],
  ["Y", "indicated", "indicated|specified|designated|given"],
  [
    "Y",
    "made",
    "you just made|you have just made|you just worked|you are in|you're in|you are now in|made|formed|just formed|just made|just worked|just completed|completed",
  ],
  ["Y", "other side", "other side|opposite side"],
  ["A", "as", "as"],
  ["v", "between", "between|bet|btw"],
  ["v", "beside", "before|after"],
  ["n", "1", "one"],
  ["n", "2", "two"],
  ["n", "3", "three"],
  ["n", "4", "four"],
  ["n", "5", "five"],
  ["n", "6", "six"],
  ["n", "7", "seven"],
  ["n", "8", "eight"],
  ["n", "9", "nine"],
  ["n", "10", "ten"],
  ["n", "11", "eleven"],
  ["n", "12", "twelve"],
  ["n", "13", "thirteen"],
  ["n", "14", "fourteen"],
  ["n", "15", "fifteen"],
  ["n", "16", "sixteen"],
  ["n", "17", "seventeen"],
  ["n", "18", "eighteen"],
  ["n", "19", "nineteen"],
  ["n", "20", "twenty"],
  ["n", "24", "twenty-four"],
  ["n", "30", "thirty"],
  ["o", "2", "second"],
  ["o", "3", "third"],
  ["o", "4", "fourth"],
  ["o", "5", "fifth"],
  ["o", "6", "sixth"],
  ["W", "1", "once"],
  ["W", "2", "twice"],
  ["W", "3", "thrice"],
  ["T", "times", "times|time|x"],
  ["M", "more", "more|further|again|additional|extra"],
  ["s", "total", "for a total of|a total of|in all|in total|altogether|total"],
  ["r", "repeat", "rep|repeat|repeats|repeating|reps"],
  ["F", "from", "from"],
  [
    "1",
    "from mark",
    "between asterisks|from asterisk to asterisk|instructions between asterisks|between stars|from asterisk|from star|between the asterisks|from the asterisk",
  ],
  [
    "Q",
    "beginning",
    "beg|beginning|start|starting|start with|starting with|start from|starting from|begin with|begin in|beginning with|beginning in|starting in|start in|starting at",
  ],
  [
    "a",
    "around",
    "around|all around|all round|all the way around|all the way round|the whole way around|round and round|ar|in the round",
  ],
  [
    "a",
    "across",
    "across|to end|to the end|to end of row|to end of rnd|to end of round|to the end of the row|to the end of the round|to end of the row|even|evenly across row|until end|to end of ch|to end of chain|until the end|rest of round|rest of the round|rest of rnd|for the rest of the round|for the rest of the row|to the other end",
  ],
  ["V2", "evenly", "evenly|evenly spaced|evenly around"],
  ["%", "somewhere", "at center|at centre|at center front|at center back|at centre front|at centre back"],
  [
    "j",
    "new yarn",
    "attach yarn|attach thread|attach cotton|join thread|join cotton|rejoin thread|attach the yarn|attach the thread",
  ],
  ["j", "join", "join|joining|joined|rejoin|rejoining|re-join|attach to|connect|connecting"],
  ["J", "invisible join", "invisible join|inv join"],
  ["U", "turn", "turn|turning|turned|do not turn|don't turn"],
  [
    "I",
    "otherside",
    "back along chain|back along ch|back down chain|back up chain|other side of chain|opposite side of chain|other side|opposite side|opp side|underside of chain|underside|other side of ch|opposite side of ch|opp side of ch|opposite side of foundation ch|opposite side of foundation chain|opposite side of starting ch|opposite side of beg ch|bottom of ch|bottom of chain|bottom loops of chain|bottom loop of chain|bottom loops of ch|bottom loops|unused loops of chain|free loops of chain|other side of foundation chain|other side of foundation ch|other side of starting chain|free loops of foundation chain|free loops of chain|along foundation chain|along foundation ch|across foundation chain|across foundation ch|along foundation|across foundation|rotate|underside of ch|turn to other side|free loops of foundation ch|remaining loops of chain|back of chain",
  ],
  [
    "G",
    "end",
    "fasten off|f/o|fo|break off|finish off|tie off|cut yarn|do not fasten off|don't fasten off|do not break off|f o|bind off|end off|break yarn|cut and fasten",
  ],
  [
    "B",
    "back",
    "behind the back wall|for the back wall|behind the back loop|back wall|blo|bl|tbl|through back loop|through back loops|back loop|back loops|back loop only|back loops only|back lp|back lps|back lp only|back lps only",
  ],
  [
    "B",
    "front",
    "behind the front wall|for the front wall|front wall|flo|fl|front loop|front loops|front loop only|front loops only|front lp|front lps|front lps only|front lp only",
  ],
  ["B", "both", "both loops|both lps|under both loops"],
  [
    "B",
    "bar",
    "horizontal bar|third loop|3rd loop|back bar|back ridge|back bump|back bumps|horizontal bar behind|third loops",
  ],
  ["P", "post", "post|posts|round post|stem|stems"],
  ["h", "from hook", "from hook|from the hook|away from hook"],
  [
    "!",
    "ending",
    "ending|ending with|ending last rep with|ending last repeat with|ending the last rep with|ending the last repeat with|ending final rep with|ending final repeat with|end with|ending each rep with|ending in|end last rep with|end last repeat with|ending round with|ending rnd with|ending row with|but end with|but ending with|but end last rep with|but ending last rep with|but work only|but working only|but make only|but making only",
  ],
  [
    "!",
    "omit",
    "ending last rep without|ending last repeat without|ending the last rep without|ending the last repeat without|ending final repeat without|ending without|omit|omitting|but omit|but omitting|leaving off|leaving out|eliminating",
  ],
  [
    "K",
    "colour",
    "black|white|red|blue|green|yellow|pink|orange|brown|grey|gray|purple|navy|cream|beige|mint|sand|coral|teal|turquoise|lilac|contrasting yarn|contrast colour|main colour|main color|contrasting colour|contrasting color",
  ],
  [
    "Z",
    "layers",
    "both layers|both thicknesses|both sides together|both walls|for both walls|both sides|for both sides|both pieces|both pieces together|both layers together",
  ],
  ["_", "together", "together"],
  ["0", "patt", "in pattern|in patt|in established pattern|in est patt|pattern|patt"],
  [
    "^",
    "each end",
    "each end|at each end|both ends|at both ends|at each side|at beg and end|at beg and end of row",
  ],
  // Parts that rows speak of although no heading names them.
  ["N", "arm", "arm|arms"],
  ["N", "leg", "leg|legs"],
  ["N", "body", "body"],
  ["N", "wing", "wing|wings"],
  ["N", "ear", "ear|ears"],
  ["N", "fin", "fin|fins"],
  ["b", "below", "below|down|behind|underneath|beneath"],
  ["2", "row end", rowEnds().join("|")],
  ["R", "row", "row|rows|rnd|rnds|round|rounds|rw|rd"],
  ["&", "and", "and|plus|&"],
  ["d", "standing", "standing|chainless|stacked"],
  [
    "D",
    "declares",
    "counts as|count as|counting as|counted as|does not count|do not count|doesn't count|not counted|counts|don't count|counting|not counting|including|incl|excluding|excl|inclusive of",
  ],
  [
    "=",
    "makes",
    "you will have|you should have|you should now have|you now have|you will now have|there are|there will be|should be|makes|this makes|this round makes|this row makes|this rnd makes|making|leaves|you have|will have|you should end with|there should be|total|total of|for a total of|count",
  ],
  [
    "C0",
    "ch sp",
    "ch sp|ch sps|ch-sp|ch-sps|chain space|chain spaces|ch space|ch spaces|chain sp|ch lp|ch loop|ch loops|ch lps|chain loop",
  ],
  [
    "H0",
    "turning chain",
    "turning ch|turning chain|tch|t-ch|tc|beg ch|beginning ch|beginning chain|starting ch|starting chain|skipped ch|skipped chs|missed ch|base chain|turning chains|beg chain",
  ],
  ["Y", "top", "top of|top"],
  ["Y", "base", "base of|base"],
  [
    "l",
    "sl st",
    [...stitchSpellings]
      .filter(([, word]) => word === "sl st")
      .map(([spelling]) => spelling)
      .join("|"),
  ],
  [
    "c",
    "ch",
    [...stitchSpellings]
      .filter(([, word]) => word === "ch")
      .map(([spelling]) => spelling)
      .join("|"),
  ],
  ["Y", "facing", "corresponding|matching|facing|adjacent|adjoining|neighboring|neighbouring"],
  ["N", "other work", otherWork().join("|")],
  ["x", "marker", "pm|place marker|place marker in|sm|slip marker"],
  // Machine translations of "make a chain".
  ["", "", "collect|dial|cast on"],
  // `in tr at tip of any petal`
  ["", "", "at tip of|at the tip of|at the point of|at point of"],
  ["", "", pastWork().join("|")],
  // `working the centre sc in the ch-2 sp`: one that stands among those before.
  ["V", "prose", workedMiddle().join("|")],
  ["?", "in the same way", inTheSameWay().join("|")],
  // What carries on along the work: it may lead to its other side.
  ["V", "go on", "continue|cont|pass|go|move on|carry on|working across|working around"],
  [
    "V",
    "prose",
    "cut|snip|stuff|stuffing|start stuffing|begin stuffing|sew|weave|embroider|attach|insert|fold|fold flat|flatten|squeeze|divide|pull|tighten|close|bring|place|note|see|remember|being careful|holding|repeat this|change|changing|using|with|switch|drop|carry|pick up|remove|move|glue|tie|measure|check|measures|piece|you|this|do not|don't|working over|working behind|working in front of|switch to|use|begin|leaving a|leave a|hold|press|pin|thread|lace|trim|arrange|secure|finish|enjoy|alternating|break|mark|move marker|move the marker|to form|to close|to make|working last|work last|making last|placing last|putting last|as if to|instead of|in place of|let|use marker|place a marker|place a stitch marker|put|wrap|slide|slip loop|remember to|if you|for the",
  ],
];

const fillers = new Set([
  "the",
  "a",
  "an",
  "of",
  "work",
  "working",
  "placing",
  "make",
  "then",
  "now",
  "worked",
  "also",
  "ch-",
  "it's",
  "times)",
  "just",
  "only",
  "we",
  "crochet",
  "loosely",
  "tightly",
  "carefully",
  "firmly",
]);

const table = new Map<string, Meaning>();
for (const [spelling, word] of stitchSpellings) table.set(spelling, { cls: "S", value: word });
for (const [cls, value, spellings] of phrases)
  for (const spelling of spellings.split("|")) table.set(spelling, { cls, value });

/** Words that change nothing: they stay in the text and never reach the grammar. */
export function isFiller(word: string): boolean {
  return fillers.has(word);
}

export const trade: ReadonlyMap<string, Meaning> = table;

/** For each first word, and for each first two, how many words the longest phrase that begins with them has. */
export function longestByFirst(phrases: Iterable<string>): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  for (const name of phrases) {
    const [first = "", second = "", ...rest] = name.match(/\d+|\p{L}+(?:'\p{L}+)?|\S/gu) ?? [];
    const length = second === "" ? 1 : rest.length + 2;
    const both = name.slice(0, name.indexOf(second, first.length) + second.length);
    for (const start of new Set([first, both || first]))
      found.set(start, Math.max(found.get(start) ?? 0, length));
  }
  return found;
}

/** Words of the longest phrase of the trade that begins with a word, or with two. */
export const longest = longestByFirst(trade.keys());
