import { FITTED_SIGNATURES } from "../../../src/core/diagnosis/fitted-signatures";
import { MaskedMixtures } from "../../../src/core/diagnosis/masked-mixtures";
import { momentsOf, placeInTriangle, type Component, type Mixture } from "../../../src/core/diagnosis/mixture";
import { unpack } from "../../../src/core/diagnosis/signature-codec";
import { Random } from "../../../src/tools/simulation/random";

/**
 * The mixtures against the formulas as a textbook prints them, on full matrices and with nothing kept
 * from one question to the next: C. M. Bishop, Pattern Recognition and Machine Learning (2006),
 * eq. 2.81 and 2.82 (a normal vector of which some coordinates are known), 2.98 (its marginal), 2.162
 * (density with heavier tails, of which any coordinates follow the same form with their own block).
 */
type Matrix = readonly (readonly number[])[];

const full = ({ covariance, mean }: Component): Matrix =>
  Array.from(mean, (_, i) => Array.from(mean, (__, j) => covariance[placeInTriangle(i, j)]!));
const block = (m: Matrix, rows: readonly number[], columns = rows): Matrix =>
  rows.map((i) => columns.map((j) => m[i]![j]!));

/** Gauss–Jordan elimination with pivots: m⁻¹·b for each column of b, and log |m|. */
function solve(m: Matrix, b: Matrix): { readonly x: Matrix; readonly logDeterminant: number } {
  const rows = m.map((row, i) => [...row, ...b[i]!]);
  let logDeterminant = 0;
  for (let k = 0; k < rows.length; k++) {
    let pivot = k;
    for (let i = k; i < rows.length; i++) if (Math.abs(rows[i]![k]!) > Math.abs(rows[pivot]![k]!)) pivot = i;
    [rows[k], rows[pivot]] = [rows[pivot]!, rows[k]!];
    const top = rows[k]!;
    logDeterminant += Math.log(Math.abs(top[k]!));
    const scaled = (rows[k] = top.map((v) => v / top[k]!));
    rows.forEach((row, i) => {
      if (i !== k) rows[i] = row.map((v, j) => v - row[k]! * scaled[j]!);
    });
  }
  return { x: rows.map((row) => row.slice(m.length)), logDeterminant };
}

const away = ({ mean }: Component, x: Float64Array, at: readonly number[]) => at.map((i) => x[i]! - mean[i]!);

/** Γ((ν+n)/2) / Γ(ν/2) by Γ(z+1) = z·Γ(z), from Γ(1/2) = √π and Γ(1) = 1. */
function logGammaHalves(halves: number): number {
  let log = halves % 2 === 0 ? 0 : 0.5 * Math.log(Math.PI);
  for (let h = halves % 2 === 0 ? 2 : 1; h < halves; h += 2) log += Math.log(h / 2);
  return log;
}

/** Eq. 2.162 with the block of the known coordinates. */
function logDensity(component: Component, x: Float64Array, at: readonly number[], nu: number): number {
  if (at.length === 0) return 0;
  const d = away(component, x, at);
  const { x: solved, logDeterminant } = solve(
    block(full(component), at),
    d.map((v) => [v]),
  );
  const distance = d.reduce((sum, v, i) => sum + v * solved[i]![0]!, 0);
  const n = at.length;
  return (
    logGammaHalves(nu + n) -
    logGammaHalves(nu) -
    0.5 * logDeterminant -
    (n / 2) * Math.log(Math.PI * nu) -
    ((nu + n) / 2) * Math.log1p(distance / nu)
  );
}

function logSum(logs: readonly number[]): number {
  const top = Math.max(...logs);
  return top + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - top), 0));
}

const mixed = ({ components }: Mixture, x: Float64Array, at: readonly number[], nu: number) =>
  components.map((c) => Math.log(c.weight) + logDensity(c, x, at, nu));

/** Eq. 2.81 and 2.82 for each component; middle and variance of their mixture by the rules of total expectation and variance. */
function foretold({ components }: Mixture, x: Float64Array, at: readonly number[], coordinate: number, nu: number) {
  const logs = mixed({ name: "", components }, x, at, nu);
  const whole = logSum(logs);
  const each = components.map((c) => {
    const m = full(c);
    const across = at.map((i) => [m[i]![coordinate]!]);
    const { x: gain } = solve(block(m, at), across);
    const d = away(c, x, at);
    return {
      middle: c.mean[coordinate]! + d.reduce((sum, v, i) => sum + v * gain[i]![0]!, 0),
      variance: m[coordinate]![coordinate]! - across.reduce((sum, [v], i) => sum + v! * gain[i]![0]!, 0),
    };
  });
  const shares = logs.map((log) => Math.exp(log - whole));
  const centre = each.reduce((sum, { middle }, i) => sum + shares[i]! * middle, 0);
  const variance = each.reduce((sum, e, i) => sum + shares[i]! * (e.variance + (e.middle - centre) ** 2), 0);
  return { centre, spread: Math.sqrt(variance) };
}

function randomMixture(random: Random, n: number, components: number): Mixture {
  const weights = Array.from({ length: components }, () => random.between(0.1, 1));
  const whole = weights.reduce((a, b) => a + b, 0);
  return {
    name: "random",
    components: weights.map((weight) => {
      const a = Array.from({ length: n }, () => Array.from({ length: n }, () => random.normal(0, 1)));
      const covariance = new Float64Array((n * (n + 1)) / 2);
      for (let i = 0; i < n; i++)
        for (let j = 0; j <= i; j++)
          covariance[placeInTriangle(i, j)] = a[i]!.reduce((sum, v, k) => sum + v * a[j]![k]!, i === j ? 0.3 : 0);
      return { weight: weight / whole, mean: Float64Array.from({ length: n }, () => random.normal(0, 2)), covariance };
    }),
  };
}

/** A vector near the middle of one component, known in some coordinates only. */
function randomVector(random: Random, mixtures: readonly Mixture[], share: number, width = 2): Float64Array {
  const near = random.pick(random.pick(mixtures).components);
  return near.mean.map((v, i) =>
    random.chance(share)
      ? v + random.normal(0, width * Math.sqrt(near.covariance[placeInTriangle(i, i)]!))
      : Number.NaN,
  );
}

const knownOf = (x: Float64Array) => [...x.keys()].filter((i) => !Number.isNaN(x[i]!));

/** Both as the class is asked: several questions about one vector, vectors with the same gaps again and again. */
function compare(
  mixtures: readonly Mixture[],
  covariates: number,
  nu: number,
  vectors: readonly Float64Array[],
  digits: number,
) {
  const table = new MaskedMixtures(mixtures, covariates, nu);
  for (const x of vectors) {
    const known = knownOf(x);
    const given = known.filter((i) => i < covariates);
    const expected = mixtures.map((m) => logSum(mixed(m, x, known, nu)) - logSum(mixed(m, x, given, nu)));
    table.logDensities(x).forEach((log, m) => expect(log).toBeCloseTo(expected[m]!, digits));
    const beside = expected
      .slice(0, -1)
      .map((log) => logSum([Math.log(0.97) + log, Math.log(0.03) + expected.at(-1)!]));
    table.logDensitiesBeside(x, 0.03).forEach((log, m) => expect(log).toBeCloseTo(beside[m]!, digits));
    mixtures.forEach((mixture, m) => {
      for (let coordinate = covariates; coordinate < x.length; coordinate++) {
        const others = known.filter((i) => i !== coordinate);
        const should = foretold(mixture, x, others, coordinate, nu);
        const { centre, spread } = table.foretell(m, x, coordinate);
        expect((centre - should.centre) / should.spread).toBeCloseTo(0, digits);
        expect(spread / should.spread).toBeCloseTo(1, digits);
        const chances = new Float64Array(2 * mixtures.length);
        table.chancesBelow([m], x, coordinate, centre, chances, 2, 1);
        expect(chances[2 * m + 1]).toBeCloseTo(0.5, 9);
      }
    });
  }
}

describe("mixtures of which some coordinates are known [Bishop 2006, eq. 2.81, 2.82, 2.98, 2.162; numbers from memory]", () => {
  it.each([
    [1, 7],
    [2, 7],
    [3, 4],
    [4, 31],
  ])("random mixtures and random gaps, seed %i, %i degrees of freedom", (seed, nu) => {
    const random = new Random(seed);
    const mixtures = [1, 2, 4].map((components) => randomMixture(random, 6, components));
    const vectors = Array.from({ length: 40 }, () => randomVector(random, mixtures, random.pick([0.3, 0.6, 1])));
    compare(mixtures, 2, nu, [...vectors, new Float64Array(6).fill(Number.NaN), ...vectors.slice(0, 5)], 8);
  });

  it("many degrees of freedom: the normal distribution itself", () => {
    const random = new Random(5);
    const mixtures = [randomMixture(random, 4, 3), randomMixture(random, 4, 2)];
    const table = new MaskedMixtures(mixtures, 0, 4_000_000);
    for (let i = 0; i < 20; i++) {
      const x = randomVector(random, mixtures, 0.7, 1);
      const known = knownOf(x);
      const logs = mixtures.map(({ components }) =>
        logSum(
          components.map((c) => {
            const d = away(c, x, known);
            const { x: solved, logDeterminant } = solve(
              block(full(c), known),
              d.map((v) => [v]),
            );
            const distance = d.reduce((sum, v, k) => sum + v * solved[k]![0]!, 0);
            return Math.log(c.weight) - 0.5 * (known.length * Math.log(2 * Math.PI) + logDeterminant + distance);
          }),
        ),
      );
      table.logDensities(x).forEach((log, m) => expect(log).toBeCloseTo(logs[m]!, 3));
    }
  });

  it("readings so odd that no number holds their density", () => {
    const random = new Random(6);
    const mixtures = [2, 3].map((components) => randomMixture(random, 6, components));
    const table = new MaskedMixtures(mixtures, 2, 7);
    for (const far of [1e30, 1e60]) {
      const x = Float64Array.from({ length: 6 }, (_, i) => (i === 3 ? Number.NaN : random.normal(0, far)));
      const known = knownOf(x);
      const given = known.filter((i) => i < 2);
      const joint = mixtures.map((m) => logSum(mixed(m, x, known, 7)));
      expect(Math.max(...joint)).toBeLessThan(Math.log(1e-250));
      const expected = mixtures.map((m, i) => joint[i]! - logSum(mixed(m, x, given, 7)));
      table.logDensities(x).forEach((log, m) => expect(log).toBeCloseTo(expected[m]!, 6));
    }
  });

  it("the signatures that are fitted", () => {
    const random = new Random(7);
    const fitted = unpack(FITTED_SIGNATURES);
    const some = [0, 5, 11, fitted.length - 1].map((i) => fitted[i]!);
    const vectors = Array.from({ length: 6 }, () => randomVector(random, some, 0.5, 1));
    compare(some, 4, 7, vectors, 6);
  });
});

describe("a mixture as a whole", () => {
  it("has the mean and covariance of its components' first and second moments", () => {
    const random = new Random(8);
    const { components } = randomMixture(random, 4, 5);
    // Weights need not sum to one.
    const { mean, covariance } = momentsOf(components.map((c) => ({ ...c, weight: 3 * c.weight })));
    for (let i = 0; i < 4; i++) {
      expect(mean[i]).toBeCloseTo(
        components.reduce((sum, c) => sum + c.weight * c.mean[i]!, 0),
        12,
      );
      for (let j = 0; j < 4; j++) {
        const second = components.reduce((sum, c) => sum + c.weight * (full(c)[i]![j]! + c.mean[i]! * c.mean[j]!), 0);
        expect(covariance[placeInTriangle(i, j)]).toBeCloseTo(second - mean[i]! * mean[j]!, 10);
      }
    }
  });

  it("keeps each element of a lower triangle once, whichever index comes first", () => {
    const places = [0, 1, 2, 3].flatMap((i) => Array.from({ length: i + 1 }, (_, j) => placeInTriangle(i, j)));
    expect(places).toEqual([...Array(10).keys()]);
    expect(placeInTriangle(1, 3)).toBe(placeInTriangle(3, 1));
  });
});
