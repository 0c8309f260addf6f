import fc from "fast-check";
import { FleetHistoryReader, historyOfTable } from "../../../../src/core/fleet/history/fleet-history";
import type { Cell } from "../../../../src/core/cell";
import { isoDate } from "../../../../src/core/fleet/dates";
import type { Notice } from "../../../../src/core/fleet/history/types";
import { Random } from "../../../../src/tools/simulation/random";

const noticesOf = (table: readonly (readonly Cell[])[]) =>
  historyOfTable(table).notices.map(({ row, column, kind, what }) => ({ row, column, kind, what }));
const day = (visit: number) => isoDate(45000 + visit * 30);

describe("duplicate machines", () => {
  it("the same machine on one day: entered twice, or with other readings", () => {
    const found = noticesOf([
      ["Unit", "Date", "Rested voltage"],
      ["Quad 1", "2026-01-05", 12.6],
      ["quad 1", "2026-01-05", 12.6],
      ["Quad 1", "2026-01-05", 12.1],
    ]);
    expect(found.map(({ row, column, kind }) => [row, column, kind])).toEqual([
      [3, "Unit", "duplicate machine"],
      [4, "Unit", "duplicate machine"],
    ]);
    expect(found[0]!.what).toMatch(/row 2, with the same readings: entered twice/u);
    expect(found[1]!.what).toMatch(/row 3, with other readings/u);
  });
  it("one name on two rows of a table without dates", () => {
    expect(
      noticesOf([
        ["Machine", "Rested voltage"],
        ["A 1", 12.6],
        ["B 1", 12.5],
        ["A 1", 12.4],
      ]),
    ).toMatchObject([{ row: 4, kind: "duplicate machine" }]);
  });
  it("two serial numbers under one name", () => {
    const found = noticesOf([
      ["Machine", "Date", "Serial no", "Rested voltage"],
      ["A 1", "2026-01-05", "S1", 12.6],
      ["A 1", "2026-02-05", "S2", 12.6],
    ]);
    expect(found).toMatchObject([{ row: 3, column: "Serial no", kind: "duplicate machine" }]);
    expect(found[0]!.what).toContain("S2");
  });
  it("visits on other days are none", () =>
    expect(
      noticesOf([
        ["Machine", "Date", "Rested voltage"],
        ["A 1", "2026-01-05", 12.6],
        ["A 1", "2026-01-06", 12.6],
      ]),
    ).toEqual([]));
});

describe("renamed machines", () => {
  const named = (...names: string[]) =>
    noticesOf([["Machine", "Date", "Rested voltage"], ...names.map((name, i) => [name, day(i), 12.6])]).filter(
      ({ kind }) => kind === "renamed machine",
    );
  it.each([
    ["Garden tractor 7", "Garden-tractor 07"],
    ["Garden tractor 7", "Gadren tractor 7"],
    ["Garden tractor 7", "Garden tracor 7"],
    ["Tracteur élevé 3", "Tracteur eleve 3"],
  ])("%s and %s are proposed", (a, b) => {
    expect(named(a, a, b)).toMatchObject([{ row: 4, column: "Machine" }]);
  });
  it.each([
    ["Quad 1", "Quad 2"],
    ["Quad 1", "Quad 11"],
    ["Quad 7A", "Quad 7B"],
    ["Mower 1", "Loader 1"],
  ])("%s and %s are two machines", (a, b) => expect(named(a, a, b)).toEqual([]));
  it("says from when on only the new name comes, and merges nothing", () => {
    const [found] = named("Mower 3", "Mower 3", "Mower-3", "Mower-3");
    expect(found!.what).toContain(`From ${day(2)} on only this name comes: renamed? They were taken as two.`);
  });
  it("no serial number, date or battery where the cell says that it is not known", () => {
    expect(
      noticesOf([
        ["Machine", "Date", "Serial no", "Battery serial number", "Rested voltage"],
        ["Alpha", "n/a", "n/a", "-", 12.6],
        ["Bravo", "2026-01-05", "N/A", "-", 12.5],
        ["Bravo", "2026-02-05", "unknown", "n.a.", 12.5],
      ]),
    ).toEqual([]);
  });
  it("one serial number under two names", () => {
    const found = noticesOf([
      ["Machine", "Date", "Serial no", "Rested voltage"],
      ["North 4", "2026-01-05", "S1", 12.6],
      ["Depot 9", "2026-02-05", "s1", 12.6],
    ]);
    expect(found).toMatchObject([{ row: 3, column: "Serial no", kind: "renamed machine" }]);
  });
});

describe("mixed units", () => {
  it("counts cells of another unit", () => {
    const found = noticesOf([
      ["Machine", "Key-off draw"],
      ["A 1", "3 mA"],
      ["A 2", 4],
      ["A 3", "0.005 A"],
      ["A 4", "6 mA"],
    ]);
    expect(found).toMatchObject([{ row: 4, column: "Key-off draw", kind: "mixed units" }]);
    expect(found[0]!.what).toBe(
      "1 cell is written in A, from this row on, the other 3 in mA; each was read in its own unit.",
    );
  });
  it("spellings of one unit are no mix", () =>
    expect(
      noticesOf([
        ["Machine", "Rested voltage (V)"],
        ["A 1", "12.6 V"],
        ["A 2", "12.6 volts"],
        ["A 3", 12.4],
      ]),
    ).toEqual([]));
  const column = (odd: Cell) =>
    noticesOf([
      ["Machine", "Battery temperature (°C)"],
      ...Array.from({ length: 12 }, (_, i) => [`A ${i}`, 18 + (i % 5)]),
      ["B 1", odd],
    ]).filter(({ kind }) => kind === "mixed units");
  it("shows a bare 70 among degrees Celsius near 20", () => {
    expect(column(70)).toMatchObject([{ row: 14, column: "Battery temperature (°C)" }]);
    expect(column(70)[0]!.what).toContain("would fit them in °F; it was read as it stands");
  });
  it("asks for the unit of a column that is likely all in another one", () => {
    const whole = (header: string, ...cells: readonly Cell[]) =>
      noticesOf([["Machine", header], ...cells.map((cell, i) => [`A ${i}`, cell])]).map(({ row, what }) => [row, what]);
    const asked = (value: string, unit: string) => [
      [2, `the middle one of these readings is ${value}; if the column is in ${unit}, write the unit in its header.`],
    ];
    // 70 °F is a mild day; clocks and memories draw some milliamperes (common practice).
    expect(whole("Battery temp", 70, 68, 75)).toEqual(asked("70 °C", "°F"));
    expect(whole("Key-off draw", 0.004, 0.06, 0.003)).toEqual(asked("0.004 mA", "A"));
    for (const [header, ...cells] of [
      ["Battery temp (F)", 70, 68, 75],
      ["Battery temp", 30, 70, 28],
      ["Battery temp", 70, 68],
      ["Key-off draw (A)", 0.004, 0.06, 0.003],
      ["Key-off draw", 0, 0, 0],
      ["Key-off draw", 4, 0.2, 3],
    ] as const)
      expect([header, whole(header, ...cells)]).toEqual([header, []]);
  });
  it("lets a hot battery and a written °F be", () => {
    expect(column(45)).toEqual([]);
    expect(column("70 °F")).toMatchObject([{ what: expect.stringContaining("written in °F") }]);
  });
});

describe("dates far off", () => {
  const visits = (...days: readonly string[]) =>
    noticesOf([
      ["Machine", "Day", "Rested voltage"],
      ...days.map((on, i) => [`Cart ${"ABCDEFGH"[i]}`, on, 12.6 + i / 100]),
    ]);
  const usual = ["2026-01-05", "2026-01-06", "2026-02-05", "2026-03-01", "2026-03-02"];

  it("are named where a year is likely a slip, and nothing is made of them", () => {
    // 2062-03-02 is 36 years of 365.25 days after 2026-03-02, 2006-01-05 twenty before 2026-01-05.
    expect(visits(...usual, "2062-03-02")).toEqual([
      {
        row: 7,
        column: "Day",
        kind: "date far off",
        what: "2062-03-02 lies 13149 days after all other visits; it was taken as it stands.",
      },
    ]);
    expect(visits("2006-01-05", ...usual).map(({ row, what }) => [row, what])).toEqual([
      [2, "2006-01-05 lies 7305 days before all other visits; it was taken as it stands."],
    ]);
  });
  it("are none where visits go on, in a short table, or where many stand apart", () => {
    expect(visits(...usual, "2028-06-01")).toEqual([]);
    expect(visits("2006-01-05", "2026-01-05")).toEqual([]);
    expect(visits("2016-01-05", "2016-02-05", ...usual)).toEqual([]);
  });
});

describe("a changed meter", () => {
  const header = ["Machine", "Date", "Rested voltage", "Cranking voltage", "Idle voltage", "Charging voltage"];
  const fleet = (machines: number, gain: (visit: number, column: number) => number) => {
    const random = new Random(12);
    return Array.from({ length: machines }, (_, m) =>
      Array.from({ length: 12 }, (_, v) => [
        `Quad ${m + 1}`,
        day(v),
        ...[12.6, 10.4, 13.6, 14.3].map((volts, c) =>
          (gain(v, c) * (volts + random.normal(0, [0.03, 0.06, 0.03, 0.02][c]!))).toFixed(2),
        ),
      ]),
    ).flat();
  };
  const meters = (table: readonly (readonly Cell[])[]) =>
    noticesOf([header, ...table]).filter((n) => n.kind === "changed meter");

  it("steps all voltages of all machines at one day: said once, at the first row that shows it", () => {
    const found = meters(fleet(8, (v) => (v >= 6 ? 1.025 : 1)));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ row: 8, column: "Rested voltage" });
    expect(found[0]!.what).toContain(`from ${day(6)} on all voltages on 8 machines read 2.5 % higher`);
  });
  it("is seen on one machine alone", () =>
    expect(meters(fleet(1, (v) => (v >= 6 ? 0.96 : 1)))[0]?.what).toMatch(
      /on this machine read (?:3\.[89]|4(?:\.[01])?) % lower/u,
    ));
  it("is not what one reading alone does: a regulator, a battery", () => {
    expect(meters(fleet(8, (v, c) => (v >= 6 && c === 3 ? 1.03 : 1)))).toEqual([]);
    expect(meters(fleet(8, (v, c) => (v >= 6 && c <= 1 ? 1.05 : 1)))).toEqual([]);
  });
  it("is not seen where nothing changed", () => expect(meters(fleet(8, () => 1))).toEqual([]));
  it("starts the trends anew", () => {
    const { trends } = historyOfTable([header, ...fleet(8, (v) => (v >= 6 ? 1.025 : 1))]);
    expect(trends.every((t) => t.anew && isoDate(t.since) === day(6))).toBe(true);
    expect(trends.length).toBe(16);
  });
});

describe("storage and new batteries", () => {
  const header = ["Machine", "Date", "Battery type", "Capacity", "Cranking voltage"];
  it("names a long time without a visit", () => {
    const visits = [0, 1, 2, 3, 8, 9, 10].map((v, i) => ["Mower 1", day(v), "agm", 14, 10.4 - (i % 2) * 0.05]);
    expect(noticesOf([header, ...visits])).toMatchObject([
      {
        row: 6,
        column: "Date",
        kind: "storage",
        what: expect.stringMatching(/no visit for 150 days since .* \(usual: 30\)/u),
      },
    ]);
  });
  it("a battery shows by its strength, and the trend counts from it on", () => {
    const volts = [10.1, 10.0, 9.9, 9.8, 9.65, 9.5, 10.8, 10.75, 10.7, 10.65, 10.6, 10.55];
    const table = [header, ...volts.map((v, i) => ["Mower 1", day(i), "agm", 14, v])];
    expect(noticesOf(table)).toMatchObject([{ row: 8, column: "Cranking voltage", kind: "battery replaced" }]);
    const [found] = historyOfTable(table).trends;
    expect(found).toMatchObject({ anew: true, reading: "cranking-voltage", limit: 9.6 });
    expect(isoDate(found!.since)).toBe(day(6));
    // 0.05 V in 30 days.
    expect(found!.trend.perYear).toBeCloseTo((-0.05 / 30) * 365.2425, 2);
  });
  it("a battery shows by what is written of it, a single odd row does not", () => {
    const row = (i: number, ah: number) => ["Mower 1", day(i), "agm", ah, 10.4 + (i % 2) * 0.03];
    const changed = [14, 14, 14, 18, 18, 18].map((ah, i) => row(i, ah));
    expect(noticesOf([header, ...changed])).toMatchObject([{ row: 5, column: "Capacity", kind: "battery replaced" }]);
    const odd = [14, 14, 18, 14, 14, 14].map((ah, i) => row(i, ah));
    expect(noticesOf([header, ...odd])).toEqual([]);
  });
  it.each([
    ["Battery serial number", "B-1041", "B-2207"],
    ["Batterie-Nr.", 1041, 2207],
    ["Battery fitted", "2022-03-01", 45100],
    ["Battery installed", "03/2022", "2023-06-23"],
  ])("another battery of the same kind shows by its own %s", (column, before, after) => {
    const table = [
      ["Machine", "Date", "Battery type", column, "Rested voltage"],
      ...[before, before, before, after, after].map((battery, i) => ["Quad", day(i), "agm", battery, 12.6]),
    ];
    expect(noticesOf(table)).toMatchObject([{ row: 5, column, kind: "battery replaced" }]);
    const renamed = table.map((row, i) => (i === 0 ? row : [`Quad ${i}`, ...row.slice(1)]));
    expect(noticesOf(renamed)).toEqual([]);
  });
  it("a note that a battery was replaced is not which one it is", () => {
    const table = [
      ["Machine", "Date", "Battery replaced", "Rested voltage"],
      ...["no", "no", "yes", "yes", "no", "no"].map((word, i) => ["Quad", day(i), word, 12.6]),
    ];
    expect(noticesOf(table)).toEqual([]);
  });
});

describe("one visit under two names", () => {
  it("[property] is found as by comparing every row with every earlier one", () => {
    const cell = fc.constantFrom<Cell>("", 12.5, 12.6);
    const row = fc.tuple(fc.constantFrom("A", "B", "C"), fc.nat(2), cell, cell, cell, cell, cell);
    fc.assert(
      fc.property(fc.array(row, { maxLength: 40 }), (rows) => {
        const table = rows.map(([name, visit, ...readings]): Cell[] => [name, day(visit), ...readings]);
        const found = historyOfTable([["Machine", "Date", ...VOLTAGES], ...table]).notices.filter(({ what }) =>
          what.includes("under two names; both"),
        );
        const names = [...new Set(rows.map(([name]) => name))];
        const inTurn = table
          .map((cells, i) => ({ cells, row: i + 2 }))
          .sort((a, b) => names.indexOf(a.cells[0] as never) - names.indexOf(b.cells[0] as never) || a.row - b.row);
        const expected = inTurn.flatMap(({ cells, row: at }, i) => {
          if (cells.slice(2).filter((value) => value !== "").length < 4) return [];
          const key = cells.slice(1).join();
          const first = inTurn.slice(0, i).find((other) => other.cells.slice(1).join() === key);
          return first && first.cells[0] !== cells[0] ? [`${at} ${first.row}`] : [];
        });
        const said = found.map(({ row: at, what }) => `${at} ${/in row (\d+)/u.exec(what)![1]}`);
        expect(said.sort()).toEqual(expected.sort());
      }),
      { seed: 20261125, numRuns: 60 },
    );
  });
});

const VOLTAGES = ["Rested voltage", "Cranking voltage", "Load test voltage", "Idle voltage", "Voltage at test speed"];

describe("several tables", () => {
  it("are one fleet, and rows of another file are named with it", () => {
    const reader = new FleetHistoryReader();
    for (const file of ["may.csv", "june.csv"]) {
      reader.table(["Machine", "Date", "Rested voltage"], file);
      reader.row(["Quad 1", "2026-05-04", 12.6], 2);
    }
    const notices: Notice[] = [];
    reader.finish(
      (notice) => notices.push(notice),
      () => undefined,
    );
    expect(notices.map((n) => [reader.fileOf(n), n.row])).toEqual([["june.csv", 2]]);
    expect(notices[0]!.what).toContain("row 2 of may.csv");
  });
});
