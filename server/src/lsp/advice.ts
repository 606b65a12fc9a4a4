import type { Finding } from "../workspace/report";
import type { Snapshot } from "./open-document";

/**
 * What findings ask ("Did you mean x3?"). To find that out can take longer than a frame: while someone types, a
 * finding says what is wrong, and asks only what is known from before; the rest follows when the typing pauses.
 */
export class Advice {
  isTyping = false;
  private readonly told = new Map<string, string>();
  private waits = false;

  /** Someone typed: nothing new is worked out until they pause. */
  typed(): void {
    this.isTyping = true;
  }

  /** Nobody types any more; gives whether something was held back. */
  paused(): boolean {
    const { waits } = this;
    this.isTyping = this.waits = false;
    return waits;
  }

  messageOf(finding: Finding, snapshot: Snapshot): string {
    const { rule, brief } = finding;
    if (brief === undefined) return finding.message;
    // What was asked of a row is out of date as soon as the row is changed.
    const key = `${rule} ${brief} ${wordsAt(finding, snapshot)}`;
    const known = this.told.get(key);
    if (this.isTyping) {
      this.waits ||= known === undefined;
      return known ?? brief;
    }
    const { message } = finding;
    if (this.told.size >= toldAtMost) this.told.clear();
    this.told.set(key, message);
    return message;
  }
}

const toldAtMost = 2000;

/** The lines that a finding is on. */
function wordsAt({ span }: Finding, { text, lines }: Snapshot): string {
  const [first, last] = [lines.position(span.start).line, lines.position(span.end).line];
  const end = last + 1 < lines.lineCount ? lines.lineStart(last + 1) : text.length;
  return text.slice(lines.lineStart(first), end);
}

/** Milliseconds without a keystroke: longer than between two letters, shorter than a look at the list of problems. */
const pause = 300;

/** Tells of the first pause after each spell of typing in a document. */
export class TypingPauses<Document extends object> {
  private readonly waiting = new WeakMap<Document, ReturnType<typeof setTimeout>>();

  constructor(private readonly onPause: (document: Document) => void) {}

  typed(document: Document): void {
    clearTimeout(this.waiting.get(document));
    this.waiting.set(
      document,
      setTimeout(() => this.onPause(document), pause),
    );
  }

  closed(document: Document): void {
    clearTimeout(this.waiting.get(document));
  }
}
