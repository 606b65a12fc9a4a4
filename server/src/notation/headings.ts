import { numberWords } from "../trade/number-words";

/** Marks of a heading in plain-text markup: `## Leg`. */
const headingMarks = /^[#=*_\s]+|(?:[#=*_\s]|(?:\s*\.){3}|…)+$/g;
/** `- Body, bottom (red) -`: a heading between dashes. */
const inDashes = /^\s*[-–—~]+\s+(\p{L}[^-–—~]*?)\s+[-–—~]+\s*$/u;
/** `~ Head ~ (caramel)`, `>> Arms << (make 2)`, `+++ Body +++`: between any marks, with a remark behind them. */
const inMarks =
  /^\s*([~+<>«»°◦★☆♥✿❀|/\\^-]{1,6})\s*(\p{L}[^~+<>«»°◦★☆♥✿❀|\\^]{0,40}?)\s*[~+<>«»°◦★☆♥✿❀|/\\^-]{1,6}\s*(\([^()]{1,60}\))?\s*:?\s*$/u;

/** `PART 2: BELLY`, `Piece B - Sleeve`: which of the parts it is. */
const partNumber =
  /^(?:part|piece|section|step|stage)\s+(?:\d{1,2}|[A-Z]|one|two|three|four|five|six|seven|eight|nine|ten)\s*[:.–—-]\s*(?=\p{Lu})/iu;

/** `* Wings * (make two)` without its stars. */
function withoutMarks(framed: string): string {
  const [, , inside, remark] = inMarks.exec(framed) ?? [];
  const marked =
    inside === undefined ? (inDashes.exec(framed)?.[1] ?? framed) : `${inside} ${remark ?? ""}`.trim();
  const behind = /\s*\([^()]*\)\s*:?\s*$/.exec(marked)?.[0] ?? "";
  const bare = marked.slice(0, marked.length - behind.length).replace(headingMarks, "");
  return bare.replace(partNumber, "") + behind.trimEnd();
}

/** `EAR, in Fawn: make 2`: the yarn that it is made of. */
const inColour =
  /,\s+(?:worked\s+)?(?:in|with|using)\s+(?:yarn\s+|colou?r\s+)?\p{Lu}[\p{L}'’]*(?:\s\p{Lu}[\p{L}'’]*)?$/u;

/** `US terms`: what the pattern is written in. */
const termsToldIn = /^(?:us|uk|american|british)\s+(?:crochet\s+)?(?:terms|terminology)$/i;

const headingEnds = /[.;,]$/;

/** Whether a line is nothing but the name of a part: `## Leg`, `Ears, make 2`. */
export function isHeading(marked: string): boolean {
  const text = withoutMarks(marked);
  if (text.length > 60 || headingEnds.test(text) || /[=*]/.test(text)) return false;
  const bare = text
    .replace(/\(.*?\)|\[.*?\]|\s[-–—]\s*(?:make|work)\b.*$/gi, "")
    .replace(howManyBehind, "")
    .replace(/[:–—-]+\s*$/, "")
    .replace(inColour, "")
    .trim();
  if (bare === "" || /\d{3,}/.test(bare) || bare.split(/\s+/).length > 5) return false;
  if (termsToldIn.test(bare)) return false;
  if (inDashes.test(marked) && !/:/.test(bare)) return true;
  if (/[:,]/.test(bare)) return false;
  // `body:`
  const isNamed = /^\p{Ll}[\p{Ll} ]{2,20}$/u.test(bare) && /:$/.test(text) && bare.split(" ").length <= 3;
  return (
    (isNamed || /^\p{Lu}/u.test(bare)) &&
    !/^(?:with|change|using|join|fasten|sew|stuff|work|repeat|turn|insert|weave|block|break|f\/o|continue|do|leave|cut|close|attach|lace|begin|start|place|make|switch|add|put|attach|drop|pick)\b/i.test(
      bare,
    )
  );
}

const n = String.raw`(\d{1,3}|${[...numberWords.keys()].filter((word) => word !== "one").join("|")})`;
const alike = String.raw`\s+(?:alike|the\s+same|in\s+(?:all|total)|identical)`;

/** `, make 2`, ` - make two the same`, `: make eight`, `, worked five times`. */
const howManyBehind = new RegExp(
  String.raw`\s*(?:[,:–—-]|(?:\.\s?){3}|…)\s*(?:make|work(?:ed)?|crochet)\s+(?:${n}|twice)(?:${alike}|\s+times)?\s*:?\s*$`,
  "iu",
);

/** How many of a piece a heading says, whatever its words; the first that is there counts. */
const howMany: readonly RegExp[] = [
  new RegExp(
    String.raw`\b(?:make|work(?:ed)?|crochet|x|×|need)\s*(?:a\s+total\s+of\s+)?${n}\b(?!\s*(?:mm|cm)\b)`,
    "iu",
  ),
  new RegExp(
    String.raw`[([]\s*${n}\s*(?:[x×]|pcs|pieces|parts|off|required|needed|of\s+\p{L}+|${alike})?\s*[)\]]`,
    "iu",
  ),
  new RegExp(String.raw`[x×]\s*${n}\s*\)?\s*$`, "iu"),
  new RegExp(String.raw`\b${n}\s*(?:[x×]|parts|pcs|pieces)\s*\)?\s*:?\s*$`, "iu"),
];
const aPair =
  /[([,–—-]\s*(?:both|two)\s+(?:(?:are\s+)?(?:worked|made)\s+)?(?:alike|the\s+same)\s*[)\]]?\s*:?\s*$|[([,–—-]\s*(?:(?:make|work)\s+)?(?:a\s+)?pair\s*[)\]]?\s*:?\s*$|\bworked\s+twice\b|^a\s+pair\s+of\b/i;
/** `Front and back (both alike)`: one of each. */
const ofTwoNames = /\band\b|[&/+]/i;

function numberIn(text: string): number | null {
  const digits = howMany.map((form) => form.exec(text)?.[1]).find((one) => one !== undefined);
  if (digits === undefined) return aPair.test(text) && !ofTwoNames.test(text) ? 2 : null;
  return numberWords.get(digits.toLowerCase()) ?? Number(digits);
}

const ofThese = new RegExp(
  String.raw`^\s*[([]?\s*(?:make|work|you(?:['’]ll|\s+will)\s+need)\s+${n}\b(?!\s*(?:ch|sc|hdc|dc|htr|tr|more|rows?|rounds?|rnds?|sts?|stitch\w*|chains?)\b)`,
  "iu",
);

/** `(make 2, in orange)` on the line below a heading → how many; null for any other line. */
export function readMake(text: string): number | null {
  const many = ofThese.exec(text)?.[1];
  return many === undefined ? null : (numberWords.get(many.toLowerCase()) ?? Number(many));
}

/** `Leaf (make 3 in green)` → name and how many. */
export function readHeading(marked: string): { name: string; make: number } {
  const text = withoutMarks(marked);
  const name = text
    .replace(/\(.*?\)|\[.*?\]/g, "")
    .replace(/\s+[x×]\s*\d+\s*:?\s*$/i, "")
    .replace(howManyBehind, "")
    .replace(inColour, "")
    .replace(/[-–—,:]?\s*(?:make\s+(?:\d+|one|two|three|four|six).*)$/i, "")
    .replace(/\s[-–—]\s+\d+\s+(?:pieces|pcs|parts)\s*$/i, "")
    .replace(/\s[-–—]\s+\p{Ll}[\p{Ll} ]*$/u, "")
    .replace(/\s*(?:[:–—-]+|(?:\.\s?){3})\s*$/, "")
    .trim();
  return { name, make: numberIn(text) ?? 1 };
}
