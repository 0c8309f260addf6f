import { CATALOGUE, entryOf } from "../../../src/core/readings/catalogue";
import { parseEntry, parseQuantity, type QuantitySpec } from "../../../src/core/readings/parse";
import { SPANISH_CHOICES } from "../../../src/core/readings/spanish-labels";
import { faultMessage } from "../../../src/core/result";
import type { Cell } from "../../../src/core/cell";

const volts: QuantitySpec = { what: "Rested voltage", unit: "V", min: 0, max: 20 };
const ohms: QuantitySpec = { what: "Winding AB", unit: "Ω", min: 0, max: 1e9, overload: true };
const rpm: QuantitySpec = { what: "Test speed", unit: "rpm", min: 200, max: 20000 };
const temp: QuantitySpec = { what: "Battery temperature", unit: "°C", min: -60, max: 90 };
const gravity: QuantitySpec = { what: "Cell 1", unit: "SG", min: 0.9, max: 1.4 };
const draw: QuantitySpec = { what: "Key-off draw", unit: "mA", min: 0, max: 20000 };
const share: QuantitySpec = { what: "State of charge", unit: "1", min: 0, max: 1 };

function value(cell: Cell, spec: QuantitySpec) {
  const parsed = parseQuantity(cell, spec);
  if (!parsed.ok) return faultMessage(parsed.fault);
  const m = parsed.value;
  if (m === null) return null;
  return m.kind === "number"
    ? m.value
    : m.kind === "overload"
      ? "OL"
      : m.kind === "above"
        ? `>${m.value}`
        : m.kind === "below"
          ? `<${m.value}`
          : m;
}

// As a spreadsheet keeps 15 % that is typed into a cell.
it.each([
  [0.15, 15],
  [15, 15],
  [1, 1],
  [0, 0],
  ["15 %", 15],
])("a tolerance of %p is %p percent", (cell, percent) => {
  const entry = CATALOGUE.find(({ id }) => id === "no-load-tolerance")!;
  expect(parseEntry(cell, entry)).toMatchObject({ ok: true, value: { kind: "number", value: percent } });
});

// Poles are counted: no share of anything.
it("a count that cannot be read asks for a number, not for a share", () => {
  expect(parseEntry("many", entryOf("poles")!)).toMatchObject({ ok: false, fault: { expected: "a number" } });
});

it.each([
  ["battery-type", "n/a"],
  ["battery-type", "-"],
  ["battery-type", "Unknown"],
  ["machine-serial", "n/a"],
  ["regulator-part-number", "--"],
])("what says that nothing is known is as good as blank in %s: %s", (id, cell) => {
  expect(parseEntry(cell, entryOf(id)!)).toEqual({ ok: true, value: null });
});

// It is one of the kinds of bridge that may be chosen.
it("a word that can be chosen stays one", () => {
  expect(parseEntry("unknown", entryOf("bridge-kind")!)).toMatchObject({ value: { kind: "choice", value: "unknown" } });
});

// A meter's accuracy is less than one percent.
it("a percentage that is no reading's stays what it says", () => {
  expect(value(0.8, { what: "± %", unit: "%", min: 0, max: 50 })).toBe(0.8);
});

describe("readings as people type them", () => {
  const understood: [Cell, QuantitySpec, unknown][] = [
    [12.6, volts, 12.6],
    ["n/a", volts, null],
    ["N.A.", rpm, null],
    [" – ", volts, null],
    ["--", draw, null],
    ["not taken", volts, null],
    ["Sin medir", volts, null],
    ["sin datos", volts, null],
    ["NULL", volts, null],
    ["NaN", volts, null],
    ["unknown", volts, null],
    ["12.6", volts, 12.6],
    ["12,6 V", volts, 12.6],
    [".35", volts, 0.35],
    ["14.4V DC", volts, 14.4],
    ["14.4 VDC (hot)", volts, 14.4],
    ["12.6 V after charge", volts, 12.6],
    ["12.6 after charge", volts, 12.6],
    ["~12.6", volts, 12.6],
    ["12600 mV", volts, 12.6],
    ["350mV", volts, 0.35],
    [" 12.6 ", volts, 12.6],
    ["'12.6", volts, 12.6],
    ["+12.6", volts, 12.6],
    ["12.", volts, 12],
    ["OL", ohms, "OL"],
    ["0L", ohms, "OL"],
    ["O.L.", ohms, "OL"],
    ["0.L", ohms, "OL"],
    ["open", ohms, "OL"],
    ["∞", ohms, "OL"],
    ["OL MΩ", ohms, "OL"],
    ["ol (both ways)", ohms, "OL"],
    [">50M", ohms, ">50000000"],
    ["> 50 MΩ", ohms, ">50000000"],
    ["<0.1", ohms, "<0.1"],
    ["0.35 kohm", ohms, 350],
    ["0.3 Ω", ohms, 0.3],
    ["0.3 ohms", ohms, 0.3],
    ["30 mΩ", ohms, 0.03],
    ["1,234.5 Ω", ohms, 1234.5],
    ["1.234,5", ohms, 1234.5],
    ["1,234,500", ohms, 1234500],
    ["30 milliohm", ohms, 0.03],
    ["2 MΩ", ohms, 2e6],
    ["5,000", rpm, 5000],
    ["5 000 rpm", rpm, 5000],
    ["5.000", rpm, 5000],
    ["1.250 rpm", rpm, 1250],
    ["12.600", volts, 12.6],
    ["1.250", draw, 1.25],
    ["1.234", ohms, 1.234],
    ["5000 RPM", rpm, 5000],
    ["5.5 krpm", rpm, 5500],
    ["70 °F", temp, 21.1111111111],
    ["70F", temp, 21.1111111111],
    ["-5 C", temp, -5],
    ["−5", temp, -5],
    ["21", temp, 21],
    ["1,265", gravity, 1.265],
    ["1.265 SG", gravity, 1.265],
    [1265, gravity, 1.265],
    ["1265", gravity, 1.265],
    ["1,265 (cell 3)", gravity, 1.265],
    ["12.6 V.", volts, 12.6],
    ["12.6v.", volts, 12.6],
    ["350 mA", draw, 350],
    ["0.35 A", draw, 350],
    ["75 %", share, 0.75],
    ["75%", share, 0.75],
    ["0.75", share, 0.75],
    ["", volts, null],
    ["   ", volts, null],
    [null, volts, null],
    ["12,60", volts, 12.6],
    ["1e1", volts, 10],
  ];
  it.each(understood)("%p as %p", (cell, spec, expected) => {
    expect(value(cell, spec)).toEqual(expected);
  });

  const refused: [Cell, QuantitySpec, RegExp][] = [
    ["abc", volts, /Rested voltage: "abc" cannot be read; enter a number in V/],
    ["?", volts, /cannot be read/],
    ["nil", draw, /cannot be read/],
    ["n/a 12.6", volts, /cannot be read/],
    ["12.4-12.6", volts, /one value only/],
    ["12.4/12.6", volts, /one value only/],
    ["12.4 12.6", volts, /one value only/],
    ["12 or 13", volts, /one value only/],
    ["OL", volts, /cannot be read/],
    ["0.3 mohm", ohms, /write milliohm \(mΩ\) or megohm/],
    ["12.6 A", volts, /number in V/],
    ["12.6 X", volts, /"12\.6 X" cannot be read; enter a number in V/],
    ["12.x", volts, /"12\.x" cannot be read; enter a number in V/],
    ["12,60A", volts, /"12,60A" cannot be read; enter a number in V/],
    [900, temp, /900 °C is not possible; enter −60 to 90 °C/],
    ["900 °C", temp, /not possible/],
    ["1,234", ohms, /two ways/],
    ["0.500", rpm, /0\.5 rpm is not possible; enter 200 to 20000 rpm/],
    ["99.999", rpm, /99\.999 rpm is not possible/],
    ["12,345,6", ohms, /cannot be read/],
    [true, volts, /TRUE/],
    [">12", volts, /the value itself/],
    [75, share, /enter 0 to 1\./],
    ["1/2", share, /one value only/],
    [{ error: "#DIV/0!" }, volts, /#DIV\/0!/],
    [Number.NaN, volts, /NaN/],
    [1500, gravity, /1500 is not possible; enter 0\.9 to 1\.4/],
    ["1.2.3", volts, /cannot be read/],
    ["12V3", volts, /cannot be read/],
  ];
  it.each(refused)("%p for %p is refused", (cell, spec, message) => {
    expect(value(cell, spec)).toMatch(message);
  });

  it("keeps the note and the last digit written", () => {
    const parsed = parseQuantity("12.60 V (after charge)", volts);
    expect(parsed).toEqual({
      ok: true,
      value: { kind: "number", value: 12.6, resolution: 0.01, note: "after charge" },
    });
  });
});

it.each(["lead", "Plomb", "plomo", "BLEI"])("reads the plain word for a battery with acid in it: %s", (word) => {
  const entry = entryOf("battery-type")!;
  expect(parseEntry(word, entry)).toEqual({ ok: true, value: { kind: "choice", value: "flooded" } });
});

it("reads the words of a choice in Spanish, each as the one that is meant", () => {
  for (const entry of CATALOGUE) {
    if (entry.kind !== "choice") continue;
    for (const { value } of entry.choices)
      expect(parseEntry(SPANISH_CHOICES[value]?.toUpperCase() ?? value, entry)).toEqual({
        ok: true,
        value: { kind: "choice", value },
      });
  }
});
