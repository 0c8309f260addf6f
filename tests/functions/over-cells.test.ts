import { ok, fail } from "../../src/core/result";
import { choice, number, optional, optionalOrAbsent, readShape, toBlock } from "../../src/functions/arguments";
import { overCells } from "../../src/functions/over-cells";

const volts = number("volts", { unit: "V", min: 0, max: 20 });
const amps = number("amps", { unit: "A", min: 0, max: 100 });
const twice = (v: number) => ok(2 * v);

describe("one computation over the cells of its arguments", () => {
  it("takes one value, text with a unit, a range; keeps the shape", () => {
    expect(overCells([volts], twice, [3])).toEqual([[6]]);
    expect(overCells([volts], twice, [[["3 V"]]])).toEqual([[6]]);
    expect(
      overCells([volts], twice, [
        [
          [1, 2],
          [3, "4000 mV"],
        ],
      ]),
    ).toEqual([
      [2, 4],
      [6, 8],
    ]);
  });
  it("leaves blanks blank and says not read where it judges", () => {
    expect(overCells([volts], twice, [[[1], [""], [null]]])).toEqual([[2], [""], [""]]);
    expect(overCells([volts], twice, [[[""]]], "not read")).toEqual([["not read"]]);
    expect(overCells([volts], twice, [undefined])).toEqual([[""]]);
  });
  it("stretches a single cell, a row and a column", () => {
    const add = (a: number, b: number) => ok(a + b);
    expect(overCells([volts, amps], add, [[[1], [2]], 10])).toEqual([[11], [12]]);
    expect(overCells([volts, amps], add, [[[1], [2]], [[10, 20]]])).toEqual([
      [11, 21],
      [12, 22],
    ]);
    expect(
      overCells([volts, amps], add, [
        [[1], [2], [3]],
        [[1], [2]],
      ]),
    ).toEqual([[{ error: "#VALUE!", message: expect.stringMatching(/amps: a range of 2 × 1 cells does not fit/) }]]);
  });
  it("gives each cell its own message and passes #N/A on", () => {
    expect(overCells([volts], twice, [[["abc"], [900], [{ error: "#N/A" }], [{ error: "#DIV/0!" }]]])).toEqual([
      [{ error: "#VALUE!", message: 'volts: "abc" cannot be read; enter a number in V.' }],
      [{ error: "#VALUE!", message: "volts: 900 V is not possible; enter 0 to 20 V." }],
      [{ error: "#N/A" }],
      [{ error: "#VALUE!", message: 'volts: "#DIV/0!" cannot be read; enter a number in V.' }],
    ]);
  });
  it("takes defaults where an optional argument is blank, null or left out", () => {
    const f = (v: number, a: number) => ok(v * a);
    for (const given of [undefined, null, "", [[""]], [[null]]])
      expect(overCells([volts, optional(amps, 5)], f, [2, given])).toEqual([[10]]);
    expect(overCells([volts, optionalOrAbsent(amps)], (_v: number, a: number | undefined) => ok(a ?? -1), [2])).toEqual(
      [[-1]],
    );
  });
  it("spills lists sideways, one row each, errors across the row", () => {
    const three = (v: number) => (v > 5 ? fail({ code: "not-converged", what: "volts" }) : ok([v, v + 1, v + 2]));
    const out = overCells([volts], three, [[[1], [6], [""]]]);
    expect(out[0]).toEqual([1, 2, 3]);
    expect(out[1]!.map((c) => (c as { error: string }).error)).toEqual(["#VALUE!", "#VALUE!", "#VALUE!"]);
    expect(out[2]).toEqual(["", "", ""]);
    expect(overCells([volts], three, [[[1, 2]]])).toEqual([
      [{ error: "#VALUE!", message: expect.stringMatching(/one column/) }],
    ]);
  });
  it("lets no NaN, infinity or null out", () => {
    const out = overCells([volts], (v: number) => ok(v === 0 ? Number.NaN : v === 1 ? 1 / 0 : null), [[[0], [1], [2]]]);
    expect(out).toEqual([
      [expect.objectContaining({ error: "#VALUE!" })],
      [expect.objectContaining({ error: "#VALUE!" })],
      [""],
    ]);
  });
  it("unwraps entities and their errors", () => {
    expect(
      toBlock([[{ type: "Double", basicValue: 12.5 }, { type: "Error", basicValue: "#N/A" }, { odd: 1 }]]),
    ).toEqual([[12.5, { error: "#N/A" }, { error: "#VALUE!" }]]);
  });
  it("reads 50,000 rows with blanks and text among them in one call", () => {
    const rows = Array.from({ length: 50000 }, (_, i) => [i % 5 === 0 ? "" : i % 7 === 0 ? "x" : i % 20]);
    const out = overCells([volts], twice, [rows]);
    expect(out).toHaveLength(50000);
    expect(out[0]).toEqual([""]);
    expect(out[19]).toEqual([38]);
    expect(out[7]![0]).toMatchObject({ error: "#VALUE!" });
  });
  it("reads a block of fixed shape and refuses another", () => {
    expect(
      readShape(
        [
          [1, ""],
          ["2 V", 3],
        ],
        volts,
        2,
        2,
      ),
    ).toEqual({
      ok: true,
      value: [
        [1, null],
        [2, 3],
      ],
    });
    expect(readShape([[1]], volts, 2, 2)).toMatchObject({ ok: false, fault: { code: "shape" } });
  });
  it("reads choices without regard to case and names them when it refuses", () => {
    const kind = choice("type", [
      { value: "agm", label: "AGM", synonyms: ["glass mat"] },
      { value: "gel", label: "Gel" },
    ]);
    expect(overCells([kind], (k: string) => ok(k), [[["AGM"], ["Glass-Mat"], ["x"]]])).toEqual([
      ["agm"],
      ["agm"],
      [{ error: "#VALUE!", message: 'type: "x" cannot be read; enter one of: agm, gel.' }],
    ]);
  });
});
