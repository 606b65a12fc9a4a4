/** A promise that the server did not keep. */
export class Broken extends Error {
  constructor(
    /** What sort of promise, and of which request: a failure is made smaller as long as this stays. */
    readonly sort: string,
    detail: string,
  ) {
    super(`${sort}: ${detail}`);
  }
}

export function asBroken(fault: unknown): Broken {
  const shown = fault instanceof Error ? fault.stack : fault;
  return fault instanceof Broken ? fault : new Broken("the run itself", `${shown}`);
}
