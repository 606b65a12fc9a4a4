import { say, sayings } from "../../text/say";

const reasons = sayings<string>({
  ENOENT: "There is no file or folder of this name. Check the spelling and the folder you are in.",
  ENOTDIR: "There is no file or folder of this name. Check the spelling and the folder you are in.",
  EACCES: "You are not allowed to read it. Change its permissions, or copy it to a folder of your own.",
  EPERM: "You are not allowed to read it. Change its permissions, or copy it to a folder of your own.",
  ELOOP: "It is a link that leads back to itself. Name the file the link should lead to.",
  ENAMETOOLONG: "Its name is too long for this computer. Shorten the name.",
});

/** Why a file or folder could not be read, and what to do, in a maker's words. */
export function whyNotRead(fault: unknown): string {
  const code = fault instanceof Error && "code" in fault ? String(fault.code) : String(fault);
  return reasons(code) || say`It could not be read (${code}). Try to open it in another program.`;
}
