/** The text is beyond this counter: it says so rather than guess. */
export class Unreadable extends Error {}

const smallNumbers =
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen".split(
    " ",
  );

type Replacement = readonly [RegExp, string];

/** Spellings of the same thing, in the order in which they must be put right. */
const replacements: readonly Replacement[] = [
  [/[–—]/g, " – "],
  [/×/g, "x"],
  [/\*\*/g, "¶"],
  [/\b(the|of the) /g, ""],
  [/\ba (?=magic|mr|standing|sc|ss|sl|dc|leftover|total)/g, ""],
  [/\bhalf double crochets?\b/g, "hdc"],
  [/\bsingle crochets?\b/g, "sc"],
  [/\bdouble crochets?\b/g, "dc"],
  [/\b([sd]) c\b/g, "$1c"],
  [/\b([sd])\.c\./g, "$1c"],
  [/\bch\.(?= (?:from|to|and|in))|(?<=^|[,.] )ch\.(?= \d)/g, "ch"],
  [/\bchains?\b/g, "ch"],
  [/\bstitch(es)?\b/g, "st"],
  [/\bsts\b/g, "st"],
  [/\bspaces?\b|\bsps\b/g, "sp"],
  [/\bsecond\b/g, "2nd"],
  [/\b(skip|miss|missed|skipping|pass over)\b/g, "sk"],
  [/\brepeat\b/g, "rep"],
  [/\binto\b/g, "in"],
  [/\bea\b/g, "each"],
  [/\b(sl ?sts|slst|ss|slip st)\b/g, "sl st"],
  [/\b(?:magic ring|mr) with (\d+) sc\b/g, "$1 sc in magic ring"],
  [/\ball way around\b/g, "around"],
  [/\b(sc \d+) even\b/g, "$1"],
  [/\bin every (?=ch|st)/g, "in each "],
  [/ -(\d+ sc)-/g, " ($1)"],
  [/\btwice\b/g, "2 times"],
  [/\bonce\b/g, "1 times"],
  [/\b(\d+) times more\b/g, "$1 more times"],
  [/\binv ?dec\b/g, "dec"],
  [/\bmake an increase\b|\bincrease( 1)?\b/g, "inc"],
  [/\b(sc|hdc|dc|tr) ?(\d) ?(?:tog|together)\b/g, "$1$2tog"],
  [/\b(\d)(sc|hdc|dc|tr)tog\b/g, "$2$1tog"],
  [/draw up a loop in each of next 2 st, yo and draw through all 3 loops on hook/g, "dec"],
  [/\bsctbl\b/g, "sc"],
  [/ together with (?:1st|2nd) wing\b|, \d rounds(?= \[)/g, ""],
  [/\bcrochet through both pieces: /g, ""],
  [/\(working down other side\)/g, "working on other side,"],
  [/^ch 2, work (\d+) sc in first ch made/g, "ch 2, $1 sc in 2nd ch from hook"],
  [/\bin each(?= \()/g, "in each st"],
  [/\b\d+ sc starting in 2nd ch from hook/g, "sc in 2nd ch from hook and in each ch"],
  [/ & /g, " and "],
  [/\bin (\d+)(?=[,.])/g, "in next $1"],
  [/ \+ ch-(\d) sp\b/g, ", 1 ch-$1 sp"],
  [/\bsk 1st st\b/g, "sk first st"],
  [/ for (?:raglan|instep)\b/g, ""],
  [/: (\d+ sc)\.$/g, " ($1)"],
  [/^join arms: /g, ""],
  [/ through arm and body together\b| together with arm\b/g, ""],
  [/\bsl st across to first corner sp, (\([^)]*\)) in corner sp/g, "sl st to corner sp, $1 in same sp"],
  [/\bst at base of \d ?ch\b/g, "same st"],
  [/\bsl st in (\d[a-z]{2}) of (\d) ?ch/g, "sl st in $1 ch of $2 ch"],
  [/\binc 1 sc in next sc\b/g, "inc"],
  [/\brep from \* around \((?=\d+ sc\))/g, "rep from * around ("],
  [/ \| /g, ": "],
  [/\bside of (?:starting|foundation) ch\b/g, "side of ch"],
  [/\bthere are (\d+ \w+) in rnd\b/g, "($1)"],
  [/\b([fb]p(?:dc|hdc|tr)) around [fb]p(?:dc|hdc|tr)\b/g, "$1"],
  [/, rep between asterisks\b/g, ""],
  [/\bdec 1 sc(?: over next 2 sc)?\b(?! at)/g, "dec"],
  [/\b(?:start|crochet) (?=\d+ sc\b)/g, ""],
  [/, sl st(?= \(\d+\)$)/g, ", join"],
  [/\bclose in a circle with\b/g, "join with"],
  [/\b(?:magic ring|mr)(?:,| with) (\d+) ?(sc|hdc|dc)\b/g, "$1 $2 in mr"],
  // Where they go is not said: into no place that is counted.
  [/\b(?:work )?(\d+) (sc|hdc|htr|dc|tr) evenly\b[^,.;(]*/g, "$1 $2 in ring"],
  [/\bin all (?=\d)/g, "in next "],
  [/ all way around\b/g, " around"],
  [/(?<=\b(?:sc|hdc|dc) \d+) even\b| behind back wall\b| in (?:blo|flo)(?=$|[,.;( ]*$)/g, ""],
  [/\bworking in (back|front) loops? only,/g, ""],
  [/\bin (?:blo|flo):/g, ""],
  [/\b(?:blo|flo)\b(?! of st)/g, " "],
  [
    /\bin (?:bl|fl|(?:back|front|both) loops?(?: only)?|horizontal bar|back loop only|back loop)(?: of)? (?=next|each)/g,
    "in ",
  ],
  [/\bhdc in (?:flo|blo) of st (\d) rows below/g, "hdc in next st"],
  [/\bin (?:flo|blo) of st \d rows below/g, "in next st"],
  [/ \d rows below, sk st behind it/g, ""],
  [/\b(\d+)-?ch sp\b/g, "sp#$1"],
  [/\bch[- ]?(\d+)[- ](?:sp|loops?|lps?)\b/g, "sp#$1"],
  [/\bhandle(?: loop)?s?\b/g, "sp#"],
  [/\b(?:(\d+)-?ch|ch-?(\d+)) corner(?: sp)?\b/g, "sp#$1$2"],
  [/\bcorner sp\b/g, "sp#"],
  [/\bch sp\b/g, "sp#"],
  [/\b(?:sp|loops?|lps?)\b(?!#)(?! between)/g, "sp#"],
  [/\b(\d+)(sc|hdc|htr|dc|dtr|tr)\b/g, "$1~$2"],
  [/\b((?:next|last|first|counts as) \d+)~/g, "$1 "],
  [/\b(\d+)(ch|dec|inc)\b/g, "$1 $2"],
  [/\b(sc|hdc|htr|dc|dtr|tr|ch|fsc|fdc|fhdc)-?(\d+)\b(?!tog)/g, "$1 $2"],
  [/\b(\d) ?row(?=s? below)/g, "$1 row"],
  [/[ \t]+/g, " "],
];

/** One spelling for each thing, lower case, numbers in digits; spaces as `sp#2`, glued numbers as `3~sc`. */
export function tidy(text: string): string {
  const digits = text.toLowerCase().replace(/\b[a-z]+\b/g, (word) => {
    const index = smallNumbers.indexOf(word);
    return index > 0 ? String(index) : word;
  });
  return replacements.reduce((line, [from, to]) => line.replace(from, to), digits).trim();
}
