import lock from "../../package-lock.json";

/** Licences that ask for nothing but their own text. */
const ALLOWED = new Set([
  "MIT",
  "ISC",
  "Apache-2.0",
  "BSD-2-Clause",
  "BSD-3-Clause",
  "0BSD",
  "BlueOak-1.0.0",
  "CC0-1.0",
]);

/** Packages under other terms, each with the reason why that is fine here. */
const EXCEPTIONS: Readonly<Record<string, string>> = {
  "axe-core": "MPL-2.0: a tool of the browser tests, used as it is and not shipped",
  "caniuse-lite": "CC-BY-4.0: data that build tools read, not shipped",
  "@microsoft/office-js": "its maker's terms: copied unmodified into builds that ask for it, never committed",
  memorystream: "MIT, named in an older field than the one that is read; a tool of the builds, not shipped",
  "@univerjs/telemetry": "Apache-2.0 like all of its family; the package leaves the field out",
};

interface Locked {
  readonly license?: string;
  readonly dev?: boolean;
}

/** `(MIT OR CC0-1.0)` is fine when one of them is, `Apache-2.0 AND MIT` when both are. */
function permissive(licence: string): boolean {
  const plain = licence.replaceAll(/[()]/gu, "");
  if (plain.includes(" OR ")) return plain.split(" OR ").some(permissive);
  if (plain.includes(" AND ")) return plain.split(" AND ").every(permissive);
  return ALLOWED.has(plain);
}

describe("licences of everything that is installed", () => {
  const packages = Object.entries(lock.packages as Record<string, Locked>)
    .filter(([place]) => place !== "")
    .map(([place, entry]) => ({ name: place.slice(place.lastIndexOf("node_modules/") + 13), ...entry }));

  it("are permissive, or named here with the reason", () => {
    expect(packages.length).toBeGreaterThan(300);
    const others = packages.filter(({ name, license }) => !permissive(license ?? "none") && !(name in EXCEPTIONS));
    expect(others.map(({ name, license }) => `${name}: ${license ?? "none"}`)).toEqual([]);
  });

  it("no exception is left over", () => {
    const needed = new Set(packages.filter(({ license }) => !permissive(license ?? "none")).map(({ name }) => name));
    expect(Object.keys(EXCEPTIONS).filter((name) => !needed.has(name))).toEqual([]);
  });

  it("knows what is permissive", () => {
    expect(["MIT", "(MIT OR GPL-3.0)", "Apache-2.0 AND MIT"].every(permissive)).toBe(true);
    expect(["GPL-3.0", "AGPL-3.0", "MIT AND GPL-2.0", "SEE LICENSE IN x", "none"].some(permissive)).toBe(false);
  });
});
