import { STEPS } from "./emf-table";
import type { RippleLine } from "./types";

/** Volts sampled `STEPS` times a period over whole periods. */
export interface Waveform {
  readonly samples: Float64Array;
  /** Whether they are one whole turn of what repeats for ever. */
  readonly repeats: boolean;
}

/**
 * Strongest lines of a waveform.
 *
 * @param hertz - Electrical frequency [Hz]
 * @param count - Lines wanted
 * @returns Lines above 2 % of the strongest, strongest first
 */
export function rippleLines({ samples, repeats }: Waveform, hertz: number, count: number): RippleLine[] {
  const n = samples.length;
  const perBin = (hertz * STEPS) / n;
  const re = Float64Array.from(samples);
  const im = new Float64Array(n);
  transform(re, im);
  // Up to 18 times the electrical frequency: beyond it the time step shapes the waveform.
  const last = Math.min(n >> 1, Math.round((18 * n) / STEPS));
  const size = new Float64Array(last + 2);
  for (let k = 1; k <= last; k++) size[k] = (Math.SQRT2 * Math.hypot(re[k]!, im[k]!)) / n;
  const peaks: RippleLine[] = [];
  // Over one turn of a rhythm every bin is a line of its own; else a line stands above its neighbours.
  for (let k = 1; k <= last; k++) {
    if (repeats || (size[k]! > size[k - 1]! && size[k]! >= size[k + 1]!))
      peaks.push({ hertz: k * perBin, voltsRms: size[k]! });
  }
  peaks.sort((a, b) => b.voltsRms - a.voltsRms);
  const least = Math.max(0.02 * (peaks[0]?.voltsRms ?? 0), 1e-5);
  return peaks.filter((line) => line.voltsRms >= least).slice(0, count);
}

/** Discrete Fourier transform in place: halves while the length is even, plain sums for the odd rest. */
function transform(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  if (n % 2 === 1) {
    const outRe = new Float64Array(n);
    const outIm = new Float64Array(n);
    for (let k = 0; k < n; k++) {
      for (let j = 0; j < n; j++) {
        const angle = (-2 * Math.PI * ((j * k) % n)) / n;
        outRe[k]! += re[j]! * Math.cos(angle) - im[j]! * Math.sin(angle);
        outIm[k]! += re[j]! * Math.sin(angle) + im[j]! * Math.cos(angle);
      }
    }
    re.set(outRe);
    im.set(outIm);
    return;
  }
  const half = n / 2;
  const parts = [0, 1].map((odd) => {
    const partRe = new Float64Array(half);
    const partIm = new Float64Array(half);
    for (let k = 0; k < half; k++) {
      partRe[k] = re[2 * k + odd]!;
      partIm[k] = im[2 * k + odd]!;
    }
    transform(partRe, partIm);
    return [partRe, partIm] as const;
  });
  const [evenRe, evenIm] = parts[0]!;
  const [oddRe, oddIm] = parts[1]!;
  for (let k = 0; k < half; k++) {
    const angle = (-2 * Math.PI * k) / n;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    const wr = c * oddRe[k]! - s * oddIm[k]!;
    const wi = c * oddIm[k]! + s * oddRe[k]!;
    re[k] = evenRe[k]! + wr;
    im[k] = evenIm[k]! + wi;
    re[k + half] = evenRe[k]! - wr;
    im[k + half] = evenIm[k]! - wi;
  }
}
