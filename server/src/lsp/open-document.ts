import type { TextDocumentContentChangeEvent } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import { LineIndex } from "../text/line-index";
import type { Checked, Checker } from "../workspace/checker";
import { Prover } from "../workspace/prover";
import type { PatternReport } from "../workspace/report";
import { Advice } from "./advice";

/** One version of a text, never changed; what is known of it is worked out once, when asked for. */
export class Snapshot {
  private known: Checked | undefined;
  private knownLines: LineIndex | undefined;
  private knownProver: Prover | undefined;

  constructor(
    readonly uri: string,
    readonly version: number,
    readonly text: string,
    /** Where someone has just typed, as an offset; null where nobody has. */
    readonly caret: number | null,
    private readonly check: (text: string) => Checked,
    /** Checks copies of the text with changes in them. */
    readonly tryOut: (text: string) => Checked,
  ) {}

  get report(): PatternReport {
    return this.checked.report;
  }

  get worked(): Checked["worked"] {
    return this.checked.worked;
  }

  get lines(): LineIndex {
    this.knownLines ??= new LineIndex(this.text);
    return this.knownLines;
  }

  /** Tells which changes of this version mend what they are said to mend. */
  get prover(): Prover {
    this.knownProver ??= new Prover(this.text, this.report.findings, (text) => this.tryOut(text).report);
    return this.knownProver;
  }

  /** The same version once nobody is typing in it. */
  withoutCaret(): Snapshot {
    return new Snapshot(this.uri, this.version, this.text, null, () => this.checked, this.tryOut);
  }

  private get checked(): Checked {
    this.known ??= this.check(this.text);
    return this.known;
  }
}

interface Opening {
  readonly uri: string;
  readonly languageId: string;
  readonly version: number;
  readonly text: string;
  readonly createChecker: () => Pick<Checker, "work">;
  readonly log: (message: string) => void;
}

/** A document the client has open: its text kept in step, and the checker that remembers its rows. */
export class OpenDocument {
  readonly advice = new Advice();
  private readonly content: TextDocument;
  private checker: Pick<Checker, "work">;
  /** For copies with changes in them: what it remembers is not to get in the way of typing. */
  private copiesChecker: Pick<Checker, "work"> | undefined;
  private current: Snapshot;

  constructor(private readonly opening: Opening) {
    const { uri, languageId, version, text, createChecker } = opening;
    this.content = TextDocument.create(uri, languageId, version, text);
    this.checker = createChecker();
    this.current = this.snapshotAt(null);
  }

  get uri(): string {
    return this.opening.uri;
  }

  get snapshot(): Snapshot {
    return this.current;
  }

  update(changes: TextDocumentContentChangeEvent[], version: number): this {
    TextDocument.update(this.content, changes, version);
    this.advice.typed();
    this.current = this.snapshotAt(this.caretAfter(changes.at(-1)));
    return this;
  }

  /** Tells that nobody is typing now; gives whether somebody was. */
  caretLeft(): boolean {
    if (this.current.caret === null) return false;
    this.current = this.current.withoutCaret();
    return true;
  }

  private snapshotAt(caret: number | null): Snapshot {
    const { uri, version } = this.content;
    const [check, tryOut] = [(text: string) => this.check(text), (text: string) => this.tryOut(text)];
    return new Snapshot(uri, version, this.content.getText(), caret, check, tryOut);
  }

  /** The protocol tells of no caret: it is taken to be at the end of what was inserted last on one line. */
  private caretAfter(change: TextDocumentContentChangeEvent | undefined): number | null {
    if (!change || !("range" in change) || !/^[^\r\n]+$/.test(change.text)) return null;
    return this.content.offsetAt(change.range.start) + change.text.length;
  }

  /** A checker that failed may remember something wrong, so a fresh one is tried before giving up. */
  private check(text: string): Checked {
    try {
      return this.checker.work(text);
    } catch (fault) {
      this.opening.log(`Checking ${this.uri} failed, trying once more from scratch: ${fault}`);
      this.checker = this.opening.createChecker();
      return this.checker.work(text);
    }
  }

  private tryOut(text: string): Checked {
    this.copiesChecker ??= this.opening.createChecker();
    return this.copiesChecker.work(text);
  }
}
