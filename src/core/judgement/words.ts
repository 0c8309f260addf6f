import { signed } from "../signed";
import type { Interval } from "./types";

/** How a number of this quantity is written: unit as shown, decimals as shown. */
export interface Shown {
  readonly unit: string;
  readonly decimals: number;
}

/** `12.60 V`, `5000 rpm`, `1.265`, `5 MΩ`: the number with its unit, a share without its `1`. */
export function numberWords(value: number, { unit, decimals }: Shown): string {
  // Nobody counts seven digits; a meter shows them in its own higher range too.
  if (unit === "Ω" && Number.isFinite(value) && value >= 1e6) return `${Number((value / 1e6).toPrecision(3))} MΩ`;
  const bare = unit === "1" || unit === "SG";
  // 0.4 Ω is not 0 Ω, though nobody asks for tenths of megohms.
  const digits = signed(value.toFixed(decimals || (value < 10 && value % 1 ? 1 : 0)));
  return bare ? digits : `${digits} ${unit}`;
}

/** `at least 9.60 V`, `at most 0.20 V`, `13.50 to 15.00 V`. */
export function limitWords({ low, high }: Interval, shown: Shown): string {
  if (low !== undefined && high !== undefined)
    return `${signed(low.toFixed(shown.decimals))} to ${numberWords(high, shown)}`;
  if (low !== undefined) return `at least ${numberWords(low, shown)}`;
  return high === undefined ? "no limit" : `at most ${numberWords(high, shown)}`;
}
