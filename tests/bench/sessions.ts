import type { Figure } from "./figure";
import { ofLongSession, ofSessions } from "./gathered";
import {
  type bundleServers,
  type OverStdio,
  type ServerName,
  serverNames,
  session,
  stdioTable,
} from "./over-stdio";
import { Random } from "./random";

export type Command = ReturnType<typeof bundleServers>;

const keystrokes = 200;
/** What takes half a second for each of them is known well enough after fewer. */
const keystrokesOfCss = 40;

/** Servers and sizes in random order, each in a process of its own. */
export async function sessions(
  command: Command,
  sizes: readonly number[],
  seed: number,
): Promise<{ table: string; figures: Figure[] }> {
  const all = sizes.flatMap((rows) => [
    ...serverNames.map((server) => ({ server, rows, way: "pull" as const })),
    { server: "loopledger" as const, rows, way: "push" as const },
  ]);
  const [pulled, pushed]: [OverStdio[], OverStdio[]] = [[], []];
  for (const { server, rows, way } of new Random(seed).shuffled(all)) {
    const many = keystrokesOf(server, rows);
    const one = await session(server, command(server), rows, { seed: seed + rows, keystrokes: many, way });
    (way === "pull" ? pulled : pushed).push(one);
  }
  return { table: stdioTable(pulled), figures: ofSessions(pulled, pushed) };
}

function keystrokesOf(server: ServerName, rows: number): number {
  return server === "css" && rows >= 1_000 ? keystrokesOfCss : keystrokes;
}

/** Two sessions of one server on one text, one of them ten times as long. */
export async function longSession(command: Command, edits: number, seed: number): Promise<Figure[]> {
  const of = (many: number) =>
    session("loopledger", command("loopledger"), 300, { seed, keystrokes: many, askEvery: 10 });
  return ofLongSession(edits, await of(edits / 10), await of(edits));
}
