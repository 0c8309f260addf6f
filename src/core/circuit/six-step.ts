/**
 * Exact periodic currents of a balanced machine that feeds a stiff DC voltage through a bridge in
 * continuous (180°) conduction, resistance included. The bridge puts a six-step voltage (three
 * phases) or a square wave (one phase) on the winding; sine and step responses are both known in
 * closed form, and the current of a phase is zero where its voltage flips.
 *
 * @source caliskan2003 (constant-voltage-load rectifier; the fundamental-only form of the same model)
 */
export interface SixStep {
  /** Mean of the rectified current [A]. */
  readonly amps: number;
  /** True where the current really flows all the time: the emf exceeds the step it switches into. */
  readonly valid: boolean;
  /** Electrical angle at which phase A starts to conduct [rad]. */
  readonly angle: number;
  /** Current of phase A at an angle after that, 0 to π [A]. */
  readonly currentAt: (angle: number) => number;
}

/** One phase of the machine as its line sees it (wye equivalent; the whole winding of a one-phase machine). */
export interface PhaseSource {
  readonly phases: 1 | 3;
  /** Peak of the emf's fundamental [V]; fifth and seventh as parts of it. */
  readonly peakVolts: number;
  readonly harmonic5: number;
  readonly harmonic7: number;
  readonly ohms: number;
  /** Reactance at the fundamental [Ω]. */
  readonly reactance: number;
}

/** Steps of the bridge's voltage over half a period, parts of the DC voltage. */
const STEPS = { 3: [1 / 3, 2 / 3, 1 / 3], 1: [1] } as const;

/**
 * @param source - The machine's phase
 * @param dcVolts - Voltage between the rails plus the constant part of both devices' drops [V], above 0
 */
export function sixStep(source: PhaseSource, dcVolts: number): SixStep {
  const x = source.reactance;
  const r = Math.max(source.ohms, 1e-6 * x);
  const steps = STEPS[source.phases];
  const width = Math.PI / steps.length;
  const decay = Math.exp((-r / x) * width);
  const gain = -Math.expm1((-r / x) * width) / r;
  // Response to the steps alone: half-wave antisymmetric, so its start follows from its end.
  let pushed = 0;
  let stepVolts = 0;
  for (const part of steps) {
    pushed = pushed * decay + gain * part * dcVolts;
    stepVolts += part * dcVolts * width;
  }
  const start = -pushed / (1 + decay ** steps.length);
  // Response to the emf: three sines, written out because this is the inner loop of every curve.
  const v1 = source.peakVolts;
  const v5 = source.harmonic5 * v1;
  const v7 = source.harmonic7 * v1;
  const i1 = v1 / Math.hypot(r, x);
  const i5 = v5 / Math.hypot(r, 5 * x);
  const i7 = v7 / Math.hypot(r, 7 * x);
  const l1 = Math.atan2(x, r);
  const l5 = Math.atan2(5 * x, r);
  const l7 = Math.atan2(7 * x, r);
  const sine = (at: number) => i1 * Math.sin(at - l1) + i5 * Math.sin(5 * at - l5) + i7 * Math.sin(7 * at - l7);

  // Zero of the whole current, starting from the fundamental's own.
  let angle = l1 + Math.asin(Math.max(-1, Math.min(1, start / i1)));
  let excess = sine(angle) - start;
  for (let k = 0; k < 8 && Math.abs(excess) > 1e-9 * i1; k++) {
    const slope = i1 * Math.cos(angle - l1) + 5 * i5 * Math.cos(5 * angle - l5) + 7 * i7 * Math.cos(7 * angle - l7);
    angle -= excess / Math.max(slope, 0.05 * i1);
    excess = sine(angle) - start;
  }
  const emf = v1 * Math.sin(angle) + v5 * Math.sin(5 * angle) + v7 * Math.sin(7 * angle);
  const valid = Math.abs(excess) < 1e-6 * i1 && emf > steps[0] * dcVolts;
  const sineArea =
    2 * (i1 * Math.cos(angle - l1) + (i5 / 5) * Math.cos(5 * angle - l5) + (i7 / 7) * Math.cos(7 * angle - l7));
  const stepArea = (stepVolts + 2 * x * start) / r;
  const amps = (source.phases === 3 ? 3 : 2) * ((sineArea - stepArea) / (2 * Math.PI));
  const currentAt = (after: number) => {
    let response = start;
    let left = after;
    for (const part of steps) {
      const span = Math.min(left, width);
      response = response * Math.exp((-r / x) * span) - (Math.expm1((-r / x) * span) / r) * part * dcVolts;
      left -= span;
      if (left <= 0) break;
    }
    return sine(angle + after) - response;
  };
  return { amps, valid, angle, currentAt };
}
