import { inflateSync } from "node:zlib";
import { ICON_SIZES, iconPixels, iconPng, iconSvg, pngSize } from "../../src/tools/icon";
import { readXml } from "../../src/tools/xml-tree";

/** Reads back what `iconPng` wrote, chunk by chunk. */
function readPng(file: Buffer): { size: number; pixels: Buffer } {
  const size = file.readUInt32BE(16);
  const data: Buffer[] = [];
  for (let at = 8; at < file.length;) {
    const length = file.readUInt32BE(at);
    if (file.toString("latin1", at + 4, at + 8) === "IDAT") data.push(file.subarray(at + 8, at + 8 + length));
    at += length + 12;
  }
  const rows = inflateSync(Buffer.concat(data));
  return {
    size,
    pixels: Buffer.concat(
      Array.from({ length: size }, (_, row) => rows.subarray(row * (size * 4 + 1) + 1, (row + 1) * (size * 4 + 1))),
    ),
  };
}

describe("the mark", () => {
  for (const size of ICON_SIZES) {
    it(`is a ${size} × ${size} PNG: clear at the corners, a light stroke on a dark field`, () => {
      const file = iconPng(size);
      expect(pngSize(file)).toEqual({ width: size, height: size });
      const { pixels } = readPng(file);
      expect(pixels.equals(iconPixels(size))).toBe(true);
      const at = (x: number, y: number) => [
        ...pixels.subarray((Math.floor(y * size) * size + Math.floor(x * size)) * 4).subarray(0, 4),
      ];
      expect(at(0, 0)[3]).toBeLessThan(255);
      expect(at(0.5, 0.77)).toEqual([255, 255, 255, 255]);
      expect(at(0.5, 0.95)).toEqual([0x0b, 0x64, 0x64, 255]);
    });
  }

  it("[ISO/IEC 15948 annex D] closes chunks with the check sum of the standard", () => {
    // The empty IEND chunk of every PNG file ends in AE 42 60 82.
    expect(iconPng(16).subarray(-4).toString("hex")).toBe("ae426082");
  });

  it("is the same drawing as SVG, with a name for screen readers", () => {
    const svg = readXml(iconSvg());
    expect(svg.attributes).toMatchObject({ role: "img", "aria-label": "Chargewright", viewBox: "0 0 128 128" });
    expect(svg.children.map((child) => child.name)).toEqual(["rect", "polyline", "path"]);
  });

  it("knows what is no PNG", () => expect(pngSize(Buffer.from("not a picture at all, really"))).toBeUndefined());
});
