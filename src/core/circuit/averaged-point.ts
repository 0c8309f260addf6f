import type { Unregulated } from "./averaged";
import { polarization } from "./battery-law";
import { diodeAt, dropAt } from "./diode-law";
import { COPPER_PER_C } from "./stator-network";
import type { ChargingSystem, Conditions, OperatingPoint, Triple } from "./types";

/** Angles over one period at which the closed form's waveforms are summed. */
const ANGLES = 48;
const NO_WAVE: Triple<number> = [0, 0, 0];

/** The whole operating point from a closed-form answer: waveforms are known, so means and rms follow. */
export function averagedPoint(system: ChargingSystem, at: Conditions, answer: Unregulated): OperatingPoint {
  const { battery, harness, alternator } = system;
  const hertz = (at.rpm / 60) * alternator.polePairs;
  const postShare = 1 / (1 + (battery.ohms * at.loadAmps) / 13.5);
  const wave = answer.wave ? waveform(system, at, answer) : null;
  const acAmps = wave?.acAmps ?? 0;
  const rippleVoltsRms = battery.ohms * postShare * acAmps;
  const pulses = answer.source?.phases === 1 ? 2 : 6;
  return {
    model: "averaged",
    batteryVolts: answer.batteryVolts,
    batteryAmps: answer.batteryAmps,
    rippleVoltsRms,
    batteryAmpsAcRms: postShare * acAmps,
    rippleLines: rippleVoltsRms > 1e-5 ? [{ hertz: pulses * hertz, voltsRms: rippleVoltsRms }] : [],
    rectifierAmps: answer.rectifierAmps,
    phaseAmpsRms: wave?.phaseAmps ?? NO_WAVE,
    lineVoltsRms: wave?.lineVolts ?? openLineVolts(system, at),
    regulatorDuty: 0,
    regulatorVolts: answer.regulatorVolts,
    bplusDropVolts: harness.bplusOhms * answer.rectifierAmps,
    groundDropVolts: harness.groundOhms * answer.rectifierAmps,
    regulatorWatts: wave?.bridgeWatts ?? 0,
    statorWatts: wave?.statorWatts ?? 0,
    polarizationVolts: polarization(battery, answer.batteryAmps),
    hertz,
    driftAmps: 0,
    settled: true,
  };
}

interface Waveform {
  readonly acAmps: number;
  readonly phaseAmps: Triple<number>;
  readonly lineVolts: Triple<number>;
  readonly bridgeWatts: number;
  readonly statorWatts: number;
}

function waveform(system: ChargingSystem, at: Conditions, answer: Unregulated): Waveform {
  const { alternator, bridge, harness } = system;
  const wave = answer.wave!;
  const single = answer.source!.phases === 1;
  const diode = diodeAt(bridge.diode, at.regulatorCelsius);
  const along = (angle: number) => {
    const turn = ((angle % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
    return turn < Math.PI ? wave.currentAt(turn) : -wave.currentAt(turn - Math.PI);
  };
  let dc = 0;
  let dc2 = 0;
  let phase2 = 0;
  let bridgeWatts = 0;
  const line2 = [0, 0, 0];
  for (let k = 0; k < ANGLES; k++) {
    const angle = (2 * Math.PI * (k + 0.5)) / ANGLES;
    const amps = single ? [along(angle), -along(angle), 0] : [0, 1, 2].map((p) => along(angle - (2 * Math.PI * p) / 3));
    const drops = amps.map((i) => dropAt(diode, Math.abs(i)));
    const plug = amps.map(
      (i, p) => (i > 0 ? answer.regulatorVolts + drops[p]! : -drops[p]!) + harness.phaseOhms[p]! * i,
    );
    const out = amps.reduce((sum, i) => sum + Math.max(i, 0), 0);
    dc += out / ANGLES;
    dc2 += (out * out) / ANGLES;
    phase2 += (amps[0]! * amps[0]!) / ANGLES;
    bridgeWatts += amps.reduce((sum, i, p) => sum + (single && p === 2 ? 0 : Math.abs(i) * drops[p]!), 0) / ANGLES;
    for (let p = 0; p < 3; p++) line2[p]! += (plug[p]! - plug[(p + 1) % 3]!) ** 2 / ANGLES;
  }
  const phase = Math.sqrt(phase2);
  const hot = alternator.windingOhms * (1 + COPPER_PER_C * (at.statorCelsius - 20));
  const winding = single ? hot * phase2 : 3 * phase2 * (alternator.connection === "delta" ? hot / 3 : hot);
  return {
    acAmps: Math.sqrt(Math.max(0, dc2 - dc * dc)),
    phaseAmps: single ? [phase, phase, 0] : [phase, phase, phase],
    lineVolts: single
      ? [Math.sqrt(line2[0]!), 0, 0]
      : [Math.sqrt(line2[0]!), Math.sqrt(line2[1]!), Math.sqrt(line2[2]!)],
    bridgeWatts,
    statorWatts: winding,
  };
}

/** Line voltages where nothing conducts: the emf itself. */
function openLineVolts({ alternator }: ChargingSystem, at: Conditions): Triple<number> {
  const single = alternator.kind === "single-phase full-wave" || alternator.kind === "single-phase half-wave";
  const volts =
    ((alternator.emfPerKrpm * alternator.emfScale * at.rpm) / 1000) *
    Math.hypot(1, alternator.harmonic5, alternator.harmonic7);
  return single ? [volts, 0, 0] : [volts, volts, volts];
}
