import { describe, expect, test } from "vitest";
import { dialectOfWords, termsByHeight, termsMarkOf } from "../../server/src/trade/terms";

const marks = "hilandonubes.com/crochet/info.cgi?id=3008; UK book cdn.shopify.com IW_CB960_SHAWLS_BOOK";

describe("words that mark the terms", () => {
  test.each([
    ["hdc", "US", "sure"],
    ["half double", "US", "sure"],
    ["hdc2tog", "US", "sure"],
    ["htr", "UK", "sure"],
    ["half treble", "UK", "sure"],
    ["ttr", "UK", "sure"],
    ["rtrf", "UK", "sure"],
    ["sc", "US", "strong"],
    ["single crochet", "US", "strong"],
    ["miss", "UK", "weak"],
    ["tension", "UK", "weak"],
    ["yrh", "UK", "weak"],
    ["skip", "US", "weak"],
    ["gauge", "US", "weak"],
  ])(`%s: %s, %s (${marks})`, (word, terms, strength) => {
    expect(termsMarkOf(word)).toEqual({ word, terms, strength });
  });

  test.each([
    "dc",
    "tr",
    "dtr",
    "dc2tog",
    "fpdc",
    "fptr",
    "trtr",
    "ch",
    "sl st",
    "inc",
    "picot",
    "crab st",
    "yoh",
  ])(`%s marks nothing (${marks})`, (word) => expect(termsMarkOf(word)).toBeUndefined());
});

describe("the terms of a text", () => {
  test.each([
    ["hdc dc ch", "US"],
    ["htr tr miss", "UK"],
    // A pattern sheet of PAC0125-000240M: US names beside "miss".
    ["sc dc miss", "US"],
    // Older UK patterns call the slip stitch single crochet: a sure word goes before it.
    ["sc htr tr", "UK"],
    ["tension miss tr", "UK"],
    ["gauge skip dc", "US"],
    ["miss dc", null],
    ["miss miss dc", null],
    ["miss gauge tension", null],
    ["dc tr ch", null],
    ["hdc htr", null],
    ["", null],
  ])("%s: %s", (words, terms) => {
    expect(dialectOfWords(words.split(" "))).toBe(terms);
  });

  test("the chain before a stitch is a tell (from memory)", () => {
    expect(termsByHeight("dc", 1)).toBe("UK");
    expect(termsByHeight("tr", 3)).toBe("UK");
    expect(termsByHeight("dc", 3)).toBe("US");
    expect(termsByHeight("tr", 4)).toBe("US");
    expect(termsByHeight("dc", 2)).toBeNull();
    expect(termsByHeight("hdc", 2)).toBeNull();
  });
});
