import type { PieceTable } from "./device-pieces";
import type { Stage } from "./stage";

const MOST_ITERATIONS = 80;

/** Finds terminal voltages, B+ and output current of a stage; false where the pieces find no rest. */
export type BridgeSolver = (y: Float64Array, stage: Stage) => boolean;

/**
 * The bridge between the coils' admittance `y` and the DC side: each device works on one straight piece
 * of its law, so a choice of pieces is a linear system; it is the answer when every voltage lies on its piece.
 *
 * @param pieces - The piece of each device; the pieces of the stage before are tried first
 * @param dcOhms - From B+ through battery and runs back to the regulator's ground [Ω]
 * @param minusOhms - The part of it that a leak's current flows through too [Ω]
 */
export function bridgeSolver(table: PieceTable, pieces: Int32Array, dcOhms: number, minusOhms: number): BridgeSolver {
  const { low, high, slope, offset } = table;
  return solve;

  function solve(y: Float64Array, stage: Stage): boolean {
    const source = stage.source + minusOhms * stage.leak;
    const j0 = stage.inflow[0]!;
    const j1 = stage.inflow[1]!;
    const j2 = stage.inflow[2]!;
    const y00 = y[0]!;
    const y01 = y[1]!;
    const y02 = y[2]!;
    const y11 = y[4]!;
    const y12 = y[5]!;
    const y22 = y[8]!;
    for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
      const u0 = pieces[0]!;
      const u1 = pieces[1]!;
      const u2 = pieces[2]!;
      const l0 = pieces[3]!;
      const l1 = pieces[4]!;
      const l2 = pieces[5]!;
      const s0 = pieces[6]!;
      const s1 = pieces[7]!;
      const s2 = pieces[8]!;
      const g0 = slope[u0]!;
      const g1 = slope[u1]!;
      const g2 = slope[u2]!;
      const c0 = offset[u0]!;
      const c1 = offset[u1]!;
      const c2 = offset[u2]!;
      // B+ eliminated: V+ = drive + kappa·Σ g·v.
      const share = 1 / (1 + dcOhms * (g0 + g1 + g2));
      const kappa = dcOhms * share;
      const drive = source * share - kappa * (c0 + c1 + c2);
      const k0 = g0 * kappa;
      const k1 = g1 * kappa;
      const a00 = y00 + g0 + slope[l0]! + slope[s0]! - k0 * g0;
      const a01 = y01 - k0 * g1;
      const a02 = y02 - k0 * g2;
      const a11 = y11 + g1 + slope[l1]! + slope[s1]! - k1 * g1;
      const a12 = y12 - k1 * g2;
      const a22 = y22 + g2 + slope[l2]! + slope[s2]! - g2 * kappa * g2;
      const r0 = j0 + c0 - offset[l0]! + offset[s0]! + g0 * drive;
      const r1 = j1 + c1 - offset[l1]! + offset[s1]! + g1 * drive;
      const r2 = j2 + c2 - offset[l2]! + offset[s2]! + g2 * drive;
      // LDLᵀ of the symmetric system.
      const m10 = a01 / a00;
      const m20 = a02 / a00;
      const d1 = a11 - m10 * a01;
      const n21 = a12 - m10 * a02;
      const m21 = n21 / d1;
      const d2 = a22 - m20 * a02 - m21 * n21;
      const z1 = r1 - m10 * r0;
      const v2 = (r2 - m20 * r0 - m21 * z1) / d2;
      const v1 = z1 / d1 - m21 * v2;
      const v0 = r0 / a00 - m10 * v1 - m20 * v2;
      const plus = drive + kappa * (g0 * v0 + g1 * v1 + g2 * v2);
      // Rarely the pieces go in a circle; then each may move by one only.
      const far = iteration > 15 ? 1 : 32;
      let moved = 0;
      let x = v0 - plus;
      if (x < low[u0]! || x >= high[u0]!) moved |= move(0, x, far);
      x = v1 - plus;
      if (x < low[u1]! || x >= high[u1]!) moved |= move(1, x, far);
      x = v2 - plus;
      if (x < low[u2]! || x >= high[u2]!) moved |= move(2, x, far);
      if (-v0 < low[l0]! || -v0 >= high[l0]!) moved |= move(3, -v0, far);
      if (-v1 < low[l1]! || -v1 >= high[l1]!) moved |= move(4, -v1, far);
      if (-v2 < low[l2]! || -v2 >= high[l2]!) moved |= move(5, -v2, far);
      if (v0 < low[s0]! || v0 >= high[s0]!) moved |= move(6, v0, far);
      if (v1 < low[s1]! || v1 >= high[s1]!) moved |= move(7, v1, far);
      if (v2 < low[s2]! || v2 >= high[s2]!) moved |= move(8, v2, far);
      if (moved === 0) {
        stage.volts[0] = v0;
        stage.volts[1] = v1;
        stage.volts[2] = v2;
        stage.plus = plus;
        stage.output = g0 * (v0 - plus) - c0 + g1 * (v1 - plus) - c1 + g2 * (v2 - plus) - c2;
        return true;
      }
    }
    return false;
  }

  /** Puts a device onto the piece its voltage lies on, at most `far` pieces away. */
  function move(device: number, volts: number, far: number): number {
    const was = pieces[device]!;
    let to = was;
    while (volts < low[to]! && was - to < far) to--;
    while (volts >= high[to]! && to - was < far) to++;
    pieces[device] = to;
    return to === was ? 0 : 1;
  }
}
