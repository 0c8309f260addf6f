import type { Alternator, Battery, ChargingSystem, Conditions, Regulator } from "../../../src/core/circuit/types";

/** A healthy mid-size machine, invented: 400 W at 5000 rpm or so. */
export const MACHINE: ChargingSystem = {
  alternator: {
    kind: "three-phase",
    connection: "wye",
    emfPerKrpm: 19,
    emfScale: 1,
    harmonic5: 0.02,
    harmonic7: -0.01,
    windingOhms: 0.25,
    windingHenry: 0.0006,
    polePairs: 9,
    windingOpen: [false, false, false],
  },
  bridge: {
    upper: ["ok", "ok", "ok"],
    lower: ["ok", "ok", "ok"],
    legOpen: [false, false, false],
    shortOhms: 0.006,
    diode: { saturationAmps: 1e-9, ideality: 1.5, seriesOhms: 0.0055 },
  },
  regulator: {
    kind: "shunt",
    setVolts: 14.5,
    voltsPerC: -0.0024,
    hysteresisHalfVolts: 0.08,
    filterSeconds: 7e-4,
    senses: "own output",
    stuck: [null, null, null],
  },
  harness: {
    bplusOhms: 0.011,
    groundOhms: 0.0055,
    statorSideOhms: [0, 0, 0],
    phaseOhms: [0.006, 0.006, 0.006],
    leadOpen: [false, false, false],
  },
  battery: {
    ocvVolts: 12.6,
    ohms: 0.012,
    chargeVolts: 0.45,
    chargeAmps: 0.1,
    dischargeVolts: 0.1,
    dischargeAmps: 0.25,
  },
};

export const WARM: Conditions = { rpm: 4000, loadAmps: 12, statorCelsius: 90, regulatorCelsius: 65 };

/** The same machine with some parts changed. */
export function machineWith(change: {
  alternator?: Partial<Alternator>;
  regulator?: Partial<Regulator>;
  battery?: Partial<Battery>;
  bridge?: Partial<ChargingSystem["bridge"]>;
  harness?: Partial<ChargingSystem["harness"]>;
}): ChargingSystem {
  return {
    alternator: { ...MACHINE.alternator, ...change.alternator },
    bridge: { ...MACHINE.bridge, ...change.bridge },
    regulator: { ...MACHINE.regulator, ...change.regulator },
    harness: { ...MACHINE.harness, ...change.harness },
    battery: { ...MACHINE.battery, ...change.battery },
  };
}

/** Diodes, leads and battery without losses of their own: what textbooks draw. */
export function textbookCircuit(change: {
  alternator: Partial<Alternator>;
  volts: number;
  seriesOhms?: number;
  upperOpen?: boolean;
  leadOpen?: boolean;
}): ChargingSystem {
  return {
    alternator: { ...MACHINE.alternator, harmonic5: 0, harmonic7: 0, ...change.alternator },
    bridge: {
      upper: change.upperOpen ? ["open", "ok", "ok"] : ["ok", "ok", "ok"],
      lower: ["ok", "ok", "ok"],
      legOpen: [false, false, false],
      shortOhms: 0.001,
      diode: { saturationAmps: 1e-6, ideality: 0.01, seriesOhms: 0 },
    },
    regulator: { ...MACHINE.regulator, kind: "none" },
    harness: {
      bplusOhms: change.seriesOhms ?? 0,
      groundOhms: 0,
      statorSideOhms: [0, 0, 0],
      phaseOhms: [0, 0, 0],
      leadOpen: [change.leadOpen ?? false, false, false],
    },
    battery: {
      ocvVolts: change.volts,
      ohms: 0,
      chargeVolts: 1e-9,
      chargeAmps: 1,
      dischargeVolts: 1e-9,
      dischargeAmps: 1,
    },
  };
}
