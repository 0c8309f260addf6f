import type { TemperatureUnit } from "./open-job";

export type Language = "en" | "es";
export type RuleName = "guarded" | "strict" | "simple";

export interface PaneSettings {
  readonly language: Language;
  readonly temperatures: TemperatureUnit;
  readonly rule: RuleName;
  /** Accuracy of the shop's own meter; a function left out is taken as on a typical one. */
  readonly meter: OwnMeter;
}

/** Functions whose accuracy a shop can enter. */
export const METER_FUNCTIONS = ["dc volts", "ac volts", "ohms", "diode", "clamp amps", "milliamps"] as const;
export type OwnMeterFunction = (typeof METER_FUNCTIONS)[number];
export interface Accuracy {
  /** ± of the reading [%], 0 to 20. */
  readonly percent?: number;
  /** ± steps of the last digit, 0 to 200. */
  readonly counts?: number;
}
export type OwnMeter = Readonly<Partial<Record<OwnMeterFunction, Accuracy>>>;
export const MOST: Readonly<Record<keyof Accuracy, number>> = { percent: 20, counts: 200 };

/** A place that keeps small texts between visits; `localStorage` is one. */
export interface Keeper {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

export const DEFAULTS: PaneSettings = { language: "en", temperatures: "°C", rule: "guarded", meter: {} };

const KEY = "chargewright.settings";
const DRAFTS = "chargewright.drafts";

export function loadSettings(keeper: Keeper | undefined, language: Language): PaneSettings {
  const kept = readJson(keeper, KEY);
  const chosen: Partial<Record<keyof PaneSettings, unknown>> = typeof kept === "object" && kept !== null ? kept : {};
  const oneOf = <T extends string>(value: unknown, all: readonly T[], otherwise: T): T =>
    all.find((x) => x === value) ?? otherwise;
  return {
    language: oneOf(chosen.language, ["en", "es"], language),
    temperatures: oneOf(chosen.temperatures, ["°C", "°F"], DEFAULTS.temperatures),
    rule: oneOf(chosen.rule, ["guarded", "strict", "simple"], DEFAULTS.rule),
    meter: keptMeter(chosen.meter),
  };
}

function keptMeter(kept: unknown): OwnMeter {
  const meter: Partial<Record<OwnMeterFunction, Accuracy>> = {};
  for (const of of METER_FUNCTIONS) {
    const entry = (kept as Record<string, Record<string, unknown> | undefined> | undefined)?.[of];
    const figure = (name: keyof Accuracy) => {
      const value = entry?.[name];
      return typeof value === "number" && value >= 0 && value <= MOST[name] ? { [name]: value } : {};
    };
    const accuracy: Accuracy = { ...figure("percent"), ...figure("counts") };
    if (Object.keys(accuracy).length > 0) meter[of] = accuracy;
  }
  return meter;
}

export function keepSettings(keeper: Keeper | undefined, settings: PaneSettings): void {
  writeJson(keeper, KEY, settings);
}

/** Texts that were typed but could not be read: kept until they are corrected or taken back. */
export class Drafts {
  private readonly texts: Map<string, string>;

  constructor(private readonly keeper: Keeper | undefined) {
    const kept = readJson(keeper, DRAFTS);
    this.texts = new Map(
      Array.isArray(kept)
        ? kept.filter(
            (pair): pair is [string, string] =>
              Array.isArray(pair) && pair.length === 2 && pair.every((x) => typeof x === "string"),
          )
        : [],
    );
  }

  get(key: string): string | undefined {
    return this.texts.get(key);
  }

  set(key: string, text: string | undefined): void {
    if (text === undefined) {
      if (!this.texts.delete(key)) return;
    } else this.texts.set(key, text);
    writeJson(this.keeper, DRAFTS, [...this.texts]);
  }
}

function readJson(keeper: Keeper | undefined, key: string): unknown {
  try {
    const text = keeper?.getItem(key);
    return text ? (JSON.parse(text) as unknown) : undefined;
  } catch {
    // A host may forbid storage, and what is stored may be another program's: the defaults stand.
    return undefined;
  }
}

function writeJson(keeper: Keeper | undefined, key: string, value: unknown): void {
  try {
    keeper?.setItem(key, JSON.stringify(value));
  } catch {
    // Storage that is full or forbidden loses only the convenience.
  }
}
