/* eslint-disable @typescript-eslint/no-explicit-any -- the metadata generator knows ranges of any cell as any[][] only */
import { unbalance } from "../core/stator/balance";
import { benchFromCells } from "../core/stator/machine-from-cells";
import { departureFromLine, electricalFrequency, voltsPerThousand } from "../core/stator/output";
import {
  insulationCells,
  noLoadCells,
  NO_LOAD_NOT_READ,
  OHMS_NOT_READ,
  windingCells,
  windingOhmsCells,
} from "../core/stator/to-cells";
import { ohmsAtTemperature } from "../core/stator/winding-temperature";
import { toBlock } from "./arguments";
import type { FunctionTable } from "./function-table";
import { overCells } from "./over-cells";
import { overContext } from "./over-context";
import {
  AC_VOLTS,
  CLASS,
  CONNECTION,
  LEADS,
  likeReading,
  LINE_OHMS,
  MEGOHMS,
  MEGOHMS_TEN,
  OHMS,
  POLES,
  RPM,
  READ_RPM,
  STATOR_TEMPERATURE,
  TARGET,
  TEMPERATURE,
  OPTIONAL_TEMPERATURE,
  VOLTS,
  WINDING,
  WOUND,
} from "./stator-arguments";

/**
 * Unbalance of three readings by the NEMA definition: largest deviation from their mean, as a share of the mean.
 * @customfunction BALANCE
 * @param a First of three like readings
 * @param b Second, same unit
 * @param c Third, same unit
 * @returns Unbalance, 0 to 2 (format as %)
 * @example =CHG.BALANCE(460, 455, 440) gives 0.0258
 */
export function balance(a: any[][], b: any[][], c: any[][]): any[][] {
  return overCells([likeReading("a"), likeReading("b"), likeReading("c")], unbalance, [a, b, c]);
}

/**
 * Output per 1000 rpm of a permanent-magnet stator, which is proportional to speed.
 * @customfunction VPERKRPM
 * @param volts No-load AC, line to line, V
 * @param rpm Speed, rpm
 * @returns Output, V per 1000 rpm
 * @example =CHG.VPERKRPM(61.5, 3000) gives 20.5
 */
export function vPerKrpm(volts: any[][], rpm: any[][]): any[][] {
  return overCells([VOLTS, RPM], voltsPerThousand, [volts, rpm]);
}

/**
 * How far the no-load AC of two speeds is from proportional: 0 where volts per 1000 rpm are the same. More than a few hundredths means that a speed or a reading is wrong.
 * @customfunction LINEARITY
 * @param volts1 No-load AC at the first speed, V
 * @param rpm1 First speed, rpm
 * @param volts2 No-load AC at the second speed, V
 * @param rpm2 Second speed, rpm
 * @returns Departure, 0.03 where the second speed gives 3 % more per 1000 rpm
 * @example =CHG.LINEARITY(41, 2000, 102.5, 5000) gives 0
 */
export function linearity(volts1: any[][], rpm1: any[][], volts2: any[][], rpm2: any[][]): any[][] {
  return overCells([VOLTS, RPM, VOLTS, RPM], departureFromLine, [volts1, rpm1, volts2, rpm2]);
}

/**
 * Judges the no-load AC of a stator: balance of the three pairs, and level against the machine's figure in proportion to speed.
 * @customfunction STATORAC
 * @param a No-load AC A–B, V (one column)
 * @param b No-load AC B–C, V; blank for single-phase machines
 * @param c No-load AC C–A, V; blank for single-phase machines
 * @param rpm Speed, rpm
 * @param [machine] Machine data: two columns (label, value), with the no-load figure, its speed and tolerance
 * @param [meter] Accuracy of the shop's meter: rows of function, up to, ± %, ± counts, smallest step; a typical hand-held one where blank
 * @returns State, unbalance, V per 1000 rpm, lowest and highest expected, reason, side by side
 * @example =CHG.STATORAC(49, 58.3, 49.8, 3000) gives fail, 0.113, 17.5, blank, blank and the reason
 */
export function statorAc(
  a: any[][],
  b: any[][],
  c: any[][],
  rpm: any[][],
  machine?: any[][],
  meter?: any[][],
): any[][] {
  return overContext(benchFromCells(toBlock(machine), toBlock(meter)), (bench) =>
    overCells(
      [AC_VOLTS("A–B"), AC_VOLTS("B–C"), AC_VOLTS("C–A"), READ_RPM],
      (ab, bc, ca, speed) => noLoadCells([ab, bc, ca], speed, bench),
      [a, b, c, rpm],
      NO_LOAD_NOT_READ,
    ),
  );
}

/**
 * Judges the line-to-line resistances of a stator: meter leads taken off with their own uncertainty, referred to 20 °C, unbalance against what the meter can tell apart.
 * @customfunction STATOROHMS
 * @param ab Reading A–B, Ω or OL (one column)
 * @param bc Reading B–C, Ω or OL
 * @param ca Reading C–A, Ω or OL
 * @param [leads] Meter leads shorted together, Ω
 * @param [temp] Stator temperature, °C
 * @param [machine] Machine data: two columns (label, value), with lowest and highest resistance, connection, smallest step of the ohmmeter
 * @param [meter] Accuracy of the shop's meter: rows of function, up to, ± %, ± counts, smallest step; a typical hand-held one where blank
 * @returns State, A–B, B–C and C–A at 20 °C without leads, unbalance, smallest unbalance that shows, reason, side by side
 * @example =CHG.STATOROHMS(0.3, 0.3, 0.3, 0.1, 20) gives unsure, 0.2, 0.2, 0.2, 0, 0.97 and the reason
 */
export function statorOhms(
  ab: any[][],
  bc: any[][],
  ca: any[][],
  leads?: any[][],
  temp?: any[][],
  machine?: any[][],
  meter?: any[][],
): any[][] {
  return overContext(benchFromCells(toBlock(machine), toBlock(meter)), (bench) =>
    overCells(
      [LINE_OHMS("A–B"), LINE_OHMS("B–C"), LINE_OHMS("C–A"), LEADS, STATOR_TEMPERATURE],
      (one, two, three, shorted, temperature) => windingOhmsCells([one, two, three], shorted, temperature, bench),
      [ab, bc, ca, leads, temp],
      OHMS_NOT_READ,
    ),
  );
}

/**
 * The single windings behind three line-to-line readings, and which one is open: two OL mean an open terminal, 2 : 1 : 1 an open winding of a delta.
 * @customfunction WINDINGS
 * @param ab Reading A–B, Ω or OL, leads taken off (one column)
 * @param bc Reading B–C, Ω or OL
 * @param ca Reading C–A, Ω or OL
 * @param connection delta or wye
 * @returns Wye: windings A, B, C; delta: A–B, B–C, C–A, each Ω, open or unknown; then a note, side by side
 * @example =CHG.WINDINGS(8, 5, 9, "wye") gives 6, 2, 3
 */
export function windings(ab: any[][], bc: any[][], ca: any[][], connection: any[][]): any[][] {
  return overCells(
    [WINDING("A–B"), WINDING("B–C"), WINDING("C–A"), CONNECTION],
    windingCells,
    [ab, bc, ca, connection],
    ["", "", "", ""],
  );
}

/**
 * Resistance of a copper winding referred to another temperature.
 * @customfunction OHMSAT
 * @param ohms Resistance as measured, Ω
 * @param temp Temperature when measured, °C
 * @param [target] Temperature wanted, °C (20)
 * @returns Resistance at the wanted temperature, Ω
 * @example =CHG.OHMSAT(0.6, 60) gives 0.519
 */
export function ohmsAt(ohms: any[][], temp: any[][], target?: any[][]): any[][] {
  return overCells([OHMS, TEMPERATURE, TARGET], ohmsAtTemperature, [ohms, temp, target]);
}

/**
 * Judges the insulation of a winding to ground after 1 minute at 500 V DC, referred to 40 °C (IEEE 43). Only with every electronic unit unplugged and where the manual allows it.
 * @customfunction INSULATION
 * @param megohms Reading after 1 minute, MΩ or OL (one column)
 * @param temp Winding temperature, °C
 * @param [winding] random-wound, form-wound or before 1970 (random-wound, as small alternators are)
 * @param [tenMinutes] Reading after 10 minutes, MΩ
 * @param [insulationClass] Insulation class A, B, F or H, for the polarization index (B)
 * @returns State, MΩ at 40 °C, least MΩ at 40 °C, polarization index, reason, side by side
 * @example =CHG.INSULATION(50, 20) gives pass, 12.5, 5, blank and the reason
 */
export function insulation(
  megohms: any[][],
  temp: any[][],
  winding?: any[][],
  tenMinutes?: any[][],
  insulationClass?: any[][],
): any[][] {
  return overCells(
    [MEGOHMS, OPTIONAL_TEMPERATURE, WOUND, MEGOHMS_TEN, CLASS],
    (oneMinute, temperature, wound, ten, rated) =>
      insulationCells(oneMinute, temperature, { winding: wound, tenMinutes: ten, insulationClass: rated }),
    [megohms, temp, winding, tenMinutes, insulationClass],
    ["not read", "", "", "", ""],
  );
}

/**
 * Electrical frequency of an alternator.
 * @customfunction FREQUENCY
 * @param rpm Speed of the rotor, rpm
 * @param poles Magnet poles, an even number; poles, not pairs
 * @returns Frequency, Hz
 * @example =CHG.FREQUENCY(375, 16) gives 50
 */
export function frequency(rpm: any[][], poles: any[][]): any[][] {
  return overCells([RPM, POLES], electricalFrequency, [rpm, poles]);
}

export const statorFunctions = {
  BALANCE: balance,
  VPERKRPM: vPerKrpm,
  LINEARITY: linearity,
  STATORAC: statorAc,
  STATOROHMS: statorOhms,
  WINDINGS: windings,
  OHMSAT: ohmsAt,
  INSULATION: insulation,
  FREQUENCY: frequency,
} satisfies FunctionTable;
