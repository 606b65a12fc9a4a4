import fc from "fast-check";
import { expect, test } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import { LineIndex } from "../../server/src/text/line-index";

// Held against the protocol's own library of documents.
const written = fc.array(fc.constantFrom("Rnd 1", " ", "\n", "\n", "\r\n", "é", "𝒜", ""), { maxLength: 40 });
const texts = fc.oneof(
  written.map((parts) => parts.join("")),
  fc.array(fc.constantFrom("6 sc", "\r", "\n", "\r\n"), { maxLength: 40 }).map((parts) => parts.join("")),
);

test("every offset of any text has the line and column that the library gives it", () => {
  fc.assert(
    fc.property(texts, (text) => {
      const [lines, document] = [new LineIndex(text), TextDocument.create("file:///a", "crochet", 1, text)];
      expect(lines.lineCount).toBe(document.lineCount);
      for (let line = 0; line < lines.lineCount; line++)
        expect(lines.lineStart(line)).toBe(document.offsetAt({ line, character: 0 }));
      for (let offset = 0; offset <= text.length; offset++) {
        const { line, column } = lines.position(offset);
        expect(lines.lineStart(line) + column).toBe(offset);
        // The library keeps out of the middle of a line end.
        if (!/[\r\n]/.test(text[offset] ?? ""))
          expect({ line, character: column }).toEqual(document.positionAt(offset));
      }
    }),
  );
});
