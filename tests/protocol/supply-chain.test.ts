import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";

const project = new URL("../../", import.meta.url);

function read<T>(file: string): T {
  return JSON.parse(readFileSync(new URL(file, project), "utf8")) as T;
}

interface Manifest {
  readonly dependencies: Readonly<Record<string, string>>;
}

interface Lock {
  readonly packages: Readonly<
    Record<string, { readonly version: string; readonly dev?: boolean; readonly integrity?: string }>
  >;
}

/** As far as it is looked at, in the form of CycloneDX 1.5. */
interface Bill {
  readonly bomFormat: string;
  readonly metadata: { readonly component: { readonly name: string } };
  readonly components: readonly {
    readonly name: string;
    readonly version: string;
    readonly purl: string;
    readonly licenses: readonly { readonly license: { readonly id: string } }[];
    readonly hashes: readonly { readonly alg: string; readonly content: string }[];
  }[];
  readonly dependencies: readonly { readonly ref: string; readonly dependsOn: readonly string[] }[];
}

const { dependencies } = read<Manifest>("package.json");
const lock = Object.entries(read<Lock>("package-lock.json").packages).filter(
  ([folder, { dev }]) => folder !== "" && !dev,
);
const nameOf = (folder: string) => folder.replace(/^.*node_modules\//, "");

test("what is shipped stands on at most six packages, each in one version and no range", () => {
  expect(Object.keys(dependencies).length).toBeLessThanOrEqual(6);
  for (const version of Object.values(dependencies)) expect(version).toMatch(/^\d+\.\d+\.\d+$/);
});

test("each package is known by its content, and none says where it was fetched", () => {
  for (const [folder, { integrity }] of lock) expect(integrity, folder).toMatch(/^sha512-/);
  expect(readFileSync(new URL("package-lock.json", project), "utf8")).not.toContain('"resolved"');
});

describe("the bill of materials", () => {
  let bill: Bill;
  beforeAll(() => {
    const script = fileURLToPath(new URL("server/write-sbom.mjs", project));
    bill = JSON.parse(execFileSync(process.execPath, [script, "--print"], { encoding: "utf8" })) as Bill;
  });

  test("lists all that is shipped, and nothing else", () => {
    expect(bill).toMatchObject({ bomFormat: "CycloneDX", metadata: { component: { name: "loopledger" } } });
    const listed = bill.components.map(({ name, version }) => `${name}@${version}`);
    const wanted = lock.map(([folder, { version }]) => `${nameOf(folder)}@${version}`);
    expect(listed.sort()).toEqual(wanted.sort());
    expect(listed).toEqual(expect.arrayContaining([expect.stringMatching(/^ohm-js@/)]));
  });

  test("says for each what it is, by its content, and that it may be passed on", () => {
    for (const { name, version, purl, licenses, hashes } of bill.components) {
      expect(purl).toBe(`pkg:npm/${name}@${version}`);
      expect(hashes, name).toMatchObject([{ alg: "SHA-512" }]);
      for (const { license } of licenses) expect(license.id).toMatch(allowed);
      expect(licenses.length, name).toBeGreaterThan(0);
    }
  });

  test("names what each stands on, the project itself first", () => {
    const { dependsOn } = bill.dependencies.find(({ ref }) => ref.startsWith("loopledger@")) ?? {};
    expect(dependsOn?.map((one) => one.replace(/@[^@]*$/, "")).sort()).toEqual(
      Object.keys(dependencies).sort(),
    );
  });
});

/** Licences that allow passing on with a copy of their text, which the build gathers. */
const allowed = /^(?:MIT|ISC|BSD-[23]-Clause|BlueOak-1\.0\.0|Apache-2\.0)$/;
