import type { FaultId } from "../../core/diagnosis/faults";
import type { ChargingSystem, Triple } from "../../core/circuit/types";
import { batteryOf, batteryResistance } from "./battery-state";
import type { Machine } from "./machine";
import { APPLY, soundDraft, type Draft } from "./put-in-faults";
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

/** Puts the faults into the machine and works out what follows for every part. */
export function specimen(machine: Machine, faults: readonly FaultId[], random: Random): Specimen {
  const d = soundDraft(machine, random);
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
