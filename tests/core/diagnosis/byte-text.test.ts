import fc from "fast-check";
import { fromText, toText } from "../../../src/core/diagnosis/byte-text";

describe("bytes as text", () => {
  it("[round trip] come back as they were, whatever they are", () => {
    const all = Uint8Array.from({ length: 256 }, (_, i) => i);
    expect(fromText(toText(all))).toEqual(all);
    fc.assert(fc.property(fc.uint8Array(), (bytes) => Buffer.compare(fromText(toText(bytes)), bytes) === 0));
  });

  it("are plain letters that no quotes have to mask", () => {
    expect(toText(Uint8Array.from({ length: 256 }, (_, i) => i))).toMatch(/^[ !#-&(-[\]-_a-~]+$/u);
  });

  it("small signed numbers take one letter, the others two", () => {
    expect(toText(Uint8Array.of(0, 255, 1, 44))).toHaveLength(4);
    expect(toText(Uint8Array.of(45, 128))).toHaveLength(4);
  });
});
