/** What the project is made of: exact versions, a whole lock file, nothing that must run at installation, few to trust. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { hostedPackages, pagePackages, publishersOf } from "../src/tools/sbom";

const root = path.resolve(__dirname, "..");
const read = (file: string): unknown => JSON.parse(readFileSync(path.join(root, file), "utf8"));

interface Package {
  readonly version?: string;
  readonly integrity?: string;
  readonly resolved?: string;
  readonly link?: boolean;
  readonly dev?: boolean;
  readonly devOptional?: boolean;
  readonly hasInstallScript?: boolean;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
}
const described = read("package.json") as Package;
const { packages } = read("package-lock.json") as { readonly packages: Readonly<Record<string, Package>> };
const installed = Object.entries(packages).filter(([place]) => place !== "");

test("every dependency is asked for in one exact version, and the lock has that one", () => {
  const asked = { ...described.dependencies, ...described.devDependencies };
  expect(Object.keys(asked).length).toBeGreaterThan(40);
  for (const [name, version] of Object.entries(asked)) {
    expect({ name, version, exact: /^\d+\.\d+\.\d+$/.test(version) }).toMatchObject({ exact: true });
    expect({ name, version: packages[`node_modules/${name}`]?.version }).toEqual({ name, version });
  }
  expect(packages[""]?.dependencies).toEqual(described.dependencies);
  expect(packages[""]?.devDependencies).toEqual(described.devDependencies);
});

test("the lock knows the check sum of each package, and none comes from anywhere but the registry", () => {
  expect(installed.length).toBeGreaterThan(500);
  for (const [place, { integrity, resolved, link }] of installed) {
    expect({ place, strong: /^sha512-/.test(integrity ?? "") }).toEqual({ place, strong: true });
    // Without an address the registry that npm is set to is asked.
    expect({ place, resolved, link }).toEqual({ place, resolved: undefined, link: undefined });
  }
});

/** Packages that would run something at their installation, and why nothing here needs it: `npm ci --ignore-scripts`. */
const UNNEEDED_SCRIPTS: Readonly<Record<string, string>> = {
  "@parcel/watcher": "builds itself where no finished program fits; asked for by a style tool that is never called",
  "core-js-pure": "prints a request for donations",
  esbuild: "checks the program that comes with it as a package of its own",
  protobufjs: "prints a warning about versions",
};

test("no package needs to run anything when it is installed", () => {
  const scripted = installed.filter(([, { hasInstallScript }]) => hasInstallScript === true);
  const names = scripted.map(([place]) => place.replace(/^.*node_modules\//, ""));
  expect([...new Set(names)].sort()).toEqual(Object.keys(UNNEEDED_SCRIPTS).sort());
  // Whatever is part of the cell functions runs nothing at all.
  expect(scripted.filter(([, { dev, devOptional }]) => !dev && !devOptional)).toEqual([]);
});

test("the add-in that a club hosts comes from at most five publishers", () => {
  const hosted = hostedPackages();
  expect(hosted).toContain("@stdlib/math-base-special-betainc");
  expect(hosted).toContain("@microsoft/office-js");
  expect([...publishersOf(hosted).keys()].length).toBeLessThanOrEqual(5);
});

test("the page beside it is told apart, and DEVELOPERS.md says how many publishers it has", () => {
  const page = pagePackages();
  for (const name of ["@univerjs/core", "react", "workbox-precaching", "@fontsource/carlito"]) {
    expect(page).toContain(name);
    expect(hostedPackages()).not.toContain(name);
  }
  const told = /The page holds (\d+) packages of (\d+) publishers/.exec(
    readFileSync(path.join(root, "DEVELOPERS.md"), "utf8"),
  );
  expect(told?.slice(1).map(Number)).toEqual([page.length, publishersOf(page).size]);
});
