import type { TemperatureUnit } from "./open-job";

export type Language = "en" | "es";
export type RuleName = "guarded" | "strict" | "simple";

export interface PaneSettings {
  readonly language: Language;
  readonly temperatures: TemperatureUnit;
  readonly rule: RuleName;
}

/** A place that keeps small texts between visits; `localStorage` is one. */
export interface Keeper {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

export const DEFAULTS: PaneSettings = { language: "en", temperatures: "°C", rule: "guarded" };

const KEY = "chargewright.settings";
const DRAFTS = "chargewright.drafts";

export function loadSettings(keeper: Keeper | undefined, language: Language): PaneSettings {
  const kept = readJson(keeper, KEY);
  const chosen: Partial<Record<keyof PaneSettings, unknown>> = typeof kept === "object" && kept !== null ? kept : {};
  const oneOf = <T extends string>(value: unknown, all: readonly T[], otherwise: T): T => all.find((x) => x === value) ?? otherwise;
  return {
    language: oneOf(chosen.language, ["en", "es"], language),
    temperatures: oneOf(chosen.temperatures, ["°C", "°F"], DEFAULTS.temperatures),
    rule: oneOf(chosen.rule, ["guarded", "strict", "simple"], DEFAULTS.rule),
  };
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
      Array.isArray(kept) ? kept.filter((pair): pair is [string, string] => Array.isArray(pair) && pair.length === 2 && pair.every((x) => typeof x === "string")) : [],
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
