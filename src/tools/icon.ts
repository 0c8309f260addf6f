import { deflateSync } from "node:zlib";

/**
 * The mark of the add-in, drawn from one description: a wave over a straight line, alternating
 * current made direct. As SVG for the page, as PNG in the sizes that Excel asks for.
 */
export const ICON_SIZES = [16, 32, 64, 80, 128] as const;

/** All lengths are shares of the edge. */
const FIELD = { corner: 0.2, colour: "0b6464" } as const;
const STROKE = { width: 0.105, colour: "ffffff" } as const;
const WAVE = { left: 0.2, right: 0.8, middle: 0.4, height: 0.17 } as const;
const LINE = { left: 0.2, right: 0.8, at: 0.76 } as const;

/** Points of the wave: one full period of a sine. */
function wavePoints(count = 48): [number, number][] {
  return Array.from({ length: count + 1 }, (_, i) => {
    const share = i / count;
    return [WAVE.left + share * (WAVE.right - WAVE.left), WAVE.middle - WAVE.height * Math.sin(2 * Math.PI * share)];
  });
}

export function iconSvg(): string {
  const n = (value: number) => String(Number((value * 128).toFixed(2)));
  const wave = wavePoints()
    .map(([x, y]) => `${n(x)},${n(y)}`)
    .join(" ");
  const stroke = `fill="none" stroke="#${STROKE.colour}" stroke-width="${n(STROKE.width)}" stroke-linecap="round" stroke-linejoin="round"`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 128 128" role="img" aria-label="Chargewright">`,
    `  <rect width="128" height="128" rx="${n(FIELD.corner)}" fill="#${FIELD.colour}"/>`,
    `  <polyline points="${wave}" ${stroke}/>`,
    `  <path d="M${n(LINE.left)} ${n(LINE.at)}H${n(LINE.right)}" ${stroke}/>`,
    `</svg>`,
    ``,
  ].join("\n");
}

/** The mark as RGBA pixels; an edge covers a pixel by its distance from the pixel's middle. */
export function iconPixels(size: number): Uint8Array {
  const wave = wavePoints();
  const pixels = new Uint8Array(size * size * 4);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      const x = (column + 0.5) / size;
      const y = (row + 0.5) / size;
      const field = coverage(fieldDistance(x, y), size);
      const stroke = coverage(strokeDistance(x, y, wave) - STROKE.width / 2, size);
      const at = (row * size + column) * 4;
      for (let channel = 0; channel < 3; channel++) {
        pixels[at + channel] = Math.round(
          byte(FIELD.colour, channel) * (1 - stroke) + byte(STROKE.colour, channel) * stroke,
        );
      }
      pixels[at + 3] = Math.round(255 * field);
    }
  }
  return pixels;
}

/** Share of a pixel inside a shape whose edge lies `distance` away (negative inside). */
function coverage(distance: number, size: number): number {
  return Math.min(1, Math.max(0, 0.5 - distance * size));
}

function byte(colour: string, channel: number): number {
  return Number.parseInt(colour.slice(channel * 2, channel * 2 + 2), 16);
}

/** Distance from the edge of the rounded square, negative inside. */
function fieldDistance(x: number, y: number): number {
  const dx = Math.abs(x - 0.5) - (0.5 - FIELD.corner);
  const dy = Math.abs(y - 0.5) - (0.5 - FIELD.corner);
  return Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) + Math.min(Math.max(dx, dy), 0) - FIELD.corner;
}

/** Distance from the middle of the nearest stroke. */
function strokeDistance(x: number, y: number, wave: readonly [number, number][]): number {
  let nearest = distance(x, y, [LINE.left, LINE.at], [LINE.right, LINE.at]);
  for (let i = 1; i < wave.length; i++) nearest = Math.min(nearest, distance(x, y, wave[i - 1]!, wave[i]!));
  return nearest;
}

/** Distance of a point from a piece of a line. */
function distance(
  x: number,
  y: number,
  [ax, ay]: readonly [number, number],
  [bx, by]: readonly [number, number],
): number {
  const length = (bx - ax) ** 2 + (by - ay) ** 2;
  const share = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length));
  return Math.hypot(x - ax - share * (bx - ax), y - ay - share * (by - ay));
}

/** The mark as a PNG file (ISO/IEC 15948): header, one deflated image, end. */
export function iconPng(size: number): Buffer {
  const pixels = iconPixels(size);
  const rows = Buffer.alloc(size * (size * 4 + 1));
  for (let row = 0; row < size; row++) {
    rows.set(pixels.subarray(row * size * 4, (row + 1) * size * 4), row * (size * 4 + 1) + 1);
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size, 0);
  header.writeUInt32BE(size, 4);
  header.set([8, 6, 0, 0, 0], 8); // eight bits a channel, red green blue alpha
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", header),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const out = Buffer.alloc(body.length + 8);
  out.writeUInt32BE(data.length, 0);
  out.set(body, 4);
  out.writeUInt32BE(crc32(body), body.length + 4);
  return out;
}

/** Check sum that closes each chunk of a PNG file. */
function crc32(data: Uint8Array): number {
  let crc = 0xffffffff;
  for (const value of data) {
    crc ^= value;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

/** Edge lengths that a PNG file states in its header [px]; `undefined` where it is no PNG. */
export function pngSize(file: Uint8Array): { width: number; height: number } | undefined {
  const data = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  if (data.length < 24 || data.readUInt32BE(0) !== 0x89504e47 || data.toString("latin1", 12, 16) !== "IHDR")
    return undefined;
  return { width: data.readUInt32BE(16), height: data.readUInt32BE(20) };
}
