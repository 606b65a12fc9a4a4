import type { WorkedPattern, WorkedPiece } from "../../fabric/worked";
import { yarnUseOf } from "../../measure/yarn-used";
import { sentencesOf } from "../../notation/assembly";
import { frontMatterOf } from "../../notation/front-matter/front-matter";
import type { Resized } from "../../reshape/resize/resize";
import { say } from "../../text/say";
import { whereNamed } from "../named-pieces";
import { rowTitle } from "../row-names";
import { cord, spacesIn } from "./eyelets";
import type { PieceMeasures } from "./piece-measures";

/** A piece before and after, with the whole pattern of each. */
export interface BeforeAndAfter {
  readonly pattern: WorkedPattern;
  readonly piece: WorkedPiece;
  readonly after: WorkedPattern;
  readonly resized: Resized;
  readonly measures: PieceMeasures;
}

/** What a new size brings with it that no row tells, a sentence each. */
export function whatElse(change: BeforeAndAfter): string[] {
  return [spacesNote, cordNote, sewnNote, sidesNote, yarnNote, stuffingNote, sizeNote].flatMap((note) => {
    const said = note(change);
    return said === null ? [] : [said];
  });
}

type Note = (change: BeforeAndAfter) => string | null;

function times(by: number): string {
  return `${Math.round(by * 100) / 100}`;
}

/** Once as much, as far as it is told. */
function isAsMuch(by: number): boolean {
  return times(by) === "1";
}

function widthBy({ resized }: BeforeAndAfter): number {
  return resized.widest / resized.before.widest;
}

const spacesNote: Note = ({ pattern, resized }) => {
  const changed = spacesIn(resized);
  const told = changed.map(
    ({ row, were, are }) => say`${rowTitle(row)} has ${are} spaces instead of ${were}`,
  );
  const isOdd = isLaced(pattern) && changed.some(({ were, are }) => were % 2 === 0 && are % 2 === 1);
  const odd = isOdd ? say` An even number lets both ends of the cord come out on the same side.` : "";
  return told.length > 0 ? `${told.join("; ")}.${odd}` : null;
};

function isLaced({ lines }: WorkedPattern): boolean {
  return lines.some(({ kind, text }) => kind === "prose" && /\bthrough\b/i.test(text) && cord.test(text));
}

const cordNote: Note = (change) => {
  const { pattern, piece } = change;
  const own = pattern.pieces.filter((one) => one !== piece && cord.test(one.piece.name));
  if (!isLaced(pattern) || own.length === 0 || isAsMuch(widthBy(change))) return null;
  const names = own.map((one) => one.piece.name).join(", ");
  return say`${names}: left as it is. To go around as loosely as now it has to be ${times(widthBy(change))} times as long.`;
};

const sewnNote: Note = ({ pattern, piece, resized }) => {
  if (resized.widest === resized.before.widest && pattern.pieces.length < 2) return null;
  const { name } = piece.piece;
  const said = pattern.lines
    .filter(({ kind }) => kind === "prose")
    .flatMap(({ content }) => sentencesOf(content))
    .filter(
      ({ deeds, text }) =>
        deeds.some(({ does }) => does === "sew") && (name === "" || whereNamed(text, name) !== null),
    )
    .map(({ text }) => `"${text.trim()}"`);
  return said.length > 0 ? say`Parts that meet it have the size they had. Look at ${said.join(" ")}` : null;
};

const sidesNote: Note = ({ resized }) => {
  const turned = resized.rows.find(
    ({ row: { row, from, state } }) =>
      state === "kept" && row.line.head?.side != null && ((from ?? 0) - (row.line.head.from ?? 0)) % 2 !== 0,
  );
  return turned
    ? say`${rowTitle(turned.row.row)} comes to lie on the other side: its (${turned.row.row.line.head?.side}) is yours to change.`
    : null;
};

const yarnNote: Note = (change) => {
  const { pattern, after, piece, resized } = change;
  const sum = (all: ReturnType<ReturnType<typeof yarnUseOf>["ofPiece"]>): number =>
    [...(all[0]?.values() ?? [])].reduce((more, n) => more + n, 0);
  const now = after.pieces[pattern.pieces.indexOf(piece)];
  const [before, then] = [
    sum(yarnUseOf(pattern).ofPiece(piece)),
    now ? sum(yarnUseOf(after).ofPiece(now)) : 0,
  ];
  const by =
    before > 0 ? then / before : widthBy(change) * (resized.after.rows.length > 1 ? rowsBy(change) : 1);
  return isAsMuch(by)
    ? null
    : say`Yarn for this piece: about ${times(by)} times as much. The amounts in the list are not changed.`;
};

function rowsBy({ resized }: BeforeAndAfter): number {
  const rows = (state: (one: string) => boolean, of: (row: Resized["rows"][number]["row"]) => number) =>
    resized.rows.filter(({ row }) => state(row.state)).reduce((sum, { row }) => sum + of(row), 0);
  const before = resized.before.rungs.reduce((sum, one) => sum + one.rows, 0);
  return (
    rows(
      (state) => state !== "gone",
      (row) => row.rows,
    ) / before
  );
}

const stuffingNote: Note = (change) => {
  const isStuffed = change.pattern.lines.some(({ text }) => /\bstuff/i.test(text));
  const by = widthBy(change) ** 2 * rowsBy(change);
  return isStuffed && !isAsMuch(by) ? say`Stuffing: about ${times(by)} times as much.` : null;
};

const sizeNote: Note = ({ pattern }) => {
  const [first] = frontMatterOf(pattern.lines).measurements;
  const name = first?.title?.text.trim();
  return name ? say`"${name}" in the list is not changed.` : null;
};
