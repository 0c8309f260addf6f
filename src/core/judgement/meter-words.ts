import type { MeterFunction } from "../readings/types";
import { METER_UNITS } from "./meter";

interface MeterWord {
  readonly label: string;
  readonly synonyms: readonly string[];
  readonly unit: (typeof METER_UNITS)[MeterFunction];
}

const word = <F extends MeterFunction>(of: F, label: string, synonyms: readonly string[]): MeterWord => ({
  label,
  synonyms,
  unit: METER_UNITS[of],
});

/** Names that a Settings sheet uses for the functions of a meter. */
export const METER_WORDS: Readonly<Record<MeterFunction, MeterWord>> = {
  "dc volts": word("dc volts", "DC volts", ["v dc", "vdc", "dc v", "dcv", "volts dc", "dc voltage"]),
  "ac volts": word("ac volts", "AC volts", ["v ac", "vac", "ac v", "acv", "volts ac", "ac voltage"]),
  ohms: word("ohms", "Ohms", ["ohm", "resistance", "Ω"]),
  megohms: word("megohms", "Megohms", ["insulation", "megohm", "MΩ"]),
  diode: word("diode", "Diode check", ["diode test", "diodes"]),
  "clamp amps": word("clamp amps", "Clamp, amps", ["clamp", "dc amps", "amps", "clamp meter", "current clamp"]),
  milliamps: word("milliamps", "Milliamps", ["ma", "milliamp", "dc ma"]),
  temperature: word("temperature", "Temperature", ["thermometer"]),
  hydrometer: word("hydrometer", "Hydrometer", ["specific gravity", "sg"]),
  tachometer: word("tachometer", "Tachometer", ["rpm", "speed"]),
  clock: word("clock", "Clock", ["time"]),
};
