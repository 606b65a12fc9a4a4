import { getCSSLanguageService } from "vscode-css-languageservice";
import { TextDocument } from "vscode-languageserver-textdocument";
import { completionsAt } from "../../server/src/features/completion/completion";
import { hoverAt } from "../../server/src/features/hover/hover";
import { pieceLenses } from "../../server/src/features/piece-lens";
import { statusAt } from "../../server/src/features/row-status";
import { toMarkdown } from "../../server/src/features/shown/markdown";
import { Checker } from "../../server/src/workspace/checker";
import { styleSheet } from "./css-text";
import { longPattern, mixOf } from "./long-pattern";
import { median, quantile, type Times } from "./measure";
import { Random } from "./random";

const places = 2_000;
const versions = 20;

/** What is asked of a text that is checked already, and what the first question after each edit costs. */
export function pointing(rows: number, seed: number): string {
  const measured = { ...ours(rows, seed), ...css(rows, seed) };
  const lines = Object.entries(measured).map(
    ([name, times]) =>
      `| ${name} | ${median(times).toFixed(3)} | ${quantile(times, 0.95).toFixed(3)} | ${times.length} |`,
  );
  return ["| asked | ms, median | p95 | times |", "|---|---|---|---|", ...lines].join("\n");
}

function timed(times: Times, work: () => unknown): void {
  const start = performance.now();
  work();
  times.push(performance.now() - start);
}

function ours(rows: number, seed: number): Record<string, Times> {
  const text = longPattern(rows, seed);
  const random = new Random(seed);
  const checker = new Checker();
  const out = {
    hover: [] as Times,
    status: [] as Times,
    "completion at the end of a line": [] as Times,
    "completion behind Enter": [] as Times,
    "first hover after an edit": [] as Times,
    "lenses after an edit": [] as Times,
  };
  const point = (pattern: ReturnType<Checker["work"]>["worked"]) => {
    const hover = hoverAt(pattern, random.between(0, text.length));
    return hover && toMarkdown(hover.blocks);
  };
  for (let version = 0; version < versions; version++) {
    const at = random.between(Math.floor(text.length / 20), text.length);
    const { worked } = checker.work(`${text.slice(0, at)}1${text.slice(at)}`);
    timed(out["first hover after an edit"], () => point(worked));
    timed(out["lenses after an edit"], () => pieceLenses(worked));
    for (let i = 0; i < places / versions; i++) {
      timed(out.hover, () => point(worked));
      timed(out.status, () => statusAt(worked, random.between(0, text.length)));
      const end = worked.text.indexOf("\n", random.between(0, worked.text.length - 1_000));
      timed(out["completion at the end of a line"], () => completionsAt(worked, end));
      timed(out["completion behind Enter"], () => completionsAt(worked, end + 1, "\n"));
    }
  }
  return out;
}

/** The yardstick: pointing at a style sheet of as many lines. */
function css(rows: number, seed: number): Record<string, Times> {
  const { lines, bytes } = mixOf(longPattern(rows, seed));
  const service = getCSSLanguageService();
  const document = TextDocument.create("file:///sheet.css", "css", 1, styleSheet(lines, bytes, seed));
  const sheet = service.parseStylesheet(document);
  const random = new Random(seed);
  const times: Times = [];
  for (let i = 0; i < places; i++) {
    const position = document.positionAt(random.between(0, bytes));
    timed(times, () => service.doHover(document, position, sheet));
  }
  return { "hover, CSS": times };
}
