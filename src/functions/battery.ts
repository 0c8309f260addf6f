/* eslint-disable @typescript-eslint/no-explicit-any -- the metadata generator knows ranges of any cell as any[][] only */
import { cellSpread, STRICT_SPREAD } from "../core/battery/cell-spread";
import { ACCEPTANCE, chargeTime as timeToCharge } from "../core/battery/charge-time";
import { drainDays as daysToDrain } from "../core/battery/drain";
import { correctedGravity, freezingPoint, fullGravityOf, stateOfChargeFromGravity } from "../core/battery/gravity";
import { internalResistance } from "../core/battery/internal-resistance";
import { loadLimit as limitAt } from "../core/battery/load-limit";
import { judgeLoadTest } from "../core/battery/load-test";
import { runTime as timeToRun } from "../core/battery/run-time";
import { restedVoltage, stateOfCharge, stateOfChargeBand } from "../core/battery/state-of-charge";
import { andThen, ok } from "../core/result";
import { number, optional, optionalOrAbsent } from "./arguments";
import {
  AMPS,
  CAPACITY,
  charge,
  END_VOLTS,
  GRAVITY,
  NOMINAL,
  NOMINAL_12,
  OPTIONAL_TEMPERATURE,
  RESTED_VOLTS,
  REST_HOURS,
  STANDARD,
  TEMPERATURE,
  TYPE,
  VOLTS,
} from "./battery-arguments";
import type { FunctionTable } from "./function-table";
import { overCells } from "./over-cells";
import { overRows } from "./over-rows";

/**
 * State of charge from the rested voltage, as a fraction.
 * @customfunction SOC
 * @param volts Rested voltage at the posts, V
 * @param type Battery type: flooded, calcium, agm, gel or lithium (iron phosphate, four cells)
 * @param [temp] Battery temperature, °C; it widens the band of SOCBAND and does not move the value
 * @param [restHours] Hours at rest since charging or a load; as temp
 * @param [nominal] Nominal voltage, 12 or 6 V (12)
 * @returns State of charge, 0 to 1
 * @example =CHG.SOC(12.45, "flooded") gives 0.75
 */
export function soc(volts: any[][], type: any[][], temp?: any[][], restHours?: any[][], nominal?: any[][]): any[][] {
  return overCells(
    [VOLTS, TYPE, OPTIONAL_TEMPERATURE, REST_HOURS, NOMINAL],
    (v, kind, temperature, hoursRested, nominalVolts) =>
      stateOfCharge(v, kind, { temperature, hoursRested, nominal: nominalVolts }),
    [volts, type, temp, restHours, nominal],
  );
}

/**
 * State of charge from the rested voltage with its band: what meter, tables, temperature and a short rest leave open.
 * @customfunction SOCBAND
 * @param volts Rested voltage at the posts, V (one column)
 * @param type Battery type: flooded, calcium, agm, gel or lithium
 * @param [temp] Battery temperature, °C (25)
 * @param [restHours] Hours at rest since charging or a load; taken as fully rested where blank
 * @param [nominal] Nominal voltage, 12 or 6 V (12)
 * @returns Low, likely and high state of charge, and what makes the band wide, side by side
 * @example =CHG.SOCBAND(13, "lithium") gives 0.52, 0.74, 0.94 and a note that the curve is flat
 */
export function socBand(
  volts: any[][],
  type: any[][],
  temp?: any[][],
  restHours?: any[][],
  nominal?: any[][],
): any[][] {
  return overCells(
    [VOLTS, TYPE, OPTIONAL_TEMPERATURE, REST_HOURS, NOMINAL],
    (v, kind, temperature, hoursRested, nominalVolts) =>
      andThen(
        stateOfChargeBand(v, kind, { temperature, hoursRested, nominal: nominalVolts }),
        ({ low, likely, high, note }) => ok([low, likely, high, note]),
      ),
    [volts, type, temp, restHours, nominal],
  );
}

/**
 * State of charge from a hydrometer reading, as a fraction.
 * @customfunction SOCGRAVITY
 * @param sg Specific gravity as read
 * @param [temp] Electrolyte temperature, °C (26.7: no correction)
 * @param [type] Battery type with caps: flooded (full at 1.265) or calcium (full at 1.280); flooded where blank
 * @param [full] Gravity of a full cell where the label says so, 1.250 to 1.300
 * @returns State of charge, 0 to 1
 * @example =CHG.SOCGRAVITY(1.225) gives 0.75
 */
export function socGravity(sg: any[][], temp?: any[][], type?: any[][], full?: any[][]): any[][] {
  return overCells(
    [
      GRAVITY,
      optional(TEMPERATURE, 80 / 3),
      optional(TYPE, "flooded"),
      optionalOrAbsent(number("full", { unit: "SG", min: 1.25, max: 1.3 })),
    ],
    (gravity, temperature, kind, whenFull) =>
      andThen(fullGravityOf(kind), (typical) =>
        andThen(correctedGravity(gravity, temperature), (corrected) =>
          stateOfChargeFromGravity(corrected, whenFull ?? typical),
        ),
      ),
    [sg, temp, type, full],
  );
}

/**
 * Specific gravity corrected to the reference temperature: warm acid reads low.
 * @customfunction GRAVITY
 * @param sg Specific gravity as read
 * @param temp Electrolyte temperature, °C
 * @param [reference] Temperature that the hydrometer is marked for, °C (26.7, which is 80 °F)
 * @param [perDegree] Correction per °C (0.00072, which is 0.004 per 10 °F)
 * @returns Corrected specific gravity
 * @example =CHG.GRAVITY(1.265, "40 °F") gives 1.249
 */
export function gravity(sg: any[][], temp: any[][], reference?: any[][], perDegree?: any[][]): any[][] {
  return overCells(
    [
      GRAVITY,
      TEMPERATURE,
      optionalOrAbsent(number("reference", { unit: "°C", min: 0, max: 40 })),
      optionalOrAbsent(number("correction per °C", { unit: "1", min: 0.0005, max: 0.001 })),
    ],
    (read, temperature, referTo, slope) =>
      correctedGravity(read, temperature, { reference: referTo, perDegree: slope }),
    [sg, temp, reference, perDegree],
  );
}

/**
 * Spread between the cells of a battery, judged: more than the allowed spread in a charged battery means a bad cell.
 * @customfunction CELLSPREAD
 * @param gravities Specific gravities of the cells, one battery a row
 * @param [limit] Allowed spread (0.025, the strict limit)
 * @returns State, spread, number of the lowest cell and the reason, side by side
 * @example =CHG.CELLSPREAD({1.265,1.26,1.27,1.21,1.265,1.265}) gives fail, 0.06, 4 and the reason
 */
export function cellSpreads(gravities: any[][], limit?: any[][]): any[][] {
  return overRows(
    GRAVITY,
    optional(number("limit", { unit: "SG", min: 0.005, max: 0.1 }), STRICT_SPREAD),
    (cells, allowed) =>
      andThen(cellSpread(cells, allowed), ({ judged, spread, lowest }) =>
        ok([judged.state, spread, lowest, judged.reason]),
      ),
    [gravities, limit],
    ["not read", "", "", ""],
  );
}

/**
 * Rested voltage that belongs to a state of charge.
 * @customfunction RESTVOLTS
 * @param soc State of charge, 0 to 1
 * @param type Battery type: flooded, calcium, agm, gel or lithium
 * @param [nominal] Nominal voltage, 12 or 6 V (12)
 * @returns Rested voltage, V
 * @example =CHG.RESTVOLTS(0.5, "flooded") gives 12.24
 */
export function restVolts(soc: any[][], type: any[][], nominal?: any[][]): any[][] {
  return overCells([charge("state of charge"), TYPE, NOMINAL_12], restedVoltage, [soc, type, nominal]);
}

/**
 * Temperature at which the electrolyte freezes. Never charge, test or jump a frozen battery.
 * @customfunction FREEZE
 * @param sg Specific gravity corrected to 80 °F (CHG.GRAVITY)
 * @returns Freezing point, °C
 * @example =CHG.FREEZE(1.15) gives -15
 */
export function freeze(sg: any[][]): any[][] {
  return overCells([GRAVITY], freezingPoint, [sg]);
}

/**
 * Lowest voltage that a good lead-acid battery keeps at the end of a load test.
 * @customfunction LOADLIMIT
 * @param temp Battery temperature, °C, -18 or above
 * @param [nominal] Nominal voltage, 12 or 6 V (12)
 * @returns Limit, V
 * @example =CHG.LOADLIMIT("70 °F") gives 9.6
 */
export function loadLimit(temp: any[][], nominal?: any[][]): any[][] {
  return overCells([TEMPERATURE, NOMINAL_12], limitAt, [temp, nominal]);
}

/**
 * Judges a load test: half the cold cranking amps for 15 s, battery at 75 % charge or more. Eye protection on; never test a frozen, swollen or leaking battery.
 * @customfunction LOADTEST
 * @param volts Voltage at the end, load still on, V (one column)
 * @param amps Load, A
 * @param cca Cold cranking amps of the battery, A (SAE)
 * @param seconds Time under load, s
 * @param [temp] Battery temperature, °C; 5 to 30 assumed where blank
 * @param [restedVolts] Rested voltage before the test, V; below 75 % charge the test is refused
 * @param [type] Battery type; flooded where blank
 * @param [nominal] Nominal voltage, 12 or 6 V (12)
 * @param [standard] Standard of the cold cranking amps: SAE, EN, DIN or IEC (SAE); the others are not converted
 * @returns State, limit (V), chance that it conforms and the reason, side by side
 * @example =CHG.LOADTEST(9.2, 150, 300, 15, 25, 12.6) gives fail, 9.6, 0 and the reason
 */
export function loadTest(
  volts: any[][],
  amps: any[][],
  cca: any[][],
  seconds: any[][],
  temp?: any[][],
  restedVolts?: any[][],
  type?: any[][],
  nominal?: any[][],
  standard?: any[][],
): any[][] {
  return overCells(
    [
      END_VOLTS,
      AMPS,
      number("cold cranking amps", { unit: "A", min: 1, max: 5000 }),
      number("seconds", { unit: "s", min: 0, max: 300 }),
      OPTIONAL_TEMPERATURE,
      RESTED_VOLTS,
      optional(TYPE, "flooded"),
      NOMINAL_12,
      STANDARD,
    ],
    (end, load, rating, time, temperature, rested, kind, nominalVolts, named) =>
      andThen(
        judgeLoadTest({
          volts: end,
          amps: load,
          cca: rating,
          seconds: time,
          temperature,
          restedVolts: rested,
          type: kind,
          nominal: nominalVolts,
          standard: named,
        }),
        ({ state, limit, chance, reason }) => ok([state, limit?.low, chance, reason]),
      ),
    [volts, amps, cca, seconds, temp, restedVolts, type, nominal, standard],
    ["not read", "", "", ""],
  );
}

/**
 * Internal resistance of a battery from its voltage at two loads.
 * @customfunction RESISTANCE
 * @param volts1 Voltage at the first current, V
 * @param amps1 First current out of the battery, A (0 for the open circuit)
 * @param volts2 Voltage at the second current, V
 * @param amps2 Second current out of the battery, A
 * @returns Internal resistance, Ω
 * @example =CHG.RESISTANCE(12.9, 0, 9.6, 550) gives 0.006
 */
export function resistance(volts1: any[][], amps1: any[][], volts2: any[][], amps2: any[][]): any[][] {
  const volts = (name: string) => number(name, { unit: "V", min: 0, max: 1000 });
  const current = (name: string) => number(name, { unit: "A", min: -5000, max: 5000 });
  return overCells([volts("volts1"), current("amps1"), volts("volts2"), current("amps2")], internalResistance, [
    volts1,
    amps1,
    volts2,
    amps2,
  ]);
}

/**
 * Time to charge a battery: the charger's current first, then what it still accepts. Charge in an aired room, away from flames and sparks; lithium never below 0 °C.
 * @customfunction CHARGETIME
 * @param ah Capacity, Ah
 * @param from State of charge at the start, 0 to 1
 * @param to State of charge wanted, 0 to 1 (1 is taken as 99 %: the last hundredth is never reached)
 * @param amps Current of the charger, A
 * @param type Battery type: flooded, calcium, agm, gel or lithium
 * @returns Time, h
 * @example =CHG.CHARGETIME(14, 0.5, 0.8, 1.4, "agm") gives 3.15
 */
export function chargeTime(ah: any[][], from: any[][], to: any[][], amps: any[][], type: any[][]): any[][] {
  return overCells(
    [CAPACITY, charge("from"), charge("to"), number("amps", { unit: "A", min: 0.01, max: 1000 }), TYPE],
    (capacity, start, end, current, kind) => timeToCharge(capacity, start, end, current, ACCEPTANCE[kind]),
    [ah, from, to, amps, type],
  );
}

/**
 * Days until a key-off draw, with the battery's own self-discharge, has taken it from one state of charge to another.
 * @customfunction DRAINDAYS
 * @param ah Capacity, Ah
 * @param from State of charge now, 0 to 1
 * @param to State of charge that counts as flat, 0 to 1
 * @param mA Key-off draw, mA
 * @param [type] Battery type; the draw alone counts where blank
 * @param [temp] Temperature, °C (25); self-discharge doubles with every 10 °C
 * @returns Days
 * @example =CHG.DRAINDAYS(14, 1, 0.5, 30) gives 9.72
 */
export function drainDays(
  ah: any[][],
  from: any[][],
  to: any[][],
  mA: any[][],
  type?: any[][],
  temp?: any[][],
): any[][] {
  return overCells(
    [
      CAPACITY,
      charge("from"),
      charge("to"),
      number("draw", { unit: "mA", min: 0, max: 30000 }),
      optionalOrAbsent(TYPE),
      OPTIONAL_TEMPERATURE,
    ],
    daysToDrain,
    [ah, from, to, mA, type, temp],
  );
}

/**
 * How long a full battery feeds a steady load, by Peukert's rule.
 * @customfunction RUNTIME
 * @param ah Rated capacity, Ah
 * @param rateHours Hours at which the capacity is rated, h (20 on most labels)
 * @param amps Load, A
 * @param k Peukert's exponent, 1 to 2 (1 is the ideal battery)
 * @param [temp] Battery temperature, °C; takes off what cold costs a lead-acid battery
 * @returns Time, h
 * @example =CHG.RUNTIME(70, 20, 3.5, 1) gives 20
 */
export function runTime(ah: any[][], rateHours: any[][], amps: any[][], k: any[][], temp?: any[][]): any[][] {
  return overCells(
    [
      CAPACITY,
      number("rate hours", { unit: "h", min: 0.1, max: 1000 }),
      number("amps", { unit: "A", min: 0.0001, max: 10000 }),
      number("k", { unit: "1", min: 1, max: 2 }),
      OPTIONAL_TEMPERATURE,
    ],
    timeToRun,
    [ah, rateHours, amps, k, temp],
  );
}

export const batteryFunctions = {
  SOC: soc,
  SOCBAND: socBand,
  SOCGRAVITY: socGravity,
  GRAVITY: gravity,
  CELLSPREAD: cellSpreads,
  RESTVOLTS: restVolts,
  FREEZE: freeze,
  LOADLIMIT: loadLimit,
  LOADTEST: loadTest,
  RESISTANCE: resistance,
  CHARGETIME: chargeTime,
  DRAINDAYS: drainDays,
  RUNTIME: runTime,
} satisfies FunctionTable;
