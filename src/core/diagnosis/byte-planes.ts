/**
 * Records of bytes side by side: all their first bytes, then all their second ones. What is alike from record to
 * record packs better so, and better still as the difference from the record before.
 *
 * @param length - Bytes of a record
 * @param alike - So many bytes at the end of a record are kept as differences
 */
export function toPlanes(records: Uint8Array, length: number, alike: number): Uint8Array {
  const count = records.length / length;
  return Uint8Array.from(records, (_, at) => {
    const from = (at % count) * length + Math.floor(at / count);
    return records[from]! - (at >= (length - alike) * count && from >= length ? records[from - length]! : 0);
  });
}

/** The other way round. */
export function fromPlanes(planes: Uint8Array, length: number, alike: number): Uint8Array {
  const count = planes.length / length;
  const records = new Uint8Array(planes.length);
  planes.forEach((byte, at) => {
    const to = (at % count) * length + Math.floor(at / count);
    records[to] = byte + (at >= (length - alike) * count && to >= length ? records[to - length]! : 0);
  });
  return records;
}
