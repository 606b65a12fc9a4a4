import { readHead } from "../../notation/document";
import type { HouseStyle } from "./styles";

const form =
  /^(\s*)(rounds?|rnds?|rd|rows?|rw|r)\.?(\s*#?\s*)(\d+)(?:\s*([-–—])\s*(\d+))?((?:\s*\([^()]*\))?)\s*(?:[:.)]|[–—-]+)?\s*$/i;

const dashes: Readonly<Record<HouseStyle["signs"], string | null>> = { any: null, plain: "-", print: "–" };

/** The start of a row's line, up to what it instructs, with its head in the house's way; as it is where that is not plain. */
export function styledHead(lead: string, { round, row, signs }: HouseStyle): string {
  const [, indent = "", typed = "", , from = "", dash, to, label = ""] = form.exec(lead) ?? [];
  if (from === "") return lead;
  const word = readHead(lead)?.word === "round" ? round : row;
  const range = dash === undefined ? "" : `${dashes[signs] ?? dash}${to}`;
  const styled =
    `${indent}${word}${range === "" || word === "R" ? "" : "s"}${word === "R" ? "" : " "}${from}${range}${label} `.replace(
      /\s+$/,
      ": ",
    );
  return typed !== "" && isSame(lead, styled) ? styled : lead;
}

function isSame(before: string, after: string): boolean {
  const [a, b] = [readHead(before), readHead(after)];
  const said = (head: typeof a) => head && [head.word, head.from, head.to, head.open, head.many, head.side];
  return a !== null && b?.length === after.length && JSON.stringify(said(a)) === JSON.stringify(said(b));
}
