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
  for (const part of steps) pushed = pushed * decay + gain * part * dcVolts;
  const start = -pushed / (1 + decay ** steps.length);
  const orders = [1, 5, 7] as const;
  const parts = [1, source.harmonic5, source.harmonic7];
  const size = orders.map((n, k) => (parts[k]! * source.peakVolts) / Math.hypot(r, n * x));
  const lag = orders.map((n) => Math.atan2(n * x, r));
  const sine = (at: number) => orders.reduce((sum, n, k) => sum + size[k]! * Math.sin(n * at - lag[k]!), 0);
  const slope = (at: number) => orders.reduce((sum, n, k) => sum + n * size[k]! * Math.cos(n * at - lag[k]!), 0);

  // Zero of the whole current, starting from the fundamental's own.
  let angle = lag[0]! + Math.asin(Math.max(-1, Math.min(1, start / size[0]!)));
  for (let k = 0; k < 6; k++) angle -= (sine(angle) - start) / Math.max(slope(angle), 0.05 * size[0]!);
  const emf = orders.reduce((sum, n, k) => sum + parts[k]! * source.peakVolts * Math.sin(n * angle), 0);
  const crosses = Math.abs(sine(angle) - start) < 1e-6 * size[0]!;
  const valid = crosses && emf > steps[0] * dcVolts;

  const sineArea = orders.reduce((sum, n, k) => sum + ((2 * size[k]!) / n) * Math.cos(n * angle - lag[k]!), 0);
  const stepVolts = steps.reduce((sum, part) => sum + part * dcVolts * width, 0);
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
