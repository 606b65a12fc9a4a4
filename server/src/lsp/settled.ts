import type { Server } from "./context";
import type { OpenDocument } from "./open-document";

/** Messages are handled one a turn; after each edit an editor sends up to about this many requests. */
const QUIET_TURNS = 8;

/**
 * Waits until the edits that have already arrived are taken in, so that a burst of them is checked once.
 * What is checked afterwards is the text as it is by then. No time passes where nothing is waiting.
 */
export async function settled({ nextTurn }: Pick<Server, "nextTurn">, document: OpenDocument): Promise<void> {
  let seen = document.snapshot.version;
  for (let quietTurns = 0; quietTurns < QUIET_TURNS; ) {
    await nextTurn();
    const { version } = document.snapshot;
    quietTurns = version === seen ? quietTurns + 1 : 0;
    seen = version;
  }
}
