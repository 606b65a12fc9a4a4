import type { Diagnostic } from "vscode-languageserver";
import { addressKey, type PatternFiles } from "./files/pattern-files";

/** What was found in a pattern, with a name for the answer. */
export interface Found {
  readonly id: string;
  readonly items: Diagnostic[];
}

/** A pattern of a folder. */
export interface ClosedPattern {
  readonly uri: string;
  /** The folder of the workspace it was found in: its settings hold for the pattern. */
  readonly folder: string;
  /** Null until it is checked. */
  found: Found | null;
  /** Grows with each change of the file. */
  edition: number;
}

/** The patterns of the workspace's folders, as the files say; what of them is open is known better elsewhere. */
export class ClosedPatterns {
  private patterns = new Map<string, ClosedPattern>();
  /** Whether all folders could be listed; null where they have to be listed, or listed anew. */
  private listing: Promise<boolean> | null = null;
  private waiting: (() => void)[] = [];
  /** Grows whenever another answer may be due. */
  changes = 0;

  constructor(
    private readonly files: PatternFiles,
    private folders: readonly string[],
    private readonly log: (message: string) => void,
  ) {}

  async all(): Promise<ClosedPattern[]> {
    let listing: Promise<boolean>;
    let isWhole: boolean;
    do {
      listing = this.listing ??= this.list();
      isWhole = await listing;
      // Files may come and go while they are listed.
    } while (listing !== this.listing);
    // A folder that failed is tried again with the next question.
    if (!isWhole) this.listing = null;
    return [...this.patterns.values()];
  }

  /** A file was written, or a pattern was opened or closed. */
  touched(uri: string): void {
    const pattern = this.patterns.get(addressKey(uri));
    if (pattern) drop(pattern);
    this.changed();
  }

  /** Files came or are gone. */
  listAnew(): void {
    this.listing = null;
    this.changed();
  }

  setFolders(folders: readonly string[]): void {
    this.folders = folders;
    this.listAnew();
  }

  /** Everything may be found in another way, as after a change of settings. */
  forget(): void {
    for (const pattern of this.patterns.values()) drop(pattern);
    this.changed();
  }

  /** Resolves when there may be more to tell than after `seen` changes, or when it is stopped. */
  changedSince(seen: number, onStop: (stop: () => void) => void): Promise<void> {
    if (this.changes > seen) return Promise.resolve();
    return new Promise((resolve) => {
      this.waiting.push(resolve);
      onStop(resolve);
    });
  }

  private changed(): void {
    this.changes++;
    for (const resolve of this.waiting.splice(0)) resolve();
  }

  /** What is known of a pattern that is still there is kept. */
  private async list(): Promise<boolean> {
    const { folders } = this;
    const inFolders = await Promise.all(folders.map((folder) => this.listOne(folder)));
    const found = folders.flatMap(
      (folder, i) => inFolders[i]?.map((uri) => ({ uri, folder })) ?? this.known(folder),
    );
    this.patterns = new Map(
      found.map(({ uri, folder }) => {
        const key = addressKey(uri);
        return [key, this.patterns.get(key) ?? { uri, folder, found: null, edition: 0 }];
      }),
    );
    return !inFolders.includes(null);
  }

  /** Null where the folder cannot be listed: the others are, all the same. */
  private async listOne(folder: string): Promise<readonly string[] | null> {
    try {
      return await this.files.list(folder);
    } catch (fault) {
      this.log(`Listing the patterns in ${folder} failed: ${fault instanceof Error ? fault.stack : fault}`);
      return null;
    }
  }

  private known(folder: string): ClosedPattern[] {
    return [...this.patterns.values()].filter((pattern) => pattern.folder === folder);
  }
}

function drop(pattern: ClosedPattern): void {
  pattern.found = null;
  pattern.edition++;
}
