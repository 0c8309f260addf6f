import { trend } from "../../../src/functions/fleet";
import { isoDate } from "../../../src/core/fleet/dates";

const dates = (n: number) => Array.from({ length: n }, (_, i) => [isoDate(45000 + 30 * i)]);
const column = (values: readonly number[]) => values.map((value) => [value]);

it("reads dates that can be read in two ways as the others of their column are written", () => {
  const values = column([12.7, 12.6, 12.62, 12.5, 12.4, 12.42]);
  const days = dates(6).map(([iso]) => iso!.split("-").map(Number));
  const iso = trend(dates(6), values);
  expect(iso[0]![0]).toBe("falling");
  expect(
    trend(
      days.map(([y, m, d]) => [`${d}/${m}/${y}`]),
      values,
    ),
  ).toEqual(iso);
  expect(
    trend(
      days.map(([y, m, d]) => [`${m}/${d}/${y! - 2000}`]),
      values,
    ),
  ).toEqual(iso);
});

describe("TREND over a replaced battery", () => {
  const volts = [10.1, 10.0, 9.9, 9.8, 9.65, 9.5, 10.8, 10.75, 10.7, 10.65, 10.6, 10.55];

  it("starts anew with it, and says so", () => {
    const row = trend(dates(12), column(volts), [[9.6]])[0]!;
    expect(row[0]).toBe("falling");
    // 0.05 V in 30 days.
    expect(row[1]).toBeCloseTo((-0.05 / 30) * 365.2425, 6);
    expect(row[8]).toBe(6);
    expect(row[9]).toMatch(new RegExp(`starts anew on ${isoDate(45000 + 180)}, 1.1 higher than before`, "u"));
  });
  it("is the trend of the visits since", () => {
    const whole = trend(dates(12), column(volts), [[9.6]])[0]!;
    const since = trend(dates(12).slice(6), column(volts.slice(6)), [[9.6]])[0]!;
    expect(whole.slice(0, 9)).toEqual(since.slice(0, 9));
  });
  it("does not begin anew with a fall towards the limit", () => {
    const fallen = [10.8, 10.8, 10.75, 10.8, 10.75, 10.75, 9.9, 9.9, 9.85, 9.9, 9.85, 9.85];
    const row = trend(dates(12), column(fallen), [[9.6]])[0]!;
    expect([row[0], row[8], row[9]]).toEqual(["falling", 12, "nothing"]);
  });
});
