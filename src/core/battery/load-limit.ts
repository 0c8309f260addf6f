import type { Volt } from "../quantity";
import { outside } from "../range";
import { ok, type Result } from "../result";
import { readTable, type Row } from "../table";
import type { NominalVolts } from "./types";

const celsius = (fahrenheit: number) => (fahrenheit - 32) / 1.8;
// prettier-ignore
const LADDER_12: readonly Row[] = (
  [[0, 8.5], [10, 8.7], [20, 8.9], [30, 9.1], [40, 9.3], [50, 9.4], [60, 9.5], [70, 9.6]] as const
).map(([fahrenheit, volts]) => [celsius(fahrenheit), volts]);
// prettier-ignore
const LADDER_6: readonly Row[] = (
  [[0, 4.2], [10, 4.3], [20, 4.4], [30, 4.5], [40, 4.6], [50, 4.7], [60, 4.75], [70, 4.8]] as const
).map(([fahrenheit, volts]) => [celsius(fahrenheit), volts]);

/** 0 °F as the printed table rounds it: the coldest battery it speaks of [°C]. */
export const COLDEST_LOAD_TEST = -18;

/**
 * Lowest voltage that a good lead-acid battery keeps at the end of the load test, by temperature.
 *
 * @param temperature - Battery temperature [°C], −18 to 60; from 21 °C on the limit stays
 * @param nominal - Nominal voltage [V]
 * @returns Limit [V]; `outside-range`
 * @source tm-5-4210-230-14 table 5, straight lines between its rows
 */
export function loadLimit(temperature: number, nominal: NominalVolts = 12): Result<Volt> {
  const range = outside("battery temperature", temperature, COLDEST_LOAD_TEST, 60, "°C");
  return range ?? ok(readTable(nominal === 6 ? LADDER_6 : LADDER_12, temperature) as Volt);
}
