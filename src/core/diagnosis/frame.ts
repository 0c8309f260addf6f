import { REST_TABLES } from "../battery/rest-tables";
import type { BatteryType } from "../battery/types";
import { choiceIn, numberIn } from "../readings/catalogue";
import { isUnregulated } from "../readings/regulation";
import type { Job } from "../readings/types";

/**
 * What the machine's own data leads one to expect, the same for every fault: the frame in which its
 * readings are looked at. Where the plate is silent a wide value stands in, and the field says so. Every frame has
 * every field: the engine makes what reads them once for all.
 */
export interface Frame {
  /** Volts are looked at as on a 12 V system: readings of a 6 V system are doubled. */
  readonly voltScale: number;
  readonly batteryType: BatteryType;
  /** Rested voltage of this type fully charged, on the 12 V scale [V]. */
  readonly fullRest: number;
  /** Rated output at 14 V, 12 V scale [A]; from battery capacity where the plate is silent. */
  readonly ratedAmps: number;
  readonly ratedKnown: boolean;
  readonly ratedRpm: number;
  /** Battery capacity [Ah]. */
  readonly capacity: number | undefined;
  readonly cca: number;
  readonly regulatedMin: number;
  readonly regulatedMax: number;
  /** Lights-on load, with what was added [A]. */
  readonly load: number | undefined;
  readonly keyOffLimit: number;
  readonly keyOffLimitKnown: boolean;
  readonly regulator: "shunt" | "series" | "field" | "none" | undefined;
  /** Where it is not the usual three-phase machine with permanent magnets. */
  readonly alternator: "single-phase" | "half-wave" | "field-excited" | "other" | undefined;
  readonly bridge: string | undefined;
  readonly connection: "delta" | "wye" | undefined;
  readonly unregulated: boolean;
  /** No-load AC between lines, healthy, per 1000 rpm [V/krpm]. */
  readonly emfPerKrpm: number | undefined;
  /** Winding resistance between lines at 20 °C, healthy [Ω]. */
  readonly lineOhms: number | undefined;
  readonly idleRpm: number | undefined;
  readonly testRpm: number | undefined;
}

/** Rated output in watt per ampere-hour of battery where the plate is silent: common practice, within a factor of 1.5. */
const WATTS_PER_AH = 23;
/** Cold cranking amperes per ampere-hour of a powersports battery: common practice. */
const CCA_PER_AH = 14.5;

/** Share of the rated output that a machine in order has for its consumers: common practice. */
const CARRIED = 0.8;

const fullOf = (type: BatteryType) => REST_TABLES[type].rows.at(-1)![0];
const FULL_REST: Readonly<Record<BatteryType, number>> = {
  flooded: fullOf("flooded"),
  calcium: fullOf("calcium"),
  agm: fullOf("agm"),
  gel: fullOf("gel"),
  lithium: fullOf("lithium"),
};

/** A battery that rests above a full flooded one of calcium, by more than a meter is off, has its acid in mats [V]. */
const NO_LONGER_FLOODED = 12.85;

function likelyType(job: Job): BatteryType {
  const rest = numberIn(job, "rested-voltage") ?? numberIn(job, "load-test-rested") ?? 0;
  return rest > NO_LONGER_FLOODED ? "agm" : "flooded";
}

export function frameOf(job: Job): Frame {
  const nominal = numberIn(job, "battery-nominal");
  const voltScale = nominal === 6 ? 2 : 1;
  const typed = choiceIn(job, "battery-type");
  const batteryType = typed !== undefined && typed in FULL_REST ? (typed as BatteryType) : likelyType(job);
  const capacity = numberIn(job, "battery-capacity");
  const cca = numberIn(job, "battery-cca");
  const watts = numberIn(job, "rated-output");
  const ah = capacity ?? (cca === undefined ? 14 : cca / CCA_PER_AH);
  const ratedAmps = (watts ?? ah * WATTS_PER_AH) / 14;
  const lights = numberIn(job, "lights-load");
  const added = numberIn(job, "added-load");
  // What was added beyond what the alternator carries is no nominal load, but the fault itself.
  const carried = Math.max(lights ?? 0, CARRIED * ratedAmps * voltScale);
  const load = lights === undefined ? undefined : Math.min(lights + ((added ?? 0) * voltScale) / 13.5, carried);
  const keyOffLimit = numberIn(job, "key-off-limit");
  const nominalVolts = numberIn(job, "no-load-nominal");
  const nominalRpm = numberIn(job, "no-load-nominal-rpm");
  const low = numberIn(job, "stator-ohms-min");
  const high = numberIn(job, "stator-ohms-max");
  const statedAt = numberIn(job, "stator-ohms-temp") ?? 20;
  const lineOhms =
    low !== undefined && high !== undefined ? (low + high) / 2 / (1 + 0.00393 * (statedAt - 20)) : undefined;
  const alternator = choiceIn(job, "alternator-kind");
  const regulator = alternator === "field-excited" ? "field" : (choiceIn(job, "regulator-kind") as Frame["regulator"]);
  const bridge = choiceIn(job, "bridge-kind");
  const connection = choiceIn(job, "stator-connection");
  const idleRpm = numberIn(job, "idle-rpm");
  const testRpm = numberIn(job, "test-rpm");
  return {
    voltScale,
    batteryType,
    fullRest: FULL_REST[batteryType],
    ratedAmps,
    ratedKnown: watts !== undefined,
    ratedRpm: numberIn(job, "rated-output-rpm") ?? 5000,
    capacity,
    cca: cca ?? ah * CCA_PER_AH,
    regulatedMin: (numberIn(job, "regulated-min") ?? 13.5 / voltScale) * voltScale,
    regulatedMax: (numberIn(job, "regulated-max") ?? 15 / voltScale) * voltScale,
    keyOffLimit: keyOffLimit ?? 20,
    keyOffLimitKnown: keyOffLimit !== undefined,
    unregulated: isUnregulated(job),
    load: load === undefined || load <= 0 ? undefined : load,
    regulator,
    alternator: alternator === "three-phase" ? undefined : (alternator as Frame["alternator"]),
    bridge: bridge === "unknown" ? undefined : bridge,
    connection: connection === "delta" || connection === "wye" ? connection : undefined,
    emfPerKrpm:
      nominalVolts !== undefined && nominalRpm !== undefined && nominalRpm > 0
        ? (nominalVolts / nominalRpm) * 1000
        : undefined,
    lineOhms: lineOhms !== undefined && lineOhms > 0 ? lineOhms : undefined,
    idleRpm,
    testRpm,
  };
}
