import type { CustomaryBand } from "../judgement/types";
import type { Frame } from "./frame";

/**
 * What people quote for a reading, shown beside its judgement. None of it decides: healthy machines
 * of many kinds lie outside some of these.
 */
export function customaryBand(id: string, frame: Frame): CustomaryBand | undefined {
  const { job } = frame;
  switch (id) {
    case "idle-voltage":
    case "test-voltage":
      return {
        low: 13.5 * frame.scale,
        high: 15 * frame.scale,
        words: "commonly quoted with the engine warm, from about 2000 rpm up",
      };
    case "battery-ripple":
      return {
        high: 0.1,
        words: "commonly quoted at 0.05 to 0.1 V; regulators that chop give two and three times that when healthy",
      };
    case "battery-current":
      return { low: 0, words: "commonly falls below 5 % of the capacity once the battery is full" };
    case "key-off-draw":
      // Without machine data the same figures are the limit itself.
      return job.has("key-off-limit")
        ? { high: 50, words: "commonly quoted: up to 5 mA for motorcycles and ATVs, up to 50 mA for cars" }
        : undefined;
    case "no-load-ab":
    case "no-load-bc":
    case "no-load-ca": {
      const krpm = numberOf(job.get("no-load-rpm")) / 1000;
      return Number.isFinite(krpm)
        ? { low: 12 * krpm, high: 25 * krpm, words: "commonly quoted at 12 to 25 V per 1000 rpm for permanent magnets" }
        : undefined;
    }
    default:
      return undefined;
  }
}

function numberOf(measured: ReturnType<Frame["job"]["get"]>): number {
  return measured?.kind === "number" ? measured.value : Number.NaN;
}
