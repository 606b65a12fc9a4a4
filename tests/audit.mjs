// `npm run audit`: whether anything is known against the packages that are shipped. Not every registry tells.
import { saidByNpm } from "./npm.mjs";

const { stdout } = saidByNpm(["audit", "--omit=dev", "--json"]);

/** @returns {{ metadata?: { vulnerabilities: { total: number } }, vulnerabilities?: object }} */
function answer() {
  try {
    return JSON.parse(stdout);
  } catch {
    return {};
  }
}

const { metadata, vulnerabilities = {} } = answer();
if (!metadata) console.log("SKIPPED  the registry in use tells nothing of known faults in packages.");
else if (metadata.vulnerabilities.total === 0) console.log("Nothing is known against what is shipped.");
else {
  console.error(`Known faults in: ${Object.keys(vulnerabilities).join(", ")}. npm audit tells more.`);
  process.exitCode = 1;
}
