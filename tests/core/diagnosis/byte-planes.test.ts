import fc from "fast-check";
import { fromPlanes, toPlanes } from "../../../src/core/diagnosis/byte-planes";
import { FITTED_SIGNATURES } from "../../../src/core/diagnosis/fitted-signatures";
import { packAll, packComponent, unpack } from "../../../src/core/diagnosis/signature-codec";

describe("records of bytes side by side", () => {
  it("stand as first bytes, then second ones, the alike ones as differences", () => {
    const records = Uint8Array.of(200, 1, 210, 2, 190, 3);
    expect([...toPlanes(records, 2, 0)]).toEqual([200, 210, 190, 1, 2, 3]);
    expect([...toPlanes(records, 2, 1)]).toEqual([200, 210, 190, 1, 1, 1]);
  });

  it("[round trip] come back as they were", () => {
    const some = fc.tuple(fc.integer({ min: 1, max: 9 }), fc.nat(9), fc.uint8Array({ maxLength: 90 }));
    fc.assert(
      fc.property(some, ([length, alike, bytes]) => {
        const records = bytes.subarray(0, bytes.length - (bytes.length % length));
        return Buffer.compare(fromPlanes(toPlanes(records, length, alike), length, alike), records) === 0;
      }),
    );
  });
});

describe("packed signatures", () => {
  it("[round trip] pack again to the same weights and means", () => {
    const { centre, scale, coordinates } = FITTED_SIGNATURES;
    const n = coordinates.length;
    const components = unpack(FITTED_SIGNATURES).flatMap((mixture) => mixture.components);
    const packed = components.map((c) => packComponent(c, choleskyOf(c.covariance, n), centre, scale));
    const again = unpack({ ...FITTED_SIGNATURES, ...packAll(Buffer.concat(packed), n) });
    again
      .flatMap((mixture) => mixture.components)
      .forEach(({ weight, mean }, i) => {
        expect(weight).toBe(components[i]!.weight);
        expect([...mean]).toEqual([...components[i]!.mean]);
      });
  });
});

/** Rows of the lower factor, one after another. */
function choleskyOf(covariance: Float64Array, n: number): Float64Array {
  const at = (i: number, j: number) => (i * (i + 1)) / 2 + j;
  const lower = new Float64Array(covariance.length);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = covariance[at(i, j)]!;
      for (let k = 0; k < j; k++) sum -= lower[at(i, k)]! * lower[at(j, k)]!;
      lower[at(i, j)] = i === j ? Math.sqrt(sum) : sum / lower[at(j, j)]!;
    }
  return lower;
}
