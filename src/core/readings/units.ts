import { fail, ok, type Result } from "../result";

/** Units a quantity of the catalogue can have. */
export type Unit =
  | "V"
  | "V AC"
  | "A"
  | "mA"
  | "Ω"
  | "MΩ"
  | "°C"
  | "h"
  | "s"
  | "min"
  | "Ah"
  | "W"
  | "rpm"
  | "Hz"
  | "SG"
  | "%"
  | "m"
  | "mm²"
  | "K"
  | "ms"
  | "d"
  | "mV/°C"
  | "V/krpm"
  | "1";

/** What one unit word stands for: kind of quantity and the line to its base, base = value · scale + offset. */
interface UnitWord {
  readonly kind: string;
  readonly scale: number;
  readonly offset?: number;
}

const kind = (name: string, words: Record<string, number>): [string, UnitWord][] =>
  Object.entries(words).map(([word, scale]) => [word, { kind: name, scale }]);

/** Words are matched exactly first (mΩ against MΩ), then without regard to case where that is safe. */
const WORDS = new Map<string, UnitWord>([
  ...kind("voltage", {
    V: 1,
    v: 1,
    volt: 1,
    volts: 1,
    mV: 1e-3,
    mv: 1e-3,
    millivolt: 1e-3,
    millivolts: 1e-3,
    kV: 1e3,
    kv: 1e3,
  }),
  ...kind("current", {
    A: 1,
    a: 1,
    amp: 1,
    amps: 1,
    ampere: 1,
    amperes: 1,
    mA: 1e-3,
    ma: 1e-3,
    MA: 1e-3,
    milliamp: 1e-3,
    milliamps: 1e-3,
    µA: 1e-6,
    uA: 1e-6,
    ua: 1e-6,
  }),
  ...kind("resistance", {
    Ω: 1,
    ohm: 1,
    ohms: 1,
    R: 1,
    mΩ: 1e-3,
    milliohm: 1e-3,
    milliohms: 1e-3,
    kΩ: 1e3,
    kohm: 1e3,
    kohms: 1e3,
    k: 1e3,
    K: 1e3,
    MΩ: 1e6,
    megohm: 1e6,
    megohms: 1e6,
    Mohm: 1e6,
    M: 1e6,
    meg: 1e6,
    GΩ: 1e9,
    Gohm: 1e9,
    gohm: 1e9,
  }),
  ...kind("time", {
    h: 3600,
    hr: 3600,
    hrs: 3600,
    hour: 3600,
    hours: 3600,
    min: 60,
    mins: 60,
    minute: 60,
    minutes: 60,
    s: 1,
    sec: 1,
    secs: 1,
    second: 1,
    seconds: 1,
    ms: 1e-3,
    d: 86400,
    day: 86400,
    days: 86400,
  }),
  ...kind("charge", { Ah: 1, ah: 1, AH: 1, mAh: 1e-3, mah: 1e-3 }),
  ...kind("power", { W: 1, w: 1, watt: 1, watts: 1, kW: 1e3, kw: 1e3 }),
  ...kind("speed", { rpm: 1, RPM: 1, krpm: 1e3, "1/min": 1, "r/min": 1, "min-1": 1 }),
  ...kind("frequency", { Hz: 1, hz: 1, kHz: 1e3, khz: 1e3 }),
  ...kind("density", { SG: 1, sg: 1, "kg/L": 1, "kg/l": 1 }),
  ...kind("share", { "%": 0.01, percent: 0.01, pct: 0.01 }),
  ...kind("length", {
    m: 1,
    mm: 1e-3,
    cm: 1e-2,
    ft: 0.3048,
    feet: 0.3048,
    foot: 0.3048,
    in: 0.0254,
    inch: 0.0254,
    inches: 0.0254,
  }),
  ...kind("area", { "mm²": 1, mm2: 1, "mm^2": 1, sqmm: 1 }),
  ...["°C", "C", "c", "degC", "deg C", "celsius", "Celsius"].map((w): [string, UnitWord] => [
    w,
    { kind: "temperature", scale: 1 },
  ]),
  ...["°F", "F", "f", "degF", "deg F", "fahrenheit", "Fahrenheit"].map((w): [string, UnitWord] => [
    w,
    { kind: "temperature", scale: 5 / 9, offset: -160 / 9 },
  ]),
]);

/** The kind and the scale of each catalogue unit, against the bases of `WORDS`. */
const CATALOGUE: Record<Unit, UnitWord> = {
  V: { kind: "voltage", scale: 1 },
  "V AC": { kind: "voltage", scale: 1 },
  A: { kind: "current", scale: 1 },
  mA: { kind: "current", scale: 1e-3 },
  Ω: { kind: "resistance", scale: 1 },
  MΩ: { kind: "resistance", scale: 1e6 },
  "°C": { kind: "temperature", scale: 1 },
  h: { kind: "time", scale: 3600 },
  s: { kind: "time", scale: 1 },
  min: { kind: "time", scale: 60 },
  ms: { kind: "time", scale: 1e-3 },
  d: { kind: "time", scale: 86400 },
  Ah: { kind: "charge", scale: 1 },
  W: { kind: "power", scale: 1 },
  rpm: { kind: "speed", scale: 1 },
  Hz: { kind: "frequency", scale: 1 },
  SG: { kind: "density", scale: 1 },
  "%": { kind: "share", scale: 0.01 },
  m: { kind: "length", scale: 1 },
  "mm²": { kind: "area", scale: 1 },
  K: { kind: "difference", scale: 1 },
  "mV/°C": { kind: "coefficient", scale: 1 },
  "V/krpm": { kind: "emf", scale: 1 },
  "1": { kind: "share", scale: 1 },
};

/** Trailing words of a meter's mode that say nothing about the size of a value. */
const MODE = /\s*(?:\b(?:dc|ac|vdc|vac|rms|true rms|eff)\b|[⎓~=])\s*$/iu;

/** Meant as milli by some and as mega by others: asked, never guessed. */
const MILLI_OR_MEGA = new Set(["mohm", "mohms", "mOhm", "mOhms", "MOHM", "MOHMS", "m ohm", "m ohms", "m Ω"]);

/**
 * Converts `value` in the unit a person wrote into `unit`.
 *
 * @param value - Number as written
 * @param word - Unit as written, mode words (DC, AC, rms) allowed; blank means `unit` itself
 * @param unit - Catalogue unit wanted
 * @param what - Name of the quantity, for the message
 * @returns Value in `unit`; `ambiguous` for a word that means two sizes, `not-understood` for a foreign unit
 */
export function toUnit(value: number, word: string, unit: Unit, what: string): Result<number> {
  const wanted = CATALOGUE[unit];
  const bare = stripMode(word);
  if (bare === "") return ok(value);
  if (MILLI_OR_MEGA.has(bare) && wanted.kind === "resistance") {
    return fail({
      code: "ambiguous",
      what,
      came: `${plain(value)} ${word.trim()}`,
      question: "write milliohm (mΩ) or megohm (MΩ)",
    });
  }
  const found = lookUp(bare, wanted.kind);
  if (!found || found.kind !== wanted.kind) {
    return fail({
      code: "not-understood",
      what,
      came: `${plain(value)} ${word.trim()}`,
      expected: unit === "1" ? "a share such as 0.5 or 50 %" : `a number in ${unit}`,
    });
  }
  // Decimal units are powers of ten: rounding at 12 digits keeps 350 mA equal to 0.35 A.
  return ok(Number(((value * found.scale + (found.offset ?? 0)) / wanted.scale).toPrecision(12)));
}

/** A unit that stands in a cell of its own, without its brackets. */
export function unitAlone(text: string): string {
  return text.trim().replaceAll(/^[([{]|[)\]}]$/gu, "");
}

/** True where `word` names a unit of the same kind as `unit` (for header matching). */
export function isUnitWordFor(word: string, unit: Unit): boolean {
  const bare = stripMode(word);
  return bare !== "" && lookUp(bare, CATALOGUE[unit].kind)?.kind === CATALOGUE[unit].kind;
}

function stripMode(word: string): string {
  let bare = word.trim().replaceAll("Ω", "Ω").replaceAll("μ", "µ");
  for (const joined of ["VDC", "VAC", "Vdc", "Vac", "vdc", "vac"]) if (bare === joined) return "V";
  for (const joined of ["mVAC", "mVac", "mVDC", "mVdc"]) if (bare === joined) return "mV";
  for (const joined of ["ADC", "Adc", "AAC", "Aac"]) if (bare === joined) return "A";
  for (let before = ""; before !== bare;) {
    before = bare;
    bare = bare.replace(MODE, "");
  }
  return bare;
}

function lookUp(bare: string, kindWanted: string): UnitWord | undefined {
  const exact = WORDS.get(bare);
  if (exact && exact.kind === kindWanted) return exact;
  const lower = WORDS.get(bare.toLowerCase());
  return lower && lower.kind === kindWanted ? lower : exact;
}

function plain(value: number): string {
  return String(Number(value.toPrecision(12)));
}
