import type { BatteryType } from "../battery/types";
import { numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import { outside } from "../range";
import { ok, type Result } from "../result";
import { expectedRunning, type Range3 } from "./expected-running";
import { withoutContradiction } from "./machine-contradictions";

/** What a band is asked for; everything but the type may be left out. */
export interface BandQuestion {
  readonly type: BatteryType;
  /** Battery temperature [°C], −40 to 90; 25 where left out. */
  readonly temperature?: number | undefined;
  /** Machine data; without them the published band. */
  readonly job?: Job | undefined;
  readonly rpm?: number | undefined;
  /** Load at 13.5 V [A]. */
  readonly loadAmps?: number | undefined;
}

export interface ChargingBand {
  /** Volts at the battery posts; `likely` is the target. */
  readonly volts: Range3;
  /** Where the ends come from, one sentence. */
  readonly words: string;
}

/** Charging voltage of a 12 V battery at 25 °C [V], and its change with temperature [V/°C]. */
interface Chemistry {
  readonly low: number;
  readonly target: number;
  readonly high: number;
  readonly perC: number;
}

/**
 * Customary band of running machines with a typical set point in it; compensation in the middle of
 * each type's span: flooded −5, AGM −3.5, gel −4 mV/°C per cell, none for lithium, whose limit is hard.
 */
const CHEMISTRY: Readonly<Record<BatteryType, Chemistry>> = {
  flooded: { low: 13.5, target: 14.4, high: 15, perC: -0.03 },
  calcium: { low: 13.5, target: 14.5, high: 15, perC: -0.03 },
  agm: { low: 13.5, target: 14.4, high: 15, perC: -0.021 },
  gel: { low: 13.5, target: 14.2, high: 14.6, perC: -0.024 },
  lithium: { low: 13.6, target: 14.4, high: 14.6, perC: 0 },
};

/** Outside these the compensation stands still [°C]. */
const COLDEST = -20;
const HOTTEST = 50;

/**
 * Low, target and high charging voltage at the battery posts.
 *
 * Without machine data: the customary band, its target moved by the battery's temperature. The end
 * that compensation moves outward moves with it; the other stays, because most regulators of these
 * machines hardly compensate. With machine data: the machine's own regulated band; and with speed,
 * what the machine can deliver there: a low voltage at idle that physics foretells is within the band.
 *
 * @param question - Type, temperature, machine data, speed, load
 * @returns The band; `outside-range`, `refused` for machine data that contradict each other, and the faults of `expectedRunning`
 * @source technician-courses (13.5 to 15.0 V), charge-compensation, common-practice (set points, lithium)
 */
export function chargingBand({ type, temperature, job, rpm, loadAmps }: BandQuestion): Result<ChargingBand> {
  const range = outside("battery temperature", temperature ?? 25, -60, 90, "°C");
  if (range) return range;
  const possible = withoutContradiction(job ?? new Map());
  if (!possible.ok) return possible;
  const scale = (job === undefined ? 12 : (numberIn(job, "battery-nominal") ?? 12)) / 12;
  const chemistry = CHEMISTRY[type];
  const shift = chemistry.perC * (Math.max(COLDEST, Math.min(HOTTEST, temperature ?? 25)) - 25);
  const own = job === undefined ? undefined : ownBand(job);
  const target = chemistry.target + shift;
  const base: Range3 = own ?? {
    low: scale * (chemistry.low + Math.min(0, shift)),
    likely: scale * target,
    high: scale * (chemistry.high + Math.max(0, shift)),
  };
  const words = own
    ? "regulated voltage of this machine"
    : "customary band for the type and temperature of the battery";
  if (job === undefined || rpm === undefined) return ok({ volts: base, words });
  const expected = expectedRunning(withBattery(job, type, temperature), rpm, loadAmps);
  if (!expected.ok) return expected;
  const { volts, limitedBy } = expected.value;
  const reach = limitedBy === "machine" || volts.low < base.low;
  return ok({
    volts: {
      low: Math.min(base.low, volts.low),
      likely:
        limitedBy === "machine"
          ? Math.min(base.high, volts.likely)
          : Math.max(Math.min(volts.likely, base.high), base.low),
      high: base.high,
    },
    words: reach ? `${words}; lower end from what the machine can deliver at ${Math.round(rpm)} rpm` : words,
  });
}

function ownBand(job: Job): Range3 | undefined {
  const low = numberIn(job, "regulated-min");
  const high = numberIn(job, "regulated-max");
  return low === undefined || high === undefined ? undefined : { low, likely: (low + high) / 2, high };
}

/** The job with the battery that the question names. */
function withBattery(job: Job, type: BatteryType, temperature: number | undefined): Job {
  const out = new Map(job);
  out.set("battery-type", { kind: "choice", value: type });
  if (temperature !== undefined) out.set("battery-temperature", { kind: "number", value: temperature });
  return out;
}
