import { normalChance } from "../judgement/normal";
import { FactorRows } from "./factor-rows";
import { KnownCoordinates, type Conditioned, type Slopes } from "./known-coordinates";
import type { Component, Mixture } from "./mixture";
import { inverseRoot, logAdd } from "./powers";
import { numberRow } from "./number-row";
import { takeOut, whiten } from "./whitening";

/** Sets of known coordinates are kept up to this many numbers, 64 MB: a fleet with gaps has a few hundred. */
const KEPT_NUMBERS = 8_000_000;
/** Below this a product of factors may have lost digits, and logarithms take over. */
const SMALLEST = 1e-250;
/** A component that fits this much worse than all of its mixture adds no digit that counts. */
const NO_SHARE = 1e-12;

/**
 * Densities of normal-like mixtures of which only some coordinates are known. What was not read is
 * integrated out exactly, so an unread reading changes nothing; what is known beforehand (the first
 * coordinates: covariates) is conditioned on, so it is no evidence itself.
 */
export class MaskedMixtures {
  private readonly kept = new Map<number, KnownCoordinates>();
  private readonly components: readonly Component[];
  private factors: FactorRows;
  /** First component of each mixture, and one past the last. */
  private readonly starts: Int32Array;

  /** The vector looked at last, with all that was worked out for it: many questions follow about one. */
  private seen: Float64Array | undefined;
  private pattern: KnownCoordinates | undefined;
  private readonly values: Float64Array;
  private conditioned: Conditioned | undefined;
  /** Whitened distances of all known values, components side by side. */
  private readonly white: Float64Array;
  private readonly squares: Float64Array;
  private readonly density: Float64Array;
  /** Density of the known readings under each mixture, the covariates given; NaN where it takes logarithms. */
  private readonly ratios: Float64Array;
  /** Middles and spreads that were foretold, a row a mixture; NaN until they are asked. */
  private readonly centres: Float64Array;
  private readonly spreads: Float64Array;
  /** Of each component while a coordinate is foretold: its share, its own middle, the distance of the rest. */
  private readonly shares: Float64Array;
  private readonly owns: Float64Array;
  private readonly rests: Float64Array;
  /** Of each mixture whether its components have the shares of what is known of the vector looked at. */
  private readonly shared: Uint8Array;

  /**
   * @param mixtures - All over the same coordinates, covariates first
   * @param covariates - How many coordinates are covariates
   * @param degrees - Degrees of freedom of the tails: the fewer, the less one odd reading can say
   */
  constructor(
    mixtures: readonly Mixture[],
    private readonly covariates: number,
    private readonly degrees: number,
  ) {
    this.components = mixtures.flatMap((m) => m.components);
    this.factors = new FactorRows(this.components);
    const starts = [0];
    for (const m of mixtures) starts.push(starts.at(-1)! + m.components.length);
    this.starts = Int32Array.from(starts);
    const count = this.components.length;
    const n = this.components[0]!.mean.length;
    this.values = new Float64Array(n);
    this.white = new Float64Array(count * n);
    this.squares = new Float64Array(count);
    this.density = new Float64Array(count);
    this.shares = new Float64Array(count);
    this.owns = new Float64Array(count);
    this.rests = new Float64Array(count);
    this.shared = new Uint8Array(mixtures.length);
    this.ratios = new Float64Array(mixtures.length);
    this.centres = new Float64Array(mixtures.length * n);
    this.spreads = new Float64Array(mixtures.length * n);
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
    return Number.isNaN(ratio) ? this.farOut(mixture, this.pattern!) : Math.log(ratio);
  }

  /**
   * What a mixture foretells of one coordinate when everything else that is known of `x` is given.
   *
   * @returns Middle and spread, on the coordinate's own scale
   */
  foretell(mixture: number, x: Float64Array, coordinate: number): { readonly centre: number; readonly spread: number } {
    const before = this.foretold([mixture], x, coordinate);
    return { centre: this.centres[before + mixture]!, spread: this.spreads[before + mixture]! };
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
    const before = this.foretold(mixtures, x, coordinate);
    const { centres, spreads } = this;
    for (let i = 0; i < mixtures.length; i++) {
      const m = mixtures[i]!;
      into[m * step + column] = normalChance((value - centres[before + m]!) / spreads[before + m]!);
    }
  }

  private lookAt(x: Float64Array): void {
    if (this.seen === x) return;
    this.seen = undefined;
    this.centres.fill(Number.NaN);
    this.shared.fill(0);
    const pattern = this.patternOf(x);
    const { known, given, rows, jointFactors } = pattern;
    const n = known.length;
    const { values, white, squares, density, degrees, starts, ratios } = this;
    const count = density.length;
    for (let i = 0; i < n; i++) values[i] = x[known[i]!]!;
    this.pattern = pattern;
    const before = (this.conditioned = pattern.conditionedOn(values, this.condition));
    white.set(before.white);
    squares.set(before.squares);
    for (let i = given; i < n; i++) whiten(white, squares, i, given, values[i]!, before.base, rows[i]!.lower, count);
    for (let c = 0; c < count; c++) density[c] = jointFactors[c]! * inverseRoot(1 + squares[c]! / degrees, degrees + n);
    for (let m = 0; m < ratios.length; m++) {
      let joint = 0;
      for (let c = starts[m]!; c < starts[m + 1]!; c++) joint += density[c]!;
      const without = before.density[m]!;
      ratios[m] = n === given ? 1 : joint > SMALLEST && without > SMALLEST ? joint / without : Number.NaN;
    }
    this.seen = x;
  }

  private readonly condition = (pattern: KnownCoordinates, { values, base, white, squares, density }: Conditioned) => {
    const { known, given, means, rows, givenFactors } = pattern;
    const { starts, degrees } = this;
    const count = squares.length;
    squares.fill(0);
    for (let k = 0; k < means.length; k++) base[k] = -means[k]!;
    for (let i = 0; i < given; i++) whiten(white, squares, i, 0, values[i]!, base, rows[i]!.lower, count);
    for (let i = given; i < known.length; i++) {
      const { lower } = rows[i]!;
      for (let j = 0; j < given; j++) takeOut(base, i * count, lower, white, j * count, count);
    }
    for (let m = 0; m < density.length; m++) {
      let sum = 0;
      for (let c = starts[m]!; c < starts[m + 1]!; c++)
        sum += givenFactors[c]! * inverseRoot(1 + squares[c]! / degrees, degrees + given);
      density[m] = sum;
    }
  };

  /** Readings so odd that their density is too small a number: the same by logarithms. */
  private farOut(mixture: number, { known, given, jointLogs, givenLogs }: KnownCoordinates): number {
    const nu = this.degrees;
    let joint = -Infinity;
    let before = -Infinity;
    for (let c = this.starts[mixture]!; c < this.starts[mixture + 1]!; c++) {
      joint = logAdd(joint, jointLogs[c]! - 0.5 * (nu + known.length) * Math.log1p(this.squares[c]! / nu));
      before = logAdd(before, givenLogs[c]! - 0.5 * (nu + given) * Math.log1p(this.conditioned!.squares[c]! / nu));
    }
    return joint - before;
  }

  /** Foretells a coordinate under some mixtures, where it is not done yet; gives the place before their answers. */
  private foretold(mixtures: ArrayLike<number>, x: Float64Array, coordinate: number): number {
    this.lookAt(x);
    const before = coordinate * this.ratios.length;
    const slopes = this.pattern!.slopesTo(coordinate);
    for (let i = 0; i < mixtures.length; i++) {
      const m = mixtures[i]!;
      if (!Number.isNaN(this.centres[before + m]!)) continue;
      if (slopes.place < 0) this.asKnown(m, before + m, slopes);
      else this.withoutOwn(m, before + m, slopes);
    }
    return before;
  }

  /** An unknown coordinate: each component's own middle, weighed by how well it fits the known ones. */
  private asKnown(mixture: number, at: number, slopes: Slopes): void {
    const { shares, shared, starts, white, pattern } = this;
    const { means, ofWhite, spreads } = slopes;
    if (shared[mixture] === 0) this.share(mixture);
    const n = pattern!.known.length;
    const count = shares.length;
    const from = starts[mixture]!;
    const to = starts[mixture + 1]!;
    let centre = 0;
    let second = 0;
    for (let c = from; c < to; c++) {
      const share = shares[c]!;
      if (share === 0) continue;
      const spread = Number.isNaN(spreads[c]!) ? pattern!.solve(slopes, c) : spreads[c]!;
      let pull = 0;
      for (let w = c * n, v = c; w < (c + 1) * n; w++, v += count) pull += ofWhite[w]! * white[v]!;
      const own = means[c]! + pull;
      centre += share * own;
      second += share * (own * own + spread * spread);
    }
    this.centres[at] = centre;
    this.spreads[at] = to - from === 1 ? spreads[from]! : Math.sqrt(Math.max(second - centre * centre, 1e-12));
  }

  /** Of all unknown coordinates the components of a mixture have the same shares: by the known ones. */
  private share(mixture: number): void {
    const { shares, density, starts } = this;
    const from = starts[mixture]!;
    const to = starts[mixture + 1]!;
    let most = 0;
    for (let c = from; c < to; c++) most += density[c]!;
    let total = 0;
    for (let c = from; c < to; c++)
      total += shares[c] = density[c]! > NO_SHARE * most || most <= SMALLEST ? density[c]! : 0;
    this.divide(from, to, most > SMALLEST ? total : this.farShares(from, to, this.squares));
    this.shared[mixture] = 1;
  }

  /** A known coordinate is foretold from the others: its own part is taken out of distance and share. */
  private withoutOwn(mixture: number, at: number, slopes: Slopes): void {
    const { shares, owns, rests, squares, degrees, values, starts, white, pattern } = this;
    const { known, jointFactors } = pattern!;
    const { place, ofWhite, spreads } = slopes;
    const n = known.length;
    const count = shares.length;
    const from = starts[mixture]!;
    const to = starts[mixture + 1]!;
    this.shared[mixture] = 0;
    let total = 0;
    for (let c = from; c < to; c++) {
      const spread = Number.isNaN(spreads[c]!) ? pattern!.solve(slopes, c) : spreads[c]!;
      let pull = 0;
      for (let w = c * n, v = c; w < (c + 1) * n; w++, v += count) pull += ofWhite[w]! * white[v]!;
      pull *= spread;
      owns[c] = values[place]! - pull * spread;
      rests[c] = Math.max(0, squares[c]! - pull ** 2);
      shares[c] = jointFactors[c]! * spread * inverseRoot(1 + rests[c]! / degrees, degrees + n - 1);
      total += shares[c]!;
    }
    this.divide(from, to, total > SMALLEST ? total : this.farShares(from, to, rests, spreads));
    let centre = 0;
    let second = 0;
    for (let c = from; c < to; c++) {
      const share = shares[c]!;
      if (share === 0) continue;
      centre += share * owns[c]!;
      second += share * (owns[c]! * owns[c]! + spreads[c]! * spreads[c]!);
    }
    this.centres[at] = centre;
    this.spreads[at] = to - from === 1 ? spreads[from]! : Math.sqrt(Math.max(second - centre * centre, 1e-12));
  }

  private divide(from: number, to: number, total: number): void {
    for (let c = from; c < to; c++) this.shares[c] = this.shares[c]! / total;
  }

  /**
   * Shares too small for a number, set anew against the greatest; gives their sum.
   *
   * @param own - Spreads of the coordinate that was taken out, where one was
   */
  private farShares(from: number, to: number, rests: Float64Array, own?: Float64Array): number {
    const { shares, degrees } = this;
    const { known, jointLogs } = this.pattern!;
    const half = 0.5 * (degrees + known.length - (own ? 1 : 0));
    let top = -Infinity;
    for (let c = from; c < to; c++) {
      shares[c] = jointLogs[c]! + (own ? Math.log(own[c]!) : 0) - half * Math.log1p(rests[c]! / degrees);
      top = Math.max(top, shares[c]!);
    }
    let total = 0;
    for (let c = from; c < to; c++) total += shares[c] = Math.exp(shares[c]! - top);
    return total;
  }

  /** Tables of machines ask the same columns row after row: what depends on these alone is kept. */
  private patternOf(x: Float64Array): KnownCoordinates {
    let mask = 0;
    for (let i = 0; i < x.length; i++) if (!Number.isNaN(x[i]!)) mask += 2 ** i;
    let pattern = this.kept.get(mask);
    if (!pattern) {
      let numbers = 0;
      for (const { size } of this.kept.values()) numbers += size;
      // The sets that go leave no rows behind that nobody has any more.
      if (numbers > KEPT_NUMBERS) this.factors = new FactorRows(this.components);
      for (const [oldest, { size }] of this.kept) {
        if (numbers <= KEPT_NUMBERS) break;
        this.kept.delete(oldest);
        numbers -= size;
      }
      const { components, factors, starts, covariates, degrees } = this;
      pattern = new KnownCoordinates(components, factors, starts.length - 1, x, covariates, degrees);
      this.kept.set(mask, pattern);
    }
    return pattern;
  }
}
