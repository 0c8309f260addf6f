type Numbers = Uint8Array | Uint16Array | Uint32Array | Float32Array | Float64Array;

/** A column of numbers that doubles when it is full. */
export class GrowingColumn<A extends Numbers> {
  private store: A;
  length = 0;

  constructor(private readonly kind: new (length: number) => A) {
    this.store = new kind(1024);
  }

  push(value: number): void {
    if (this.length === this.store.length) {
      const larger = new this.kind(this.length * 2);
      larger.set(this.store);
      this.store = larger;
    }
    this.store[this.length++] = value;
  }

  at(i: number): number {
    return this.store[i]!;
  }
}
