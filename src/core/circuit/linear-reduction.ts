import { GROUND, type StatorNetwork } from "./stator-network";

/**
 * One implicit time step of a stator network, reduced to the bridge terminals. With the history
 * vector h = e + (L/(γΔt))·i₀ of the coils:
 *
 *   currents into the bridge   J − Y·v,  J = −Sᵀ·h + leakJ·v_frame
 *   coil currents              i = Q·h + S·v + leakI·v_frame
 *   plug voltages              p = P·h + T·v + leakP·v_frame   (only where asked)
 *
 * All matrices are constant for a fixed step, so a step costs a few dozen multiplications.
 */
export interface Reduction {
  readonly coils: number;
  readonly inductance: Float64Array;
  readonly q: Float64Array;
  readonly s: Float64Array;
  readonly y: Float64Array;
  readonly p: Float64Array;
  readonly t: Float64Array;
  readonly leakJ: Float64Array;
  readonly leakI: Float64Array;
  readonly leakP: Float64Array;
  /** Leak voltage above the regulator's ground, minus the frame's, over its ohms: current to the frame. */
  readonly leakH: Float64Array;
  readonly leakT: Float64Array;
  readonly leakSelf: number;
  readonly leakSiemens: number;
}

/**
 * @param network - Coils and resistances
 * @param step - γ·Δt [s]
 */
export function reduce(network: StatorNetwork, step: number): Reduction {
  const n = network.coils.length;
  const m = network.nodes - 3;
  const inductance = new Float64Array(n * n);
  network.coils.forEach((coil, k) => (inductance[k * n + k] = coil.henry / step));
  for (const { first, second, henry } of network.mutual) {
    inductance[first * n + second] = henry / step;
    inductance[second * n + first] = henry / step;
  }
  const impedance = Float64Array.from(inductance);
  network.coils.forEach((coil, k) => (impedance[k * n + k]! += coil.ohms));
  const admittance = invert(impedance, n);
  // Incidence: +1 where a coil delivers its current, −1 where it takes it.
  const incidence = new Float64Array(network.nodes * n);
  network.coils.forEach((coil, k) => {
    if (coil.from !== GROUND) incidence[coil.from * n + k]! += 1;
    if (coil.to !== GROUND) incidence[coil.to * n + k]! -= 1;
  });
  const toNodes = multiply(incidence, admittance, network.nodes, n, n);
  const nodal = multiply(toNodes, transpose(incidence, network.nodes, n), network.nodes, n, network.nodes);
  const size = network.nodes;
  const stamp = (from: number, to: number, siemens: number) => {
    if (from !== GROUND) nodal[from * size + from]! += siemens;
    if (to !== GROUND) nodal[to * size + to]! += siemens;
    if (from !== GROUND && to !== GROUND) {
      nodal[from * size + to]! -= siemens;
      nodal[to * size + from]! -= siemens;
    }
  };
  for (const { from, to, ohms } of network.resistors) stamp(from, to, 1 / ohms);
  for (let k = 3; k < size; k++) stamp(k, GROUND, FLOATING_SIEMENS);
  const leakSiemens = network.leak ? 1 / network.leak.ohms : 0;
  if (network.leak) stamp(network.leak.node, GROUND, leakSiemens);

  // Inner nodes out: v_inner = W·(A_i·M·h + leak) − X·v_terminal.
  const inner = new Float64Array(m * m);
  for (let r = 0; r < m; r++) for (let c = 0; c < m; c++) inner[r * m + c] = nodal[(r + 3) * size + c + 3]!;
  const w = invert(inner, m);
  const coupling = new Float64Array(m * 3);
  for (let r = 0; r < m; r++) for (let c = 0; c < 3; c++) coupling[r * 3 + c] = nodal[(r + 3) * size + c]!;
  const x = multiply(w, coupling, m, m, 3);
  const innerToNodes = toNodes.slice(3 * n);
  const innerH = multiply(w, innerToNodes, m, m, n);
  // Coil currents: i = M·h − M·Aᵀ·v.
  const back = transpose(toNodes, size, n);
  const innerBack = new Float64Array(n * m);
  const outerBack = new Float64Array(n * 3);
  for (let r = 0; r < n; r++) {
    for (let c = 0; c < 3; c++) outerBack[r * 3 + c] = back[r * size + c]!;
    for (let c = 0; c < m; c++) innerBack[r * m + c] = back[r * size + c + 3]!;
  }
  const q = Float64Array.from(admittance);
  subtract(q, multiply(innerBack, innerH, n, m, n));
  const s = multiply(innerBack, x, n, m, 3);
  subtract(s, outerBack);
  const y = new Float64Array(9);
  for (let r = 0; r < 3; r++) for (let c = 0; c < 3; c++) y[r * 3 + c] = nodal[r * size + c]!;
  subtract(y, multiply(transpose(coupling, m, 3), x, 3, m, 3));

  const leakNode = network.leak ? network.leak.node - 3 : -1;
  const leakColumn = new Float64Array(m);
  if (leakNode >= 0) for (let r = 0; r < m; r++) leakColumn[r] = w[r * m + leakNode]! * leakSiemens;
  const p = new Float64Array(3 * n);
  const t = new Float64Array(9);
  const leakP = new Float64Array(3);
  for (let k = 0; k < 3; k++) {
    const row = network.plug[k]! - 3;
    for (let c = 0; c < n; c++) p[k * n + c] = innerH[row * n + c]!;
    for (let c = 0; c < 3; c++) t[k * 3 + c] = -x[row * 3 + c]!;
    leakP[k] = leakColumn[row]!;
  }
  // J gets what the inner nodes pass on: −Y_ti·v_inner, which for the coils is −Sᵀ·h.
  const leakJ = multiply(transpose(coupling, m, 3), leakColumn, 3, m, 1).map((a) => -a);
  const leakI = multiply(innerBack, leakColumn, n, m, 1).map((a) => -a);
  return {
    coils: n,
    inductance,
    q,
    s,
    y,
    p,
    t,
    leakJ,
    leakI,
    leakP,
    leakH: leakNode >= 0 ? innerH.slice(leakNode * n, leakNode * n + n) : new Float64Array(n),
    leakT: leakNode >= 0 ? x.slice(leakNode * 3, leakNode * 3 + 3).map((a) => -a) : new Float64Array(3),
    leakSelf: leakNode >= 0 ? leakColumn[leakNode]! : 0,
    leakSiemens,
  };
}

/** Keeps a node that everything has left solvable [S]. */
const FLOATING_SIEMENS = 1e-9;

function transpose(a: Float64Array, rows: number, columns: number): Float64Array {
  const out = new Float64Array(a.length);
  for (let r = 0; r < rows; r++) for (let c = 0; c < columns; c++) out[c * rows + r] = a[r * columns + c]!;
  return out;
}

function multiply(a: Float64Array, b: Float64Array, rows: number, inner: number, columns: number): Float64Array {
  const out = new Float64Array(rows * columns);
  for (let r = 0; r < rows; r++) {
    for (let k = 0; k < inner; k++) {
      const left = a[r * inner + k]!;
      if (left !== 0) for (let c = 0; c < columns; c++) out[r * columns + c]! += left * b[k * columns + c]!;
    }
  }
  return out;
}

function subtract(a: Float64Array, b: Float64Array): void {
  for (let k = 0; k < a.length; k++) a[k]! -= b[k]!;
}

/** Inverse by elimination with pivoting; these matrices are symmetric and positive definite. */
function invert(matrix: Float64Array, n: number): Float64Array {
  const a = Float64Array.from(matrix);
  const out = new Float64Array(n * n);
  for (let k = 0; k < n; k++) out[k * n + k] = 1;
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(a[r * n + c]!) > Math.abs(a[pivot * n + c]!)) pivot = r;
    if (pivot !== c) {
      for (let k = 0; k < n; k++) {
        [a[c * n + k], a[pivot * n + k]] = [a[pivot * n + k]!, a[c * n + k]!];
        [out[c * n + k], out[pivot * n + k]] = [out[pivot * n + k]!, out[c * n + k]!];
      }
    }
    const scale = 1 / a[c * n + c]!;
    for (let k = 0; k < n; k++) {
      a[c * n + k]! *= scale;
      out[c * n + k]! *= scale;
    }
    for (let r = 0; r < n; r++) {
      const factor = a[r * n + c]!;
      if (r === c || factor === 0) continue;
      for (let k = 0; k < n; k++) {
        a[r * n + k]! -= factor * a[c * n + k]!;
        out[r * n + k]! -= factor * out[c * n + k]!;
      }
    }
  }
  return out;
}
