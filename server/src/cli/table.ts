const GAP = "  ";

/** Lays out lines of cells in columns; a column whose cells below its heading are numbers stands to the right. */
export function table(lines: readonly (readonly string[])[]): string[] {
  const columns = (lines[0] ?? []).map((_, index) => columnOf(lines.map((cells) => cells[index] ?? "")));
  return lines.map((_, line) =>
    columns
      .map((cells) => cells[line])
      .join(GAP)
      .trimEnd(),
  );
}

function columnOf(cells: readonly string[]): string[] {
  const width = Math.max(...cells.map(({ length }) => length));
  const isNumeric = cells.slice(1).every((cell) => /^[\d/-]+$/.test(cell));
  return cells.map((cell) => (isNumeric ? cell.padStart(width) : cell.padEnd(width)));
}
