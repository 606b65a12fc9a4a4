// Writes down what is shipped, and what it is made of, as a bill of materials (CycloneDX, by npm itself):
// `npm run sbom` puts it into dist/sbom.cdx.json; `-- --print` shows it.
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root, saidByNpm } from "../tests/npm.mjs";

/** All that npm knows of, tools for building included: of those it leaves out what a tool needs besides. */
function everything() {
  const { status, stdout, stderr } = saidByNpm(["sbom", "--sbom-format=cyclonedx", "--package-lock-only"]);
  if (status !== 0) throw new Error(`npm could not list the packages: ${stderr}`);
  return JSON.parse(stdout);
}

/** The packages that are not only for building and testing, as npm names them. */
function shipped() {
  const { packages } = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8"));
  const own = Object.entries(packages).filter(([folder, { dev }]) => folder !== "" && !dev);
  return new Set(own.map(([folder, { version }]) => `${folder.replace(/^.*node_modules\//, "")}@${version}`));
}

const all = everything();
const wanted = shipped();
const self = all.metadata.component;
const bill = {
  ...all,
  // npm names the project by the folder it lies in.
  metadata: { ...all.metadata, component: { ...self, type: "application", name: "loopledger" } },
  components: all.components.filter((one) => wanted.has(one["bom-ref"])),
  dependencies: all.dependencies
    .filter(({ ref }) => ref === self["bom-ref"] || wanted.has(ref))
    .map(({ ref, dependsOn = [] }) => ({ ref, dependsOn: dependsOn.filter((one) => wanted.has(one)) })),
};
const text = `${JSON.stringify(bill, null, 2)}\n`;
if (process.argv.includes("--print")) process.stdout.write(text);
else {
  mkdirSync(join(root, "dist"), { recursive: true });
  writeFileSync(join(root, "dist/sbom.cdx.json"), text);
}
