import { getCSSLanguageService } from "vscode-css-languageservice";
import { getLanguageService } from "vscode-json-languageservice";
import { TextDocument } from "vscode-languageserver-textdocument";
import { Checker } from "../../server/src/workspace/checker";
import { styleSheet } from "./css-text";
import { jsonText } from "./json-text";
import { longPattern, mixOf } from "./long-pattern";

/** Something that checks a text and can be kept between its versions. */
export interface Subject {
  /** A text of the size; never the same for another seed. */
  text(rows: number, seed: number): string;
  /** A checker that has seen nothing. */
  fresh(): (text: string) => number;
}

const loopledger: Subject = {
  text: longPattern,
  fresh() {
    const checker = new Checker();
    return (text) => checker.check(text).findings.length;
  },
};

/** A yardstick: the style sheet service of VS Code, on as many lines and about as many bytes. */
const css: Subject = {
  text(rows, seed) {
    const { lines, bytes } = mixOf(longPattern(rows, seed));
    return styleSheet(lines, bytes, seed);
  },
  fresh() {
    const service = getCSSLanguageService();
    let version = 0;
    return (text) => {
      const document = TextDocument.create("file:///sheet.css", "css", ++version, text);
      return service.doValidation(document, service.parseStylesheet(document)).length;
    };
  },
};

/** The other yardstick: without a schema, what there is to validate of JSON is told as it is read. */
const json: Subject = {
  text(rows, seed) {
    const { lines, bytes } = mixOf(longPattern(rows, seed));
    return jsonText(lines, bytes, seed);
  },
  fresh() {
    const service = getLanguageService({});
    let version = 0;
    return (text) => {
      const document = TextDocument.create("file:///stall.json", "json", ++version, text);
      return "root" in service.parseJSONDocument(document) ? 1 : 0;
    };
  },
};

export const subjects = { loopledger, css, json };
export type SubjectName = keyof typeof subjects;
