import type { Connection } from "vscode-languageserver";
import type { ClientAbilities } from "./capabilities";
import { readSettings, type Settings } from "./settings";

/** The settings of each document, asked for once and kept until they change. */
export class SettingsSource {
  private readonly asked = new Map<string, Promise<Settings>>();
  private told: Settings;

  /** `initial` is used for clients that answer no questions about settings. */
  constructor(
    private readonly connection: Connection,
    private readonly client: ClientAbilities,
    initial: unknown,
  ) {
    this.told = this.read(initial);
  }

  of(uri: string): Promise<Settings> {
    if (!this.client.answersConfiguration) return Promise.resolve(this.told);
    const known = this.asked.get(uri);
    if (known) return known;
    const asking = this.ask(uri);
    this.asked.set(uri, asking);
    return asking;
  }

  /** Takes in what a client says has changed; `sections` is null where it wants to be asked. */
  changed(sections: unknown): void {
    this.asked.clear();
    if (typeof sections === "object" && sections !== null && "loopledger" in sections) {
      this.told = this.read(sections.loopledger);
    }
  }

  forget(uri: string): void {
    this.asked.delete(uri);
  }

  /** A client that does not answer is not waited for for ever; what it says later holds from then on. */
  private async ask(uri: string): Promise<Settings> {
    const item = { scopeUri: uri, section: "loopledger" };
    const answer = Promise.resolve(this.connection.workspace.getConfiguration(item)).then((section) =>
      this.read(section),
    );
    try {
      return await inTime(answer, () => {
        const late = this.asked.get(uri);
        answer.then((settings) => {
          if (late && this.asked.get(uri) === late) this.asked.set(uri, Promise.resolve(settings));
        }, noMatter);
      });
    } catch (fault) {
      this.connection.console.warn(`The settings for ${uri} could not be had: ${fault}`);
      return this.told;
    }
  }

  private read(section: unknown): Settings {
    const settings = readSettings(section);
    for (const problem of settings.problems) this.connection.console.warn(problem);
    return settings;
  }
}

/** Milliseconds. */
const patience = 5_000;

function noMatter(): void {}

/** An answer, or a fault where it does not come in time; `onLate` is told then. */
async function inTime<T>(answer: Promise<T>, onLate: () => void): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => {
      onLate();
      reject(new Error("the editor did not answer"));
    }, patience);
  });
  return Promise.race([answer, late]).finally(() => clearTimeout(timer));
}
