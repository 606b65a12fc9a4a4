/** Where the command line writes to. */
export interface Output {
  out(text: string): void;
  err(text: string): void;
}

/**
 * The streams of this process. A reader that stops early (`| head`) is no fault: what is left is dropped.
 * Nothing here ends the process, so everything written is also delivered.
 */
export function standardOutput(): Output {
  for (const stream of [process.stdout, process.stderr]) stream.on("error", dropIfClosed);
  return {
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
  };
}

function dropIfClosed(fault: NodeJS.ErrnoException): void {
  if (fault.code !== "EPIPE") throw fault;
}
