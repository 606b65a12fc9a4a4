import {
  CancellationTokenSource,
  type Diagnostic,
  type DocumentDiagnosticReport,
  LSPErrorCodes,
  type Position,
  type Range,
  ResponseError,
  type TextEdit,
  type WorkspaceEdit,
} from "vscode-languageserver-protocol/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { LineIndex } from "../../server/src/text/line-index";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess } from "../protocol/client";
import { ABILITIES } from "./abilities";
import { Broken } from "./broken";
import type { Operation, Session } from "./operations";
import { faultIn } from "./protocol/valid";
import { requests, type Scene } from "./requests";
import { type Method, shapes } from "./shapes";

/** What a run counts and times. */
export interface Tally {
  edits: number;
  compared: number;
  /** Milliseconds of every answer, by request. */
  readonly times: Map<Method, number[]>;
  /** Called before each operation, so that someone can tell that the run goes on. */
  readonly beat: () => void;
}

export function newTally(beat: () => void = () => {}): Tally {
  return { edits: 0, compared: 0, times: new Map(), beat };
}

/** Longer than anyone waits; a loaded machine alone does not come to it. */
const hangs = 10_000;
/** How long after the last letter the server holds typing to have paused, and a little more, in milliseconds. */
const pause = 330;
const refusals: readonly number[] = [
  LSPErrorCodes.RequestCancelled,
  LSPErrorCodes.ContentModified,
  LSPErrorCodes.RequestFailed,
];

/** Clients of one server that sessions follow one another on, as an editor's do. */
export class Player {
  private readonly client: Client = inProcess(() => new Checker());
  private sessions = 0;

  private constructor(private readonly tally: Tally) {}

  static async start(tally: Tally): Promise<Player> {
    const player = new Player(tally);
    await player.client.initialize(ABILITIES);
    return player;
  }

  /** Does all that a session asks for; throws where a promise is not kept. */
  async play({ start, operations }: Session): Promise<void> {
    const uri = `file:///stall/${++this.sessions}.crochet`;
    const played = new PlayedSession(this.client, uri, start, this.tally);
    await played.open();
    for (const operation of operations) {
      this.tally.beat();
      await played.do(operation);
      this.expectNothingLogged();
    }
    await played.end();
    this.expectNothingLogged();
  }

  private expectNothingLogged(): void {
    const [fault = ""] = this.client.logged;
    // `Hovering of file:///… failed: Error: …`
    if (fault) throw new Broken(`exception, ${fault.split(" of file:")[0]}`, fault);
  }
}

class PlayedSession {
  private readonly before: string[] = [];

  constructor(
    private readonly client: Client,
    private readonly uri: string,
    private text: string,
    private readonly tally: Tally,
  ) {}

  async open(): Promise<void> {
    await this.client.open(this.uri, this.text);
  }

  async do(operation: Operation): Promise<void> {
    switch (operation.kind) {
      case "type":
        return this.type(operation.at, operation.put);
      case "change":
        return this.change(operation.at, operation.cut, operation.put);
      case "undo":
        return this.undo(operation.steps);
      case "save":
        return this.client.save(this.uri);
      case "ask":
        return this.ask(operation);
    }
  }

  /** The findings after a pause are, word for word, those of a fresh start. */
  async end(): Promise<void> {
    await this.client.save(this.uri);
    await new Promise((resolve) => setTimeout(resolve, pause));
    const [kept, fresh] = await this.bothFindings();
    this.expectSame(kept, fresh);
    await this.client.close(this.uri);
  }

  // --- edits -------------------------------------------------------------------------------------------------

  /** Letter by letter, and the findings are asked for after each, as an editor does. */
  private async type(at: number, put: string): Promise<void> {
    let offset = this.offsetAt(at);
    for (const letter of put) {
      this.replace(offset, offset, letter);
      offset += letter.length;
      await this.findings(this.uri);
    }
    await this.compare();
  }

  private async change(at: number, cut: number, put: string): Promise<void> {
    const start = this.offsetAt(at);
    const end = outsideLineEnds(this.text, start + Math.ceil(cut * (this.text.length - start)));
    this.replace(start, Math.max(start, end), put);
    await this.compare();
  }

  private async undo(steps: number): Promise<void> {
    for (let step = 0; step < steps; step++) {
      const text = this.before.pop();
      if (text === undefined) return;
      this.replaceAll(text);
      this.before.pop();
    }
    await this.compare();
  }

  private replaceAll(text: string): void {
    this.replace(0, this.text.length, text);
  }

  private replace(start: number, end: number, put: string): void {
    this.before.push(this.text);
    this.text = this.text.slice(0, start) + put + this.text.slice(end);
    this.tally.edits++;
    void this.client.edit(this.uri, { start, end }, put);
  }

  private offsetAt(fraction: number): number {
    return outsideLineEnds(this.text, Math.round(fraction * this.text.length));
  }

  // --- findings ----------------------------------------------------------------------------------------------

  /** While someone types, what may have been meant can still be left out. */
  private async compare(): Promise<void> {
    await this.client.save(this.uri);
    const [kept, fresh] = await this.bothFindings();
    this.expectSame(kept.map(place), fresh.map(place));
  }

  private async bothFindings(): Promise<readonly [Diagnostic[], Diagnostic[]]> {
    const fresh = `${this.uri}.fresh.crochet`;
    const kept = await this.findings(this.uri);
    await this.client.open(fresh, this.text);
    const found = await this.findings(fresh);
    await this.client.close(fresh);
    return [kept, JSON.parse(JSON.stringify(found).replaceAll(fresh, this.uri))];
  }

  private expectSame(kept: readonly unknown[], fresh: readonly unknown[]): void {
    this.tally.compared++;
    const only = (some: readonly unknown[], others: readonly unknown[]) => {
      const known = others.map((one) => JSON.stringify(one));
      return some.map((one) => JSON.stringify(one)).filter((one) => !known.includes(one));
    };
    const [stale, missing] = [only(kept, fresh), only(fresh, kept)];
    if (stale.length > 0 || missing.length > 0 || kept.length !== fresh.length)
      throw new Broken("findings are not those of a fresh start", `${stale}\nfor ${missing}`);
  }

  private async findings(uri: string): Promise<Diagnostic[]> {
    const answer = await this.send("textDocument/diagnostic", { textDocument: { uri } });
    const report = answer as DocumentDiagnosticReport;
    return report.kind === "full" ? report.items : [];
  }

  // --- requests ----------------------------------------------------------------------------------------------

  private async ask({ what, at, to, pick, manner }: Operation & { kind: "ask" }): Promise<void> {
    const lines = new LineIndex(this.text);
    const here = positionAt(this.offsetAt(at), lines);
    const taken = (text: string) => {
      if (manner === "take") this.replaceAll(text);
    };
    const scene: Scene = {
      uri: this.uri,
      here,
      range: rangeBetween(here, positionAt(this.offsetAt(to), lines)),
      pick,
      send: (method, params) =>
        this.send(method, params, manner === "cancel" || method.startsWith("workspace/d")),
      tryEdits: (method, edits) => taken(this.edited(method, edits)),
      tryWorkspaceEdit: (method, edit) => taken(this.edited(method, this.editsIn(method, edit))),
    };
    try {
      await requests[what](scene);
    } catch (fault) {
      if (!isRefusal(fault)) throw fault;
    }
  }

  private async send(method: Method, params: object, cancelled?: true | false): Promise<unknown> {
    const stop = new CancellationTokenSource();
    const started = performance.now();
    const answer = this.client.connection.sendRequest(method, params, stop.token);
    if (cancelled) setImmediate(() => stop.cancel());
    const given = await inTime(method, answer).catch((fault) => this.refused(method, fault));
    this.timed(method, performance.now() - started);
    this.expectShape(method, given);
    return given;
  }

  private refused(method: Method, fault: unknown): never {
    if (fault instanceof Broken || isRefusal(fault)) throw fault;
    throw new Broken(`${method} failed`, `${fault}`);
  }

  private timed(method: Method, time: number): void {
    const times = this.tally.times.get(method) ?? [];
    this.tally.times.set(method, times);
    times.push(time);
  }

  private expectShape(method: Method, answer: unknown): void {
    const invalid = faultIn(method, answer);
    if (invalid)
      throw new Broken(`${method} is not valid`, `${invalid} ${JSON.stringify(answer).slice(0, 2000)}`);
    if (!shapes[method](answer)) throw new Broken(`form of ${method}`, JSON.stringify(answer).slice(0, 2000));
    const outside = misplaced(answer, new LineIndex(this.text));
    if (outside) throw new Broken(`${method} points outside the text`, outside);
  }

  /** The protocol's own package judges whether edits can be made. */
  private edited(method: Method, edits: readonly TextEdit[]): string {
    const document = TextDocument.create(this.uri, "crochet", 1, this.text);
    try {
      return TextDocument.applyEdits(document, [...edits]);
    } catch (fault) {
      throw new Broken(`edits of ${method}`, `${fault} ${JSON.stringify(edits)}`);
    }
  }

  private editsIn(method: Method, { changes, documentChanges = [] }: WorkspaceEdit): TextEdit[] {
    const uris = [
      ...Object.keys(changes ?? {}),
      ...documentChanges.flatMap((change) => ("textDocument" in change ? change.textDocument.uri : "?")),
    ];
    if (uris.some((uri) => uri !== this.uri)) throw new Broken(`${method} edits another file`, `${uris}`);
    const edits = documentChanges.flatMap((change) => ("edits" in change ? change.edits : []));
    return [...(changes?.[this.uri] ?? []), ...edits] as TextEdit[];
  }
}

function isRefusal(fault: unknown): boolean {
  return fault instanceof ResponseError && refusals.includes(fault.code);
}

async function inTime<T>(method: Method, answer: Promise<T>): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Broken(`${method} hangs`, `no answer in ${hangs} ms`)), hangs);
  });
  return Promise.race([answer, late]).finally(() => clearTimeout(timer));
}

/** The protocol has no place between the two halves of a line end. */
function outsideLineEnds(text: string, offset: number): number {
  return text[offset - 1] === "\r" && text[offset] === "\n" ? offset - 1 : offset;
}

function place({ range, code, severity }: Diagnostic) {
  return { range, code, severity };
}

function positionAt(offset: number, lines: LineIndex): Position {
  const { line, column } = lines.position(offset);
  return { line, character: column };
}

function rangeBetween(a: Position, b: Position): Range {
  const inOrder = a.line < b.line || (a.line === b.line && a.character <= b.character);
  return inOrder ? { start: a, end: b } : { start: b, end: a };
}

/** The first place in an answer that the text does not have; null where there is none. */
function misplaced(answer: unknown, lines: LineIndex): string | null {
  if (typeof answer !== "object" || answer === null) return null;
  const { line, character } = answer as Partial<Position>;
  if (typeof line === "number" && typeof character === "number" && !isInside({ line, character }, lines))
    return `${line}:${character}`;
  for (const part of Object.values(answer)) {
    const outside = misplaced(part, lines);
    if (outside) return outside;
  }
  return null;
}

function isInside({ line, character }: Position, lines: LineIndex): boolean {
  if (line < 0 || character < 0 || line >= lines.lineCount) return false;
  const next = line + 1 < lines.lineCount ? lines.lineStart(line + 1) : lines.text.length;
  const whole = lines.text.slice(lines.lineStart(line), next).replace(/(\r\n|\n|\r)$/, "");
  return character <= whole.length;
}
