import { writeSync } from "node:fs";

/** Where the command line writes to. */
export interface Output {
  out(text: string): void;
  err(text: string): void;
}

/**
 * The streams of this process. A reader that stops early (`| head`) is no fault: what is left is dropped.
 * Nothing else here ends the process, so everything written is also delivered; where it cannot be (a full disk),
 * the process ends at once, with the status of a run that failed.
 */
export function standardOutput(): Output {
  for (const stream of [process.stdout, process.stderr]) stream.on("error", endUnlessClosed);
  return {
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
  };
}

function endUnlessClosed({ code, message }: NodeJS.ErrnoException): void {
  if (code === "EPIPE") return;
  const why = code === "ENOSPC" ? "the disk is full" : message;
  try {
    writeSync(
      process.stderr.fd,
      `loopledger: the output could not be written: ${why}. What is there of it is not whole.\n`,
    );
  } catch {
    // There is nowhere left to tell it; the status does.
  }
  process.exit(2);
}
