import { expect, test } from "vitest";
import { publishingPage } from "../../server/src/features/publishing-page";
import { Checker } from "../../server/src/workspace/checker";
import { Prover } from "../../server/src/workspace/prover";
import type { Severities } from "../../server/src/workspace/severities";

function page(text: string, severities: Severities = new Map()): string {
  const checked = new Checker().work(text);
  const { findings } = checked.report;
  const prover = new Prover(text, findings, (copy) => new Checker().check(copy));
  return publishingPage({
    checked,
    findings,
    severities,
    fixesOf: (finding) => prover.fixesOf(finding).map(({ title }) => title),
  });
}

const draft = `Buoy

Terms: US
Hook: 5 mm (I-9)

Abbreviations
sc = single crochet
inc = 2 sc in one st

Body (make 2)
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x5 (12)
Rnd 3: glorp, sc in next 4 sts
`;

test("the page tells what was checked, what not and why, and what is open", () => {
  // Of hooks: 5 mm is H-8 (Craft Yarn Council, from memory).
  expect(page(draft, new Map([["odd-eyelets", "off"]]))).toBe(`# Before publishing: Buoy

2 open queries; 2 of 3 rows checked.

## Open queries

- line 4: 5 mm and I-9 are not the same hook: the charts print I-9 at 5.5 mm, and 5 mm as H-8. Which is meant? To mend it: Write 5.5 mm, or: Write H-8.
- Body, line 12: Rnd 2 needs 5 stitches; Rnd 1 has 6: 1 left over. Did you mean x6? To mend it: Change "x5" to "x6".

## Notes

- line 13: Rnd 3 is not checked: "glorp" is not explained in this pattern. If it is a stitch, say how it is worked on a line of its own: "glorp = 3 dc in same st".

## Rows

| piece | rows | checked | checked, taking something for granted | not checked |
|:--|:--|:--|:--|:--|
| Body (make 2) | 3 | 2 | 0 | 1 |

## Not checked

- Body Rnd 3: "glorp" is not explained in this pattern
- odd-eyelets: turned off in the settings

## What is listed, against the rows

| what | listed | against the rows |
|:--|:--|:--|
| terms | US | agrees |
| abbreviations | 2 | agrees |
| special stitches | not listed |  |
| yarns | not listed |  |
| hooks | 1 | 1 remark above |
| sizes | not listed |  |
| measurements | not listed |  |
| gauge | not listed |  |

## Not looked at

Whether the work looks as it should, the sentences between the rows, and safety: small parts, cords and heat come under the rules of the place where the pattern or the work is sold.
`);
});

test("what rows take for granted is told with the rows", () => {
  const text = "Flap\nCh 12.\nRow 1: Dc in 4th ch from hook and in each ch across.";
  const told = page(text);
  const { pieces } = new Checker().check(text);
  const granted = pieces.flatMap(({ rows }) => rows.flatMap(({ assumptions }) => assumptions));
  expect(granted.length).toBeGreaterThan(0);
  for (const assumption of granted) expect(told).toContain(`- ${assumption}: Flap Row`);
});

test("a pattern without a query is said to have none; markup in it is shown as it is", () => {
  const told = page("*Buoy*\n\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)");
  expect(told).toContain("# Before publishing: \\*Buoy\\*");
  expect(told).toContain(
    "0 open queries; 2 of 2 rows checked. Nothing was found that speaks against publishing.",
  );
});

test("a text without rows gets a page too", () => {
  expect(page("")).toContain("There are no rows.");
});
