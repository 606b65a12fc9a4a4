import { createRequire } from "node:module";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hoverAt } from "../../server/src/features/hover/hover";
import type { Block } from "../../server/src/features/shown/blocks";
import { escaped, toMarkdown } from "../../server/src/features/shown/markdown";
import { toPlainText } from "../../server/src/features/shown/plain-text";
import { marked } from "./marked-pattern";

/** A reader of CommonMark and GitHub's tables that was written elsewhere, let loose: HTML and bare links are on. */
interface Reader {
  render(markdown: string): string;
}
const MarkdownIt: new (options: object) => Reader = createRequire(import.meta.url)("markdown-it");
const reader = new MarkdownIt({ html: true, linkify: true });

const entities: Readonly<Record<string, string>> = { lt: "<", gt: ">", amp: "&", quot: '"' };

/** What a person sees of rendered Markdown: tags taken away, entities read. */
function seen(html: string): string {
  return html
    .replace(/<[^>]*>/g, "")
    .replace(/&(lt|gt|amp|quot);/g, (_, name: string) => entities[name] ?? "");
}

function plain(text: string): string {
  return text.replace(/[\s\p{Cc}\u202a-\u202e\u2066-\u2069]+/gu, " ").trim();
}

const hostile = [
  "<script>alert(1)</script>",
  "<img src=x onerror=alert(1)>",
  "[click](https://example.com)",
  "![](https://example.com/x.png)",
  "https://example.com and www.example.com and a@example.com",
  "`code` and ``more``",
  "# heading",
  "- item",
  "1. item",
  "| a | b |",
  "**bold** _it_ ~~gone~~ $(icon) $x$",
  "&lt;b&gt; &copy;",
  "\\* \\\\ \\",
  "    indented",
  "```\nfence\n```",
  "line\u2028line\r\nline",
  "[^1] [x]: https://example.com",
  "command:loopledger.copyProof",
];

describe("text of a pattern", () => {
  test.each(hostile)("is shown as it is: %s", (text) => {
    const html = reader.render(escaped(text));
    expect(html).toMatch(/^<p>[^<]*<\/p>\n$/);
    expect(seen(html).trim()).toBe(plain(text));
  });

  test("of any kind is shown as it is, and makes no tag of its own", () => {
    const part = fc.oneof(
      fc.constantFrom(...hostile, "*", "_", "[", "](", "<", "&", ":", "//", "www.", "|", "\n", " "),
      fc.string({ unit: "binary", maxLength: 6 }),
    );
    // Half a surrogate has no form in rendered text.
    const texts = fc.array(part, { maxLength: 8 }).map((parts) => parts.join("").replace(/\p{Cs}/gu, ""));
    const check = (text: string) => {
      const html = reader.render(`x${escaped(text)}x`);
      expect(html).toMatch(/^<p>[^<]*<\/p>\n$/);
      expect(seen(html).trim()).toBe(`x${plain(text)}x`);
    };
    fc.assert(fc.property(texts, check), { numRuns: 1_000 });
  });
});

describe("blocks", () => {
  const blocks: Block[] = [
    { kind: "title", text: "Rnd *3*" },
    { kind: "line", text: "+1 is no list" },
    { kind: "list", items: ["one | two", "- three"] },
    { kind: "table", head: ["a|b", ""], rows: [["1", "<b>2</b>"]] },
  ];

  test("become what they are", () => {
    expect(reader.render(toMarkdown(blocks)).replace(/\n| style="text-align:left"/g, "")).toBe(
      "<p><strong>Rnd *3*</strong></p><p>+1 is no list</p><ul><li>one | two</li><li>- three</li></ul>" +
        "<table><thead><tr><th>a|b</th><th></th></tr></thead><tbody><tr><td>1</td><td>&lt;b&gt;2&lt;/b&gt;</td></tr></tbody></table>",
    );
  });

  test("are told without markup where a client shows none", () => {
    expect(toPlainText(blocks)).toBe(
      "Rnd *3*\n\n+1 is no list\n\n- one | two\n- - three\n\na|b\n1 | <b>2</b>",
    );
  });
});

test("names and prose of a pattern make no tags and no links in a hover", () => {
  const pattern = [
    "<b>Hat</b> [x](https://example.com)",
    "Materials",
    "Wool: 20 g `sand` <img src=x> (A)",
    "Special stitches",
    "Shell: 5 dc in one st <script>alert(1)</script> https://example.com.",
    "",
    "R1: With A, 6 sc in mr (6)",
    "R2: `lotus` <b>x6</b> (6)",
    "R3: shell in next st",
  ].join("\n");
  for (let offset = 0; offset <= pattern.length; offset++) {
    const { worked } = marked(`${pattern}$0`);
    const hover = hoverAt(worked, offset);
    const tags = reader.render(toMarkdown(hover?.blocks ?? [])).match(/<\w+/g) ?? [];
    const known = ["<p", "<strong", "<ul", "<li", "<table", "<thead", "<tbody", "<tr", "<th", "<td"];
    expect(tags.filter((tag) => !known.includes(tag))).toEqual([]);
  }
});
