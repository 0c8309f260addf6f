import { jobFromCells, jobsFromTable } from "../../../src/core/readings/from-cells";

const HEADER = ["Machine", "Key-off draw (A)", "Battery temperature (°F)"];
const number = (cells: readonly (string | number)[], id: string) => {
  const measured = jobsFromTable([HEADER, cells])[0]!.job.get(id);
  return measured?.kind === "number" ? measured.value : undefined;
};

describe("a unit in the header", () => {
  it.each([
    ["a number cell", 0.35, 70],
    ["text, as a text table has it", "0.35", "70"],
    ["text with a decimal comma", "0,35", "70,0"],
  ])("goes with a bare number: %s", (_, amps, warmth) => {
    expect(number(["Quad 1", amps, warmth], "key-off-draw")).toBe(350);
    // 70 °F is 21.1 °C by the definition of the degree Fahrenheit.
    expect(number(["Quad 1", amps, warmth], "battery-temperature")).toBeCloseTo(21.11, 2);
  });
  it("gives way to a unit in the cell", () => {
    expect(number(["Quad 1", "350 mA", "21 °C"], "key-off-draw")).toBe(350);
    expect(number(["Quad 1", "350 mA", "21 °C"], "battery-temperature")).toBe(21);
  });
  it("goes with bare text in a list as well", () => {
    const read = jobFromCells([["Key-off draw (A)", "0.35"]]);
    expect(read.ok && read.value.job.get("key-off-draw")).toMatchObject({ kind: "number", value: 350 });
  });
});
