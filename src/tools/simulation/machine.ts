import type { Connection, DiodeLaw } from "../../core/circuit/types";
import type { Random } from "./random";

/** How a machine was designed and what has become of it: the true values behind the plate. */
export interface Machine {
  readonly ratedWatts: number;
  readonly ratedRpm: number;
  readonly connection: Connection;
  readonly polePairs: number;
  /** As designed, line to line; what the plate says. */
  readonly plateEmfPerKrpm: number;
  readonly plateLineOhms: number;
  readonly emfPerKrpm: number;
  /** Wye-equivalent resistance and inductance of one phase, this very machine, 20 °C. */
  readonly wyeOhms: number;
  readonly wyeHenry: number;
  readonly harmonic5: number;
  readonly harmonic7: number;
  readonly regulator: "shunt" | "series";
  readonly bridge: "plain diodes" | "parallel path" | "mosfet";
  readonly senses: "battery" | "own output";
  readonly setVolts: number;
  readonly voltsPerC: number;
  readonly hysteresisHalfVolts: number;
  readonly filterSeconds: number;
  readonly diode: DiodeLaw;
  readonly bplusOhms: number;
  readonly groundOhms: number;
  readonly phaseOhms: readonly [number, number, number];
  readonly batteryType: "flooded" | "agm" | "gel" | "calcium" | "lithium";
  readonly capacity: number;
  readonly cca: number;
  /** At 25 °C, full [Ω]. */
  readonly batteryOhms: number;
  readonly acceptance: number;
  readonly idleRpm: number;
  readonly testRpm: number;
  readonly noLoadRpm: number;
  readonly loadAmps: number;
  readonly drawMilliamps: number;
  readonly drawLimit: number;
  readonly starterOhms: number;
  readonly ambient: number;
  readonly statorBench: number;
  readonly statorRun: number;
  readonly bridgeRun: number;
  readonly regulatedMin: number;
  readonly regulatedMax: number;
  readonly noLoadTolerance: number;
}

type Range = readonly [number, number];

/** What machines there are: the wider, the less a verdict leans on the machines of one shop. */
export interface MachineRanges {
  readonly watts: Range;
  readonly polePairs: Range;
  readonly idleRpm: Range;
  readonly testRpm: Range;
  /** Peak phase emf at idle over what the bridge needs to conduct. */
  readonly emfAtIdle: Range;
  /** Wye-equivalent resistance times rated output [Ω·W]. */
  readonly ohmWatts: Range;
  readonly ahPerWatt: Range;
  readonly ccaPerAh: Range;
  readonly loadShare: Range;
  readonly ambient: Range;
  readonly lithium: number;
}

/** Wide: what the tables are fitted to. */
export const WIDE: MachineRanges = {
  watts: [150, 1600],
  polePairs: [3, 12],
  idleRpm: [900, 1700],
  testRpm: [2500, 6000],
  emfAtIdle: [1.45, 3.3],
  ohmWatts: [45, 230],
  ahPerWatt: [0.022, 0.075],
  ccaPerAh: [10.5, 18],
  loadShare: [0.3, 0.75],
  ambient: [-5, 40],
  lithium: 0.05,
};

/** Powersports machines as they come in most: for judging, never for fitting. */
export const COMMON: MachineRanges = {
  ...WIDE,
  watts: [200, 600],
  polePairs: [6, 9],
  idleRpm: [1200, 1600],
  testRpm: [3000, 5000],
  emfAtIdle: [1.7, 2.9],
  ohmWatts: [60, 215],
  ahPerWatt: [0.033, 0.05],
  ccaPerAh: [12.3, 16],
  loadShare: [0.38, 0.68],
  ambient: [7, 37],
  lithium: 0,
};

/** Small and garden machines, for judging. */
export const SMALL: MachineRanges = {
  ...WIDE,
  watts: [90, 200],
  polePairs: [3, 6],
  loadShare: [0.3, 0.6],
  idleRpm: [1300, 2000],
};
/** Large utility machines, for judging. */
export const LARGE: MachineRanges = {
  ...WIDE,
  watts: [700, 2200],
  polePairs: [8, 14],
  ahPerWatt: [0.018, 0.05],
  idleRpm: [800, 1200],
};

/** Mean DC side voltage that a phase's fundamental stands against: (2/π)(14 V + two devices). */
const BRIDGE_VOLTS = (2 / Math.PI) * 15.7;

export function drawMachine(random: Random, ranges: MachineRanges): Machine {
  for (;;) {
    const machine = tryMachine(random, ranges);
    if (machine) return machine;
  }
}

function tryMachine(random: Random, r: MachineRanges): Machine | undefined {
  const ratedWatts = Math.round(random.logBetween(...r.watts) / 5) * 5;
  const ratedAmps = ratedWatts / 14;
  const ratedRpm = random.chance(0.8) ? 5000 : random.pick([3000, 3600, 4000, 6000]);
  const idleRpm = Math.round(random.between(...r.idleRpm) / 10) * 10;
  const polePairs = random.integer(...r.polePairs);
  const x = random.between(...r.emfAtIdle);
  const peakAtIdle = x * BRIDGE_VOLTS;
  const plateEmfPerKrpm = (peakAtIdle * Math.sqrt(1.5)) / (idleRpm / 1000);
  const plateWyeOhms = random.logBetween(...r.ohmWatts) / ratedWatts;
  // Inductance so that the plate's output comes out at the plate's speed, winding hot.
  const peak = (plateEmfPerKrpm * ratedRpm) / 1000 / Math.sqrt(1.5);
  const amps = (ratedAmps * Math.PI) / 3;
  const real = BRIDGE_VOLTS + plateWyeOhms * 1.3 * amps;
  if (peak < 1.15 * real) return undefined;
  const reactance = Math.sqrt(peak ** 2 - real ** 2) / amps;
  const plateHenry = reactance / ((2 * Math.PI * ratedRpm * polePairs) / 60);
  const spread = (half: number) => 1 + random.between(-half, half);
  const regulator = random.chance(0.6) ? "shunt" : "series";
  const bridge = random.chance(0.04)
    ? "mosfet"
    : random.chance(regulator === "series" ? 0.8 : 0.27)
      ? "parallel path"
      : "plain diodes";
  const batteryType = random.chance(r.lithium)
    ? "lithium"
    : random.weighted({ agm: 0.48, flooded: 0.4, gel: 0.06, calcium: 0.06 });
  const capacity = Math.max(2, Math.round(ratedWatts * random.logBetween(...r.ahPerWatt) * 2) / 2);
  const cca = Math.min(
    1900,
    Math.round((capacity * random.between(...r.ccaPerAh) * (batteryType === "lithium" ? 1.5 : 1)) / 5) * 5,
  );
  const ideality = random.between(1.35, 1.65);
  const drawLimit = random.pick([5, 10, 20, 50]);
  const ambient = random.between(...r.ambient);
  const testRpm = Math.round(random.between(...r.testRpm) / 500) * 500;
  const noLoadRpm = random.chance(0.5) ? testRpm : Math.round(random.between(...r.testRpm) / 500) * 500;
  return {
    ratedWatts,
    ratedRpm,
    connection: random.chance(0.5) ? "delta" : "wye",
    polePairs,
    plateEmfPerKrpm,
    plateLineOhms: 2 * plateWyeOhms,
    emfPerKrpm: plateEmfPerKrpm * spread(0.06),
    wyeOhms: plateWyeOhms * spread(0.08),
    wyeHenry: plateHenry * spread(0.12),
    harmonic5: random.between(-0.025, 0.025),
    harmonic7: random.between(-0.015, 0.015),
    regulator,
    bridge,
    senses: random.chance(0.4) ? "battery" : "own output",
    setVolts: random.between(14.1, 14.85),
    voltsPerC: random.between(-0.004, -0.001),
    hysteresisHalfVolts: random.between(0.04, 0.12),
    filterSeconds: random.between(0.0003, 0.001),
    diode: {
      saturationAmps: random.logBetween(7e-10, 2e-9) * 10 ** ((ideality - 1.5) * 5.5),
      ideality,
      seriesOhms: random.between(0.15, 0.3) / ratedAmps,
    },
    bplusOhms: random.between(0.12, 0.42) / ratedAmps,
    groundOhms: random.between(0.05, 0.24) / ratedAmps,
    phaseOhms: [random.between(0.003, 0.012), random.between(0.003, 0.012), random.between(0.003, 0.012)],
    batteryType,
    capacity,
    cca,
    batteryOhms: (random.logBetween(1.4, 3.8) / cca) * (batteryType === "lithium" ? 0.8 : 1),
    acceptance: random.between(0.65, 1.15),
    idleRpm,
    testRpm,
    noLoadRpm,
    loadAmps: ratedAmps * random.between(...r.loadShare),
    drawMilliamps: Math.min(random.logBetween(0.3, 9), 0.85 * drawLimit),
    drawLimit,
    starterOhms: random.between(13, 25) / cca,
    ambient,
    statorBench: ambient + random.between(0, 30),
    statorRun: random.between(55, 125),
    bridgeRun: random.between(50, 120),
    regulatedMin: random.pick([13.5, 13.8]),
    regulatedMax: random.pick([14.8, 15]),
    noLoadTolerance: random.pick([10, 15, 20]),
  };
}
