import type { MeterFunction } from "../readings/types";

interface MeterWord {
  readonly label: string;
  readonly synonyms: readonly string[];
}

const word = (label: string, synonyms: readonly string[]): MeterWord => ({ label, synonyms });

/** Names that a Settings sheet uses for the functions of a meter. */
export const METER_WORDS: Readonly<Record<MeterFunction, MeterWord>> = {
  "dc volts": word("DC volts", ["v dc", "vdc", "dc v", "dcv", "volts dc", "dc voltage"]),
  "ac volts": word("AC volts", ["v ac", "vac", "ac v", "acv", "volts ac", "ac voltage"]),
  ohms: word("Ohms", ["ohm", "resistance", "Ω"]),
  megohms: word("Megohms", ["insulation", "megohm", "MΩ"]),
  diode: word("Diode check", ["diode test", "diodes"]),
  "clamp amps": word("Clamp, amps", ["clamp", "dc amps", "amps", "clamp meter", "current clamp"]),
  milliamps: word("Milliamps", ["ma", "milliamp", "dc ma"]),
  temperature: word("Temperature", ["thermometer"]),
  hydrometer: word("Hydrometer", ["specific gravity", "sg"]),
  tachometer: word("Tachometer", ["rpm", "speed"]),
  clock: word("Clock", ["time"]),
};
