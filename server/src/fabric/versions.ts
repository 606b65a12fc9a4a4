import { withoutAsMeant } from "../notation/as-meant";
import { PatternReader } from "./pattern";
import { Fabric, type WorkedPattern } from "./worked";

/** Reads and works one version of a pattern after another: each costs what it changes of the one before. */
export class Versions {
  private last: WorkedPattern | null = null;

  constructor(
    private readonly reader = new PatternReader(),
    readonly fabric = new Fabric(),
  ) {}

  /** The same object where the text is still the same. */
  work(text: string): WorkedPattern {
    if (this.last?.text !== text) this.last = this.workAfresh(text);
    return this.last;
  }

  private workAfresh(text: string): WorkedPattern {
    const pattern = this.reader.read(withoutAsMeant(text));
    let known: Versions | undefined;
    const copies = (): Versions => {
      known ??= this.goingOnFrom(worked);
      return known;
    };
    const worked: WorkedPattern = { ...pattern, text, pieces: this.fabric.work(pattern), copies };
    return worked;
  }

  /** With all that was read and worked so far; what comes then does not matter here. */
  private goingOnFrom(worked: WorkedPattern): Versions {
    const other = new Versions(this.reader.apart(), this.fabric.apart());
    other.last = worked;
    return other;
  }
}
