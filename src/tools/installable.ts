import { createHash } from "node:crypto";

/** Sizes of the page's icon: for a tab, and those that an installed page needs. */
export const PAGE_ICONS = [64, 192, 512] as const;

/** The manifest by which a browser installs the local page. */
export function webManifest(): string {
  return JSON.stringify(
    {
      name: "Chargewright",
      short_name: "Chargewright",
      description: "Charging-system diagnostics in the shop's own workbook.",
      start_url: ".",
      scope: ".",
      display: "standalone",
      background_color: "#ffffff",
      theme_color: "#0b6464",
      icons: PAGE_ICONS.filter((size) => size >= 192).map((size) => ({
        src: `icon-${size}.png`,
        sizes: `${size}x${size}`,
        type: "image/png",
      })),
    },
    null,
    2,
  );
}

/** Files that a page kept for use without its server does not ask for. */
const NOT_KEPT = /^(?:service-worker|phone)\.|\.LICENSE\.txt$/u;

/**
 * A line of script that names every file of a build and one digest of them all: when any file changes
 * the service worker changes, and browsers fetch the build anew.
 */
export function buildList(files: readonly (readonly [name: string, content: Uint8Array])[]): string {
  const kept = files.filter(([name]) => !NOT_KEPT.test(name)).sort(([a], [b]) => (a < b ? -1 : 1));
  const digest = createHash("sha256");
  for (const [name, content] of kept)
    digest.update(name).update("\0").update(createHash("sha256").update(content).digest());
  const build = { digest: digest.digest("hex").slice(0, 16), files: kept.map(([name]) => name) };
  return `const BUILD=${JSON.stringify(build)};\n`;
}
