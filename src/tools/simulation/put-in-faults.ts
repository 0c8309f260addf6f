import type { FaultId } from "../../core/diagnosis/faults";
import type { ChargingSystem } from "../../core/circuit/types";
import type { Machine } from "./machine";
import type { Random } from "./random";

/** The state of a machine's parts while faults are put into it. */
export interface Draft {
  machine: Machine;
  variant: string;
  charge: number;
  upper: ("ok" | "open" | "short")[];
  lower: ("ok" | "open" | "short")[];
  legOpen: boolean[];
  masked: boolean;
  shortOhms: number;
  stuck: ("on" | "off" | null)[];
  setVolts: number;
  emfScale: number;
  windingOpen: boolean[];
  leadOpen: boolean[];
  turnShort?: NonNullable<ChargingSystem["alternator"]["turnShort"]>;
  groundLeak?: NonNullable<ChargingSystem["alternator"]["groundLeak"]>;
  bplus: number;
  ground: number;
  hotBplus: number;
  hotGround: number;
  plugSide: number[];
  statorSide: number[];
  load: number;
  draw: number;
  ohmsFactor: number;
  acceptance: number;
  cellLost: number;
}

/** Every part in order, at some state of charge. */
export function soundDraft(machine: Machine, random: Random): Draft {
  return {
    machine,
    variant: "",
    charge: random.between(0.15, 1),
    upper: ["ok", "ok", "ok"],
    lower: ["ok", "ok", "ok"],
    legOpen: [false, false, false],
    masked: false,
    shortOhms: 0.01,
    stuck: [null, null, null],
    setVolts: machine.setVolts,
    emfScale: 1,
    windingOpen: [false, false, false],
    leadOpen: [false, false, false],
    bplus: 0,
    ground: 0,
    hotBplus: 0,
    hotGround: 0,
    plugSide: [0, 0, 0],
    statorSide: [0, 0, 0],
    load: machine.loadAmps,
    draw: machine.drawMilliamps,
    ohmsFactor: 1,
    acceptance: 1,
    cellLost: 0,
  };
}

/** Which kind of regulator a fault needs; the others take any. */
export const NEEDS_REGULATOR: Readonly<Partial<Record<FaultId, "shunt" | "series">>> = {
  "regulator-shunt-stuck-one-phase": "shunt",
  "regulator-shunt-stuck-all-phases": "shunt",
  "regulator-series-no-fire": "series",
};

type Apply = (d: Draft, r: Random) => void;

/** What each fault does to the parts; sizes are physical guesses with wide spreads, not fits. */
export const APPLY: Readonly<Record<FaultId, Apply>> = {
  healthy: (d, r) => {
    d.charge = r.between(0.72, 1);
  },
  "battery-sulfated": (d, r) => {
    // A weak battery by its own rating: from where half the cold cranking amps take over 2.7 V away.
    d.ohmsFactor = r.logBetween(5.5, 26) / (d.machine.batteryOhms * d.machine.cca);
    d.acceptance = r.between(0.12, 0.35);
    d.charge = r.between(0.3, 0.9);
  },
  "battery-shorted-cell": (d, r) => {
    d.cellLost = r.between(1.8, 2.12);
    d.charge = r.between(0.35, 0.9);
  },
  "parasitic-drain": (d, r) => {
    d.draw = r.logBetween(Math.max(2 * d.machine.drawLimit, 40), 1500);
    d.charge = r.between(0.1, 0.85);
  },
  "regulator-leaks": (d, r) => {
    // Read as a draw only: the job files hold no reading of the unplugged unit to ground.
    d.draw = r.logBetween(Math.max(2 * d.machine.drawLimit, 40), 1500);
    d.charge = r.between(0.1, 0.85);
  },
  "excessive-load": (d, r) => {
    d.load += (d.machine.ratedWatts / 14) * r.between(0.38, 0.9);
  },
  "regulator-overcharge": (d, r) => {
    d.charge = r.between(0.85, 1);
    if (r.chance(0.65)) d.stuck = Array(3).fill(d.machine.regulator === "shunt" ? "off" : "on");
    else d.setVolts += r.between(0.9, 2.5);
  },
  "regulator-shunt-stuck-one-phase": (d, r) => {
    d.stuck[r.integer(0, 2)] = "on";
  },
  "regulator-shunt-stuck-all-phases": (d) => {
    d.stuck = ["on", "on", "on"];
  },
  "regulator-series-no-fire": (d) => {
    d.stuck = ["off", "off", "off"];
  },
  "diode-open": (d, r) => {
    const k = r.integer(0, 2);
    if (r.chance(0.5)) {
      d.variant = "lower";
      d.lower[k] = "open";
    } else {
      d.variant = "upper";
      d.upper[k] = "open";
      if (d.machine.bridge === "parallel path" && r.chance(0.15)) {
        d.variant = "masked";
        d.masked = true;
      }
    }
  },
  "diode-shorted": (d, r) => {
    d.shortOhms = r.logBetween(0.003, 0.025);
    const upper = r.chance(0.5);
    d.variant = upper ? "upper" : "lower";
    (upper ? d.upper : d.lower)[r.integer(0, 2)] = "short";
  },
  "diode-leg-open": (d, r) => {
    d.legOpen[r.integer(0, 2)] = true;
  },
  "stator-turns-shorted": (d, r) => {
    const teeth = r.integer(4, 8);
    const damaged = r.integer(1, 3);
    d.turnShort = {
      winding: r.integer(0, 2) as 0 | 1 | 2,
      teethShare: Math.min(0.9, damaged / teeth),
      turnShare: r.between(0.35, 0.97),
      ohms: r.logBetween(0.002, 0.02),
      coupling: r.between(0.8, 0.93),
    };
    const share = d.turnShort.teethShare * d.turnShort.turnShare;
    d.variant = share < 0.1 ? "few" : share < 0.25 ? "some" : "many";
  },
  "stator-phase-open": (d, r) => {
    const k = r.integer(0, 2);
    if (d.machine.connection === "wye" || r.chance(0.5)) {
      d.variant = "lead";
      d.leadOpen[k] = true;
    } else {
      d.variant = "delta-winding";
      d.windingOpen[k] = true;
    }
  },
  "stator-ground-leak": (d, r) => {
    d.groundLeak = {
      winding: r.integer(0, 2) as 0 | 1 | 2,
      position: r.between(0.05, 0.95),
      ohms: r.logBetween(0.5, 1000),
    };
    d.variant = d.groundLeak.ohms < 15 ? "hard" : "soft";
  },
  "rotor-demagnetised": (d, r) => {
    d.emfScale = r.between(0.35, 0.78);
    d.variant = d.emfScale < 0.5 ? "much" : d.emfScale < 0.65 ? "half" : "little";
  },
  "high-resistance-bplus": (d, r) => {
    d.bplus = r.logBetween(1.7, 20) / (d.machine.ratedWatts / 14);
  },
  "high-resistance-ground": (d, r) => {
    d.ground = r.logBetween(1.7, 16) / (d.machine.ratedWatts / 14);
  },
  "high-resistance-phase": (d, r) => {
    const ohms = r.logBetween(4, 34) / (d.machine.ratedWatts / 14);
    const side = r.chance(0.5);
    d.variant = side ? "stator-side" : "regulator-side";
    (side ? d.statorSide : d.plugSide)[r.integer(0, 2)] = ohms;
  },
  "main-fuse-blown": (d) => {
    d.bplus = 2e4;
  },
  "joint-fails-hot": (d, r) => {
    // Cold and at idle it is in order; at test speed it may or may not show on the day.
    if (r.chance(0.5))
      d[r.chance(0.5) ? "hotBplus" : "hotGround"] = r.logBetween(0.8, 10) / (d.machine.ratedWatts / 14);
  },
};
