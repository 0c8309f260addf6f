import { spawn } from "node:child_process";

/** How each system opens an address in the browser its user has chosen. */
const OPENERS: Readonly<Partial<Record<NodeJS.Platform, readonly [command: string, ...args: string[]]>>> = {
  darwin: ["open"],
  win32: ["cmd", "/c", "start", ""],
  linux: ["xdg-open"],
};

/** False where nobody sits before a screen: on a build machine, over a remote shell, in a container. */
export function hasScreen(platform: NodeJS.Platform, env: NodeJS.ProcessEnv): boolean {
  if (env["CI"] || env["SSH_CONNECTION"]) return false;
  if (platform === "linux") return Boolean(env["DISPLAY"] || env["WAYLAND_DISPLAY"]);
  return platform in OPENERS;
}

/** Opens an address; whether that works is not this program's business. */
export function openBrowser(address: string, platform: NodeJS.Platform = process.platform): void {
  const opener = OPENERS[platform];
  if (!opener) return;
  const [command, ...args] = opener;
  const child = spawn(command, [...args, address], { stdio: "ignore", detached: true });
  child.on("error", () => undefined);
  child.unref();
}
