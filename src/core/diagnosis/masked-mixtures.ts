import { normalChance } from "../judgement/normal";
import { ComponentFit } from "./component-fit";
import { ForetoldCoordinates } from "./foretold-coordinates";
import type { Mixture } from "./mixture";
import { numberRow } from "./number-row";
import { logAdd, SMALLEST } from "./powers";

/**
 * Densities of normal-like mixtures of which only some coordinates are known. What was not read is
 * integrated out exactly, so an unread reading changes nothing; what is known beforehand (the first
 * coordinates: covariates) is conditioned on, so it is no evidence itself.
 */
export class MaskedMixtures {
  private readonly fit: ComponentFit;
  private readonly foretold: ForetoldCoordinates;
  /** The vector looked at last. */
  private seen: Float64Array | undefined;
  /** Density of its known readings under each mixture, the covariates given; NaN where it takes logarithms. */
  private readonly ratios: Float64Array;

  /**
   * @param mixtures - All over the same coordinates, covariates first
   * @param covariates - How many coordinates are covariates
   * @param degrees - Degrees of freedom of the tails: the fewer, the less one odd reading can say
   */
  constructor(mixtures: readonly Mixture[], covariates: number, degrees: number) {
    const starts = [0];
    for (const m of mixtures) starts.push(starts.at(-1)! + m.components.length);
    const components = mixtures.flatMap((m) => m.components);
    this.fit = new ComponentFit(components, Int32Array.from(starts), covariates, degrees);
    this.foretold = new ForetoldCoordinates(this.fit);
    this.ratios = new Float64Array(mixtures.length);
  }

  /**
   * Log density of the known readings under each mixture, given the known covariates.
   *
   * @param x - One value a coordinate, NaN where not known; not to be changed afterwards
   * @returns One number a mixture; zeros where no reading is known
   */
  logDensities(x: Float64Array): Float64Array {
    this.lookAt(x);
    return this.ratios.map((ratio, m) => this.logOf(m, ratio));
  }

  /**
   * The same where a share of the jobs follows the last mixture, whatever the others say: one log instead of
   * three for each of them.
   *
   * @param share - Share of such jobs [1], above 0
   * @returns One number for each mixture but the last
   */
  logDensitiesBeside(x: Float64Array, share: number): Float64Array {
    this.lookAt(x);
    const last = this.ratios.length - 1;
    const out = numberRow(last);
    const odd = share * this.ratios[last]!;
    for (let m = 0; m < last; m++) {
      const density = (1 - share) * this.ratios[m]! + odd;
      out[m] = density > SMALLEST ? Math.log(density) : this.logBeside(m, share);
    }
    return out;
  }

  /** The same by logarithms, where one of the two is too small a number. */
  private logBeside(mixture: number, share: number): number {
    const last = this.ratios.length - 1;
    return logAdd(
      Math.log(1 - share) + this.logOf(mixture, this.ratios[mixture]!),
      Math.log(share) + this.logOf(last, this.ratios[last]!),
    );
  }

  private logOf(mixture: number, ratio: number): number {
    return Number.isNaN(ratio) ? this.farOut(mixture) : Math.log(ratio);
  }

  /**
   * What a mixture foretells of one coordinate when everything else that is known of `x` is given.
   *
   * @returns Middle and spread, on the coordinate's own scale
   */
  foretell(mixture: number, x: Float64Array, coordinate: number): { readonly centre: number; readonly spread: number } {
    this.lookAt(x);
    const { centres, spreads } = this.foretold;
    const row = this.foretold.rowOf(coordinate, [mixture]);
    return { centre: centres[row + mixture]!, spread: spreads[row + mixture]! };
  }

  /**
   * Chances under some mixtures that a coordinate lies below a value, foretold as by `foretell`.
   *
   * @param into - Gets them: that of mixture m at `m * step + column`
   */
  chancesBelow(
    mixtures: ArrayLike<number>,
    x: Float64Array,
    coordinate: number,
    value: number,
    into: Float64Array,
    step: number,
    column: number,
  ): void {
    this.lookAt(x);
    const { centres, spreads } = this.foretold;
    const row = this.foretold.rowOf(coordinate, mixtures);
    for (let i = 0; i < mixtures.length; i++) {
      const m = mixtures[i]!;
      into[m * step + column] = normalChance((value - centres[row + m]!) / spreads[row + m]!);
    }
  }

  private lookAt(x: Float64Array): void {
    if (this.seen === x) return;
    this.seen = undefined;
    const { fit, ratios } = this;
    this.foretold.clear();
    fit.lookAt(x);
    const { density, starts, pattern, conditioned } = fit;
    const unread = pattern.known.length === pattern.given;
    for (let m = 0; m < ratios.length; m++) {
      let joint = 0;
      for (let c = starts[m]!; c < starts[m + 1]!; c++) joint += density[c]!;
      const without = conditioned.density[m]!;
      ratios[m] = unread ? 1 : joint > SMALLEST && without > SMALLEST ? joint / without : Number.NaN;
    }
    this.seen = x;
  }

  /** Readings so odd that their density is too small a number: the same by logarithms. */
  private farOut(mixture: number): number {
    const { pattern, conditioned, starts, squares, degrees } = this.fit;
    let joint = -Infinity;
    let before = -Infinity;
    for (let c = starts[mixture]!; c < starts[mixture + 1]!; c++) {
      joint = logAdd(joint, farLog(pattern.jointLogs[c]!, squares[c]!, pattern.known.length, degrees));
      before = logAdd(before, farLog(pattern.givenLogs[c]!, conditioned.squares[c]!, pattern.given, degrees));
    }
    return joint - before;
  }
}

/** @param squares - Squared whitened distances of `n` coordinates, added up */
function farLog(constant: number, squares: number, n: number, degrees: number): number {
  return constant - 0.5 * (degrees + n) * Math.log1p(squares / degrees);
}
