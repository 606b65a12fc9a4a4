import { type Retold, retellings } from "../../reshape/retell";
import { isRefusal } from "../../reshape/row-trial";
import { sayings } from "../../text/say";
import type { ActionSource } from "./action";
import { withFollowing } from "./following";
import { rowHere } from "./row-here";

const titles = sayings<Retold["way"]>({
  "spelled-out": "Spell the repeat out",
  folded: "Fold what comes again into a repeat",
  "in-brackets": "Write the repeat in brackets",
  "from-asterisk": "Write the repeat from an asterisk",
});

/** The row here with its repeats written in another way. */
export const retell: ActionSource = (scene, focus) => {
  const here = rowHere(scene, focus);
  if (!here) return [];
  const { row, piece } = here;
  const { start } = row.line;
  return retellings(row, piece).flatMap(({ way, edit: { span, newText } }) => {
    const moved = { span: { start: span.start + start, end: span.end + start }, newText };
    const done = withFollowing(scene, null, { edits: [moved] });
    if (isRefusal(done)) return [];
    return [{ kind: "rewrite", title: titles(way), mends: [], preferred: false, edits: () => done.edits }];
  });
};
