import type { Connection, TextDocuments } from "vscode-languageserver";
import type { Sentences } from "../text/say";
import type { ClientAbilities } from "./capabilities";
import type { PatternFiles } from "./files/pattern-files";
import type { CreateChecker, OpenDocument } from "./open-document";
import type { SettingsSource } from "./settings-source";

/** What differs between the places a server runs in: Node, a browser worker, a test. */
export interface Host {
  /** Makes the checker of one open document, kept until the document closes, and those of copies of it. */
  readonly createChecker: CreateChecker;
  /** Resolves after the messages that have already arrived had a chance to be handled. */
  readonly nextTurn: () => Promise<void>;
  readonly version: string;
  /** None where the server itself cannot read files. */
  readonly files?: PatternFiles;
  /** The sentences of a language, `de`; none where the client has to bring them. */
  readonly sentences?: (language: string) => Promise<Sentences | null>;
}

/** What every handler may use. */
export interface Server {
  readonly connection: Connection;
  readonly documents: TextDocuments<OpenDocument>;
  readonly settings: SettingsSource;
  readonly client: ClientAbilities;
  readonly nextTurn: () => Promise<void>;
}
