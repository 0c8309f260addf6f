import { readFileSync } from "node:fs";
import path from "node:path";

const TEMPLATE = path.resolve(__dirname, "../../manifest/manifest.xml");

/** Where a build goes whose address was not given: the developer's own machine. */
export const DEFAULT_BASE = "https://localhost:3000/";

/**
 * The add-in manifest for one address.
 *
 * @param base - https address that the built files are served from
 * @param packageVersion - `major.minor.patch` of package.json
 */
export function manifestXml(base: string, packageVersion: string): string {
  return readFileSync(TEMPLATE, "utf8")
    .replace(/<!--[\s\S]*?-->\r?\n/u, "")
    .replaceAll("{{base}}", escapeXml(baseAddress(base)))
    .replaceAll("{{version}}", manifestVersion(packageVersion));
}

/** Checks the address and ends it with a slash; throws with what to give instead. */
export function baseAddress(given: string): string {
  let url: URL;
  try {
    url = new URL(given.endsWith("/") ? given : `${given}/`);
  } catch {
    throw new Error(`The base address "${given}" cannot be read; give one such as https://shop.example/chargewright/.`);
  }
  if (url.protocol !== "https:" || url.search !== "" || url.hash !== "") {
    throw new Error(
      `The base address "${given}" must begin with https:// and have no ? or #; Excel loads nothing else.`,
    );
  }
  return url.href;
}

/**
 * Excel wants four numbers and refuses versions below 1.0, so package 0.1.0 is manifest 1.0.1.0:
 * the first number is the manifest's own, the rest grow with the package.
 */
export function manifestVersion(packageVersion: string): string {
  const parts = /^(\d+)\.(\d+)\.(\d+)/u.exec(packageVersion);
  if (!parts) throw new Error(`Version "${packageVersion}" in package.json is not major.minor.patch.`);
  return `1.${parts[1]}.${parts[2]}.${parts[3]}`;
}

function escapeXml(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");
}
