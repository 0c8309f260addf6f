import { trend } from "../../src/functions/fleet";

describe("CHG.TREND", () => {
  const dates = Array.from({ length: 8 }, (_, i) => [45000 + 30 * i]);
  const values = dates.map(([d]) => [11 - (d! - 45000) / 300]);
  it("gives state, slope a year and the crossing day", () => {
    const [row] = trend(dates, values, [[9.6]]);
    expect(row![0]).toBe("falling");
    expect(row![1] as number).toBeCloseTo(-365.2425 / 300, 6);
    expect(row![5] as number).toBeCloseTo(45000 + 300 * 1.4, 3);
    expect(row![8]).toBe(8);
  });
  it("skips blanks in pairs and reads text dates", () => {
    expect(
      trend([["2026-01-01"], ["2026-02-01"], [""], ["2026-03-01"], ["2026-04-01"]], [[1], [2], [3], [""], [4]])[0]![8],
    ).toBe(3);
    expect(trend([[""]], [[""]])).toEqual([[""]]);
  });
  it.each([
    [[[45000], [45001]], [[1]], [[""]], /2 dates, 1 values/],
    [[["3/4/2026"]], [[1]], [[""]], /year-month-day/],
    [[[45000]], [["abc"]], [[""]], /values: "abc"/],
    [[[45000]], [[1]], [["x"]], /limit: "x"/],
  ])("refuses %j, %j, limit %j", (d, v, limit, message) => {
    expect(trend(d, v, limit)).toEqual([[{ error: "#VALUE!", message: expect.stringMatching(message) }]]);
  });
});
