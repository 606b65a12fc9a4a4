import type { TextDocumentContentChangeEvent } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { Versions } from "../fabric/versions";
import type { Checked, Checker } from "../workspace/checker";
import { Prover } from "../workspace/prover";
import type { PatternReport } from "../workspace/report";
import { Advice } from "./advice";
import type { Encoding } from "./encodings";
import { ClientLines, ownChange } from "./positions";

/** Makes a checker, where versions are given one that goes on from them. */
export type CreateChecker = (versions?: Versions) => Pick<Checker, "work">;

/** One version of a text. */
interface Version {
  readonly uri: string;
  readonly version: number;
  readonly text: string;
  /** Where someone has just typed, as an offset; null where nobody has. */
  readonly caret: number | null;
  /** How the client counts its characters. */
  readonly encoding: Encoding;
}

/** One version of a text, never changed; what is known of it is worked out once, when asked for. */
export class Snapshot implements Version {
  readonly uri: string;
  readonly version: number;
  readonly text: string;
  readonly caret: number | null;
  readonly encoding: Encoding;
  private known: Checked | undefined;
  private knownLines: ClientLines | undefined;
  private knownProver: Prover | undefined;
  private copiesChecker: Pick<Checker, "work"> | undefined;

  constructor(
    { uri, version, text, caret, encoding }: Version,
    private readonly check: (text: string) => Checked,
    private readonly createChecker: CreateChecker,
  ) {
    this.uri = uri;
    this.version = version;
    this.text = text;
    this.caret = caret;
    this.encoding = encoding;
  }

  get report(): PatternReport {
    return this.checked.report;
  }

  get worked(): Checked["worked"] {
    return this.checked.worked;
  }

  get lines(): ClientLines {
    this.knownLines ??= new ClientLines(this.text, this.encoding);
    return this.knownLines;
  }

  /** Tells which changes of this version mend what they are said to mend. */
  get prover(): Prover {
    this.knownProver ??= new Prover(this.text, this.report.findings, (text) => this.tryOut(text).report);
    return this.knownProver;
  }

  /** Checks a copy of the text with changes in it, from what is known of this version on. */
  readonly tryOut = (text: string): Checked => {
    this.copiesChecker ??= this.createChecker(this.worked.copies());
    return this.copiesChecker.work(text);
  };

  /** The same version once nobody is typing in it. */
  withoutCaret(): Snapshot {
    const { uri, version, text, encoding } = this;
    return new Snapshot(
      { uri, version, text, encoding, caret: null },
      () => this.checked,
      () => ({ work: this.tryOut }),
    );
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
  readonly encoding: Encoding;
  readonly createChecker: CreateChecker;
  readonly log: (message: string) => void;
}

/** A document the client has open: its text kept in step, and the checker that remembers its rows. */
export class OpenDocument {
  readonly advice = new Advice();
  private readonly content: TextDocument;
  private checker: Pick<Checker, "work">;
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
    let last: TextDocumentContentChangeEvent | undefined;
    // One after another: each change counts in the text that the one before it has left.
    for (const change of changes) {
      last = ownChange(change, this.content, this.opening.encoding);
      TextDocument.update(this.content, [last], version);
    }
    this.advice.typed();
    this.current = this.snapshotAt(this.caretAfter(last));
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
    const { encoding, createChecker } = this.opening;
    const text = this.content.getText();
    return new Snapshot({ uri, version, text, caret, encoding }, (all) => this.check(all), createChecker);
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
}
