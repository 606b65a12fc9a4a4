import { bodyStart, linesOf, type Mutant, type Place } from "./mutant";

/** Whole rows left out, written twice, or changed about with the next one. */
export function rowMutants(file: string, text: string): Mutant[] {
  const lines = linesOf(text).map(({ line }) => line);
  return lines.flatMap((line, at) => {
    if (bodyStart(line) === null) return [];
    const next = lines[at + 1] ?? "";
    const mutant = mutantAt(file, at);
    return [
      mutant("row left out", lines.toSpliced(at, 1), line),
      mutant("row twice", lines.toSpliced(at, 0, line), line),
      ...(bodyStart(next) === null || next === line
        ? []
        : [mutant("rows changed about", lines.toSpliced(at, 2, next, line), line)]),
    ];
  });
}

/** It can show in what stands at the place, or in the row behind it. */
function mutantAt(file: string, at: number) {
  return (place: Place, lines: readonly string[], line: string): Mutant => {
    const start = lines.slice(0, at).join("\n").length + Math.min(at, 1);
    const shownIn = lines.slice(at, nextRow(lines, at + 1) + 1).join("\n");
    const shown = `{${place}} ${line}`;
    return { file, text: lines.join("\n"), start, end: start + shownIn.length, shown, place };
  };
}

function nextRow(lines: readonly string[], from: number): number {
  const found = lines.findIndex((line, at) => at >= from && bodyStart(line) !== null);
  return found < 0 ? lines.length - 1 : found;
}
