import type { FaultId } from "../../core/diagnosis/faults";
import type { Battery, ChargingSystem, Triple } from "../../core/circuit/types";
import { REST_TABLES } from "../../core/battery/rest-tables";
import type { Machine } from "./machine";
import type { Random } from "./random";

/** One machine with its fault: the true state that the meters then read. */
export interface Specimen {
  readonly machine: Machine;
  readonly faults: readonly FaultId[];
  /** Which way and how far: names the hypothesis that it is fitted to. */
  readonly variant: string;
  /** State of charge as it came in [1]. */
  readonly charge: number;
  readonly system: ChargingSystem;
  /** At test speed, where it differs (a joint that opens with heat). */
  readonly hotSystem: ChargingSystem;
  readonly loadAmps: number;
  readonly drawMilliamps: number;
  /** Battery resistance at its charge and temperature, and charged [Ω]. */
  readonly batteryOhms: number;
  readonly chargedOhms: number;
  readonly cellLost: number;
  /** Shown at the winding resistances: factor on each pair of the sound resistance, added ohms; Infinity where open. */
  readonly pairOhms: Triple<number>;
  readonly groundOhms: number;
  readonly rectifier: {
    readonly upper: Triple<"ok" | "open" | "short">;
    readonly lower: Triple<"ok" | "open" | "short">;
    readonly masked: boolean;
  };
}

interface Draft {
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

/** Which kind of regulator a fault needs; the others take any. */
export const NEEDS_REGULATOR: Readonly<Partial<Record<FaultId, "shunt" | "series">>> = {
  "regulator-shunt-stuck-one-phase": "shunt",
  "regulator-shunt-stuck-all-phases": "shunt",
  "regulator-series-no-fire": "series",
};

type Apply = (d: Draft, r: Random) => void;

/** What each fault does to the parts; sizes are physical guesses with wide spreads, not fits. */
const APPLY: Readonly<Record<FaultId, Apply>> = {
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

/** Puts the faults into the machine and works out what follows for every part. */
export function specimen(machine: Machine, faults: readonly FaultId[], random: Random): Specimen {
  const d: Draft = {
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
  for (const fault of faults) APPLY[fault](d, random);
  const batteryOhms = batteryResistance(machine, d.charge) * d.ohmsFactor;
  const build = (hot: boolean): ChargingSystem => ({
    alternator: {
      kind: "three-phase",
      connection: machine.connection,
      emfPerKrpm: machine.emfPerKrpm,
      emfScale: d.emfScale,
      harmonic5: machine.harmonic5,
      harmonic7: machine.harmonic7,
      windingOhms: machine.wyeOhms * (machine.connection === "delta" ? 3 : 1),
      windingHenry: machine.wyeHenry * (machine.connection === "delta" ? 3 : 1),
      polePairs: machine.polePairs,
      windingOpen: triple(d.windingOpen),
      ...(d.turnShort ? { turnShort: d.turnShort } : {}),
      ...(d.groundLeak ? { groundLeak: d.groundLeak } : {}),
    },
    bridge: {
      upper: triple(d.upper),
      lower: triple(d.lower),
      legOpen: triple(d.legOpen),
      shortOhms: d.shortOhms,
      diode: machine.diode,
    },
    regulator: {
      kind: machine.regulator,
      setVolts: d.setVolts,
      voltsPerC: machine.voltsPerC,
      hysteresisHalfVolts: machine.hysteresisHalfVolts,
      filterSeconds: machine.filterSeconds,
      senses: machine.senses,
      stuck: triple(d.stuck),
    },
    harness: {
      bplusOhms: machine.bplusOhms + d.bplus + (hot ? d.hotBplus : 0),
      groundOhms: machine.groundOhms + d.ground + (hot ? d.hotGround : 0),
      statorSideOhms: triple(d.statorSide),
      phaseOhms: triple(machine.phaseOhms.map((o, i) => o + d.plugSide[i]!)),
      leadOpen: triple(d.leadOpen),
    },
    battery: batteryOf(machine, d, batteryOhms),
  });
  return {
    machine,
    faults,
    variant: d.variant,
    charge: d.charge,
    system: build(false),
    hotSystem: build(true),
    loadAmps: d.load,
    drawMilliamps: d.draw,
    batteryOhms,
    chargedOhms: batteryResistance(machine, 0.97) * d.ohmsFactor,
    cellLost: d.cellLost,
    pairOhms: pairOhms(machine, d),
    groundOhms: d.groundLeak ? d.groundLeak.ohms : Number.POSITIVE_INFINITY,
    rectifier: {
      upper: triple(d.upper.map((s, i) => (d.legOpen[i] ? "open" : s))),
      lower: triple(d.lower.map((s, i) => (d.legOpen[i] ? "open" : s))),
      masked: d.masked,
    },
  };
}

function triple<T>(list: readonly T[]): Triple<T> {
  return [list[0]!, list[1]!, list[2]!];
}

/** Resistance grows as the battery empties and cools: a third to a half more when empty, 0.8 % a degree. */
function batteryResistance(machine: Machine, charge: number): number {
  const cold = 1 + 0.008 * (25 - machine.ambient);
  return machine.batteryOhms * Math.max(cold, 0.7) * (1 + 0.5 * (1 - charge));
}

export function restVolts(type: Machine["batteryType"], charge: number): number {
  const rows = REST_TABLES[type].rows;
  for (let i = 1; i < rows.length; i++) {
    const [v1, c1] = rows[i]!;
    const [v0, c0] = rows[i - 1]!;
    if (charge <= c1 || i === rows.length - 1) return v0 + ((v1 - v0) * (charge - c0)) / (c1 - c0);
  }
  return rows.at(-1)![0];
}

function batteryOf(machine: Machine, d: Draft, ohms: number): Battery {
  const { capacity, acceptance } = machine;
  const lithium = machine.batteryType === "lithium";
  const cells = d.cellLost > 0 ? (lithium ? 3 / 4 : 5 / 6) : 1;
  // Acceptance falls as the battery fills: the asinh law with its knee at some percent of capacity.
  const knee = Math.max(0.0015, (0.03 - 0.0275 * d.charge) * (lithium ? 3 : 1)) * capacity * acceptance * d.acceptance;
  return {
    ocvVolts: restVolts(machine.batteryType, d.charge) - (lithium ? d.cellLost * 1.6 : d.cellLost),
    ohms,
    chargeVolts: (lithium ? 0.15 : 0.45) * cells,
    chargeAmps: knee,
    dischargeVolts: (lithium ? 0.05 : 0.1) * cells,
    dischargeAmps: 0.0175 * capacity * Math.max(0.25, d.acceptance),
  };
}

/** Line-to-line at the plug, 20 °C. */
function pairOhms(machine: Machine, d: Draft): Triple<number> {
  const delta = machine.connection === "delta";
  const winding = [0, 1, 2].map((k) => {
    if (d.windingOpen[k]) return Number.POSITIVE_INFINITY;
    const lost = d.turnShort?.winding === k ? d.turnShort.teethShare * d.turnShort.turnShare : 0;
    return machine.wyeOhms * (delta ? 3 : 1) * (1 - lost);
  });
  const lead = [0, 1, 2].map((k) => (d.leadOpen[k] ? Number.POSITIVE_INFINITY : d.statorSide[k]!));
  return triple(
    [0, 1, 2].map((k) => {
      const next = (k + 1) % 3;
      const inside = delta
        ? parallel(winding[k]!, winding[next]! + winding[(k + 2) % 3]!)
        : winding[k]! + winding[next]!;
      return inside + lead[k]! + lead[next]!;
    }),
  );
}

function parallel(a: number, b: number): number {
  if (!Number.isFinite(a)) return b;
  if (!Number.isFinite(b)) return a;
  return (a * b) / (a + b);
}
