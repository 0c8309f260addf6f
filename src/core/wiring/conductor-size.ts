import { isBlank, isCellError, type Cell } from "../cell";
import type { Parsed } from "../readings/parse";
import { fail, ok } from "../result";

/** Cross-section of a conductor as it is printed on the cable. */
export type ConductorSize =
  /** American Wire Gage; 1/0 to 4/0 are 0 to −3. */
  | { readonly system: "AWG"; readonly gauge: number }
  /** Nominal cross-section [mm²]. */
  | { readonly system: "mm²"; readonly area: number };

/** Thickest and thinnest gauge of ASTM B258. */
const GAUGES = { thickest: -3, thinnest: 40 } as const;
const LARGEST_AREA = 1000;
const SMALLEST_AREA = 0.01;

/**
 * Reads a conductor size as people write it: `14 AWG`, `AWG 4/0`, `0000 AWG`, `#10`, `2.5 mm²`,
 * `0,75 mm2`. A bare whole number can be either, so it is asked; a broken one is a cross-section.
 *
 * @param cell - Cell as the host hands it over
 * @returns `null` for blank; `ambiguous`, `not-understood` or `outside-range`
 */
export function parseConductorSize(cell: Cell): Parsed<ConductorSize> {
  if (isBlank(cell)) return ok(null);
  if (isCellError(cell) || typeof cell === "boolean") return notASize(String(isCellError(cell) ? cell.error : cell));
  const typed = String(cell).trim();
  const words = typed
    .toLowerCase()
    .replaceAll(",", ".")
    .replace(/^(?:awg|#|gauge|ga)\s*(.+)$/u, "$1 awg")
    .replace(/^size\s+/u, "");
  const aught = /^(?:([1-4])\/0|(0{1,4}))\s*(?:awg|gauge|ga)?$/u.exec(words);
  if (aught) return gauge(1 - Number(aught[1] ?? aught[2]!.length), typed);
  const number = /^(-?\d+(?:\.\d+)?)\s*(awg|gauge|ga|mm²|mm2|mm\^2|sqmm|sq mm|qmm)?$/u.exec(words);
  if (!number) return notASize(typed);
  const value = Number(number[1]);
  const unit = number[2];
  if (unit === undefined && Number.isInteger(value)) {
    return fail({
      code: "ambiguous",
      what: "conductor size",
      came: typed,
      question: `write ${typed} AWG or ${typed} mm²`,
    });
  }
  if (unit !== undefined && /^(?:awg|gauge|ga)$/u.test(unit)) return gauge(value, typed);
  if (!(value >= SMALLEST_AREA && value <= LARGEST_AREA)) {
    return fail({
      code: "outside-range",
      what: "conductor size",
      came: value,
      min: SMALLEST_AREA,
      max: LARGEST_AREA,
      unit: "mm²",
    });
  }
  return ok({ system: "mm²", area: value });
}

function gauge(value: number, typed: string): Parsed<ConductorSize> {
  if (Number.isInteger(value) && value >= GAUGES.thickest && value <= GAUGES.thinnest)
    return ok({ system: "AWG", gauge: value });
  return fail({
    code: "not-understood",
    what: "conductor size",
    came: typed,
    expected: "a gauge from 4/0 AWG to 40 AWG",
  });
}

function notASize(came: string): Parsed<never> {
  return fail({
    code: "not-understood",
    what: "conductor size",
    came,
    expected: "a size such as 14 AWG, 4/0 AWG or 2.5 mm²",
  });
}

/** The size as it is printed. */
export function sizeWords(size: ConductorSize): string {
  if (size.system === "mm²") return `${size.area} mm²`;
  return size.gauge > 0 ? `${size.gauge} AWG` : `${1 - size.gauge}/0 AWG`;
}
