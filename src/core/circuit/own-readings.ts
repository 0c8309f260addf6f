import { numberIn } from "../readings/catalogue";
import type { Job, Measured } from "../readings/types";
import { COPPER_PER_C } from "./stator-network";
import { TYPICAL } from "./typical";

/** Three readings that differ by more than this are not those of a sound stator [1]. */
const EVEN_WITHIN = 0.05;

/**
 * Machine data that the plate does not give, taken from the machine's own readings while it was sound:
 * volts per speed from the no-load AC at one speed or two, winding resistance from the three pairs, and
 * what it can give from one loaded point below the regulator's level. What the plate says stands.
 *
 * @param job - Machine data and readings by catalogue id; uneven readings are left alone
 * @returns The same job with the missing machine data filled in
 */
export function filledFromReadings(job: Job): Job {
  const filled = new Map(job);
  const put = (id: string, value: number) => filled.set(id, { kind: "number", value } satisfies Measured);
  if (numberIn(job, "no-load-nominal") === undefined || numberIn(job, "no-load-nominal-rpm") === undefined) {
    const perKrpm = noLoadPerKrpm(job);
    if (perKrpm !== undefined) {
      put("no-load-nominal-rpm", 1000);
      put("no-load-nominal", perKrpm);
    }
  }
  if (numberIn(job, "stator-ohms-min") === undefined && numberIn(job, "stator-ohms-max") === undefined) {
    const ohms = lineOhms(job);
    if (ohms !== undefined) {
      put("stator-ohms-min", ohms);
      put("stator-ohms-max", ohms);
      put("stator-ohms-temp", 20);
    }
  }
  if (numberIn(job, "rated-output") === undefined) {
    const point = loadedPoint(job);
    if (point !== undefined) {
      put("rated-output", point.amps * TYPICAL.ratedVolts * point.scale);
      put("rated-output-rpm", point.rpm);
    }
  }
  return filled;
}

/** Line-to-line volts per 1000 rpm: the line through the origin that lies nearest to both speeds. */
function noLoadPerKrpm(job: Job): number | undefined {
  let product = 0;
  let square = 0;
  for (const [speed, pairs] of [
    ["no-load-rpm", "no-load"],
    ["no-load-rpm-2", "no-load-2"],
  ] as const) {
    const rpm = numberIn(job, speed);
    const volts = evenMean(job, pairs);
    if (rpm === undefined || rpm <= 0 || volts === undefined) continue;
    product += volts * (rpm / 1000);
    square += (rpm / 1000) ** 2;
  }
  return square > 0 && product > 0 ? product / square : undefined;
}

/** Winding resistance between lines at 20 °C [Ω], the meter's leads taken off. */
function lineOhms(job: Job): number | undefined {
  const read = evenMean(job, "winding");
  const leads = numberIn(job, "meter-leads");
  if (read === undefined || leads === undefined || read <= leads) return undefined;
  return (read - leads) / (1 + COPPER_PER_C * ((numberIn(job, "stator-temperature") ?? 20) - 20));
}

/** What the rectifier gives where the machine, not the regulator, sets the limit. */
function loadedPoint(job: Job): { readonly rpm: number; readonly amps: number; readonly scale: number } | undefined {
  const [rpm, volts, battery, load, regulated] = [
    "test-rpm",
    "test-voltage",
    "battery-current",
    "lights-load",
    "regulated-min",
  ].map((id) => numberIn(job, id));
  const scale = (numberIn(job, "battery-nominal") ?? 12) / 12;
  if (rpm === undefined || volts === undefined || battery === undefined || load === undefined) return undefined;
  if (volts >= (regulated ?? 13.5 * scale)) return undefined;
  const amps = battery + load;
  return rpm > 0 && amps > 0 ? { rpm, amps, scale } : undefined;
}

/** Mean of the three pairs where all are read and agree. */
function evenMean(job: Job, stem: string): number | undefined {
  const values = ["ab", "bc", "ca"].map((pair) => numberIn(job, `${stem}-${pair}`));
  if (!values.every((value) => value !== undefined && value > 0)) return undefined;
  const three = values as number[];
  const mean = three.reduce((sum, value) => sum + value, 0) / 3;
  return three.every((value) => Math.abs(value / mean - 1) <= EVEN_WITHIN) ? mean : undefined;
}
