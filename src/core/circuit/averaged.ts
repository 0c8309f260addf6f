import { batteryAlone, dcState, fallingRoot, type DcState } from "./dc-side";
import { isBalanced, lineSource, type LineSource } from "./phase-source";
import { sixStep, type SixStep } from "./six-step";
import type { ChargingSystem, Conditions } from "./types";

/** A balanced machine's steady state without its regulator, from the six-step closed form. */
export interface Unregulated extends DcState {
  /** True where the closed form holds; where false its numbers are a first guess only. */
  readonly valid: boolean;
  /** Absent where nothing conducts. */
  readonly wave?: SixStep;
  readonly source?: LineSource;
}

const STRONGER = 20;
/** Below this drop a device carries microamperes only [V]. */
const CONDUCTS_FROM_VOLTS = 0.3;

/**
 * What the machine gives with the regulator taken away. Unbalanced systems get the answer of their
 * balanced sister with `valid` false.
 */
export function unregulated(system: ChargingSystem, at: Conditions): Unregulated {
  const alone = batteryAlone(system, at);
  const idle = lineSource(system, at, 0);
  const reach = idle.phases === 3 ? Math.sqrt(3) : 1;
  const peak = reach * idle.peakVolts * (1 + Math.abs(idle.harmonic5) + Math.abs(idle.harmonic7));
  const balanced = isBalanced(system);
  if (peak < alone.regulatorVolts + 2 * CONDUCTS_FROM_VOLTS) return { ...alone, valid: balanced };
  const solve = (amps: number) => {
    const dc = dcState(system, at, amps);
    const source = lineSource(system, at, Math.max(dc.rectifierAmps, 0.05));
    const wave = sixStep(source, dc.regulatorVolts + 2 * source.deviceVolts);
    return { dc, source, wave };
  };
  const given = (amps: number) => {
    const { dc, wave } = solve(amps);
    return (Number.isFinite(wave.amps) ? Math.max(wave.amps, 0) : 0) - dc.rectifierAmps;
  };
  const most = (1.1 * 3 * idle.peakVolts) / Math.hypot(idle.ohms, idle.reactance) + 1;
  const upTo = (amps: number) => fallingRoot(given, alone.batteryAmps, alone.batteryAmps + amps, 1e-5);
  // Diodes that hardly conduct make a strong machine look weaker than it is.
  const root = upTo(most) ?? upTo(STRONGER * most);
  if (root === null) return { ...alone, valid: false };
  const { dc, source, wave } = solve(root);
  return { ...dc, source, wave, valid: balanced && wave.valid };
}
