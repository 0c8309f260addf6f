import { checkManifest } from "./check-manifest";
import { helpPages } from "./function-help";
import { describeFunctions, metadataJson } from "./function-metadata";
import { ICON_SIZES, iconPng, iconSvg } from "./icon";
import { baseAddress, manifestXml } from "./manifest";
import { workedExamples } from "./worked-examples";

/**
 * The files of the add-in that no bundler makes: functions.json, help pages, icons and the manifest.
 *
 * @param base - https address that the add-in will be served from
 * @param packageVersion - Version in package.json
 * @returns Contents by path below the address
 */
export function addinFiles(base: string, packageVersion: string): Map<string, string | Buffer> {
  const address = baseAddress(base);
  const functions = describeFunctions();
  const files = new Map<string, string | Buffer>([
    ["functions.json", metadataJson(functions, address)],
    ...helpPages(functions, workedExamples()),
    ["icon.svg", iconSvg()],
    ["manifest.xml", manifestXml(address, packageVersion)],
  ]);
  for (const size of ICON_SIZES) files.set(`icon-${size}.png`, iconPng(size));
  return files;
}

/** What is wrong with a finished build, one sentence each. */
export function checkAddinFiles(base: string, files: ReadonlyMap<string, string | Uint8Array>): string[] {
  const contents = (path: string) => {
    const file = files.get(path);
    return typeof file === "string" ? Buffer.from(file) : file;
  };
  return checkManifest(contents("manifest.xml")?.toString() ?? "", baseAddress(base), contents);
}
