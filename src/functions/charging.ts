/* eslint-disable @typescript-eslint/no-explicit-any -- the metadata generator knows ranges of any cell as any[][] only */
import { budgetFromCells } from "../core/circuit/budget-from-cells";
import {
  bandCells,
  breakEvenCells,
  curveCells,
  heatCells,
  machineFromCells,
  neededMachine,
  outputWith,
  rippleCells,
  runningCells,
} from "../core/circuit/charging-cells";
import { andThen, ok } from "../core/result";
import { readOne, toBlock } from "./arguments";
import { TYPE } from "./battery-arguments";
import {
  BATTERY_TEMPERATURE,
  IDLE,
  IDLE_RPM,
  LOAD,
  OPTIONAL_RPM,
  REST,
  RIPPLE_READING,
  RPM,
  TEST,
  TEST_RPM,
} from "./charging-arguments";
import type { FunctionTable } from "./function-table";
import { blockOrFault, overCells } from "./over-cells";
import { overContext } from "./over-context";

const THREE_BLANKS = ["", "", ""];
const FIVE_BLANKS = ["", "", "", "", ""];
const EIGHT_BLANKS = ["", "", "", "", "", "", "", ""];

/**
 * Low, target and high charging voltage at the battery posts. Without machine data the customary band for type and temperature; with them the machine's own, and with speed what it can deliver there.
 * @customfunction BAND
 * @param type Battery type: flooded, calcium, agm, gel or lithium (one column)
 * @param [temp] Battery temperature, °C (25)
 * @param [machine] Machine data: two columns (label, value), or a header row and one row
 * @param [rpm] Engine speed, rpm; blank or 0 leaves speed out
 * @param [load] Load at 13.5 V, A; blank or 0 takes the machine's own
 * @returns Low, target and high voltage, V, side by side
 * @example =CHG.BAND("agm") gives 13.5, 14.4, 15
 */
export function band(type: any[][], temp?: any[][], machine?: any[][], rpm?: any[][], load?: any[][]): any[][] {
  return overContext(machineFromCells(toBlock(machine)), (job) =>
    overCells(
      [TYPE, BATTERY_TEMPERATURE, OPTIONAL_RPM, LOAD],
      (kind, temperature, speed, amps) => bandCells(job, kind, temperature, speed, amps),
      [type, temp, rpm, load],
      THREE_BLANKS,
    ),
  );
}

/**
 * Judges the running voltage: at test speed against the charging band, at idle against what the machine can deliver there (without machine data only against the upper end), and the rise over rest.
 * @customfunction RUNNING
 * @param rest Rested voltage, V; blank where not read (one column)
 * @param idle Running voltage at idle, V; blank where not read
 * @param test Running voltage at test speed, V; blank where not read
 * @param type Battery type: flooded, calcium, agm, gel or lithium
 * @param [temp] Battery temperature, °C (25)
 * @param [machine] Machine data: two columns (label, value), or a header row and one row
 * @param [idleRpm] Idle speed, rpm; blank or 0 leaves it out
 * @param [testRpm] Test speed, rpm; blank or 0 leaves it out
 * @param [load] Load at 13.5 V, A; blank or 0 takes the machine's own
 * @returns State, rise over rest (V), state at idle, state at test speed and the reason, side by side
 * @example =CHG.RUNNING(12.7, 13.4, 14.3, "agm") gives pass, 1.6, pass, pass and the reason
 */
export function running(
  rest: any[][],
  idle: any[][],
  test: any[][],
  type: any[][],
  temp?: any[][],
  machine?: any[][],
  idleRpm?: any[][],
  testRpm?: any[][],
  load?: any[][],
): any[][] {
  return overContext(machineFromCells(toBlock(machine)), (job) =>
    overCells(
      [REST, IDLE, TEST, TYPE, BATTERY_TEMPERATURE, IDLE_RPM, TEST_RPM, LOAD],
      (v0, v1, v2, kind, temperature, n1, n2, amps) => runningCells(job, v0, v1, v2, kind, temperature, n1, n2, amps),
      [rest, idle, test, type, temp, idleRpm, testRpm, load],
      ["not read", "", "not read", "not read", ""],
    ),
  );
}

/**
 * What a healthy machine of these data gives at a speed and load: voltage at the battery posts and current into the battery, with the band of everything that is not known of it.
 * @customfunction OUTPUT
 * @param machine Machine data: two columns (label, value), or a header row and one row; its own readings while it was sound stand in for what the plate does not give
 * @param rpm Engine speed, rpm (one column)
 * @param [load] Load at 13.5 V, A; blank or 0 takes the machine's own
 * @returns Volts, battery amps, low volts, high volts and what limits it (regulator or machine), side by side
 * @example =CHG.OUTPUT({"Regulated voltage, lowest",14;"Regulated voltage, highest",14.8;"Rated output",300;"Rated output at",5000;"Poles",18}, 5000, 8) gives about 14.2, about 2, about 13.8, about 14.9 and regulator
 */
export function output(machine: any[][], rpm: any[][], load?: any[][]): any[][] {
  return overContext(andThen(neededMachine(toBlock(machine)), outputWith), (at) =>
    overCells([RPM, LOAD], at, [rpm, load], FIVE_BLANKS),
  );
}

/**
 * The machine's curve as a table to chart: speed, low, likely and high voltage at the battery posts, and current into the battery.
 * @customfunction CURVE
 * @param machine Machine data: two columns (label, value), or a header row and one row
 * @param rpms Engine speeds, rpm (one column)
 * @param [load] Load at 13.5 V, A (one cell); blank or 0 takes the machine's own
 * @returns A row for each speed: speed, low, likely and high volts, battery amps
 * @example =CHG.CURVE({"Regulated voltage, lowest",14;"Regulated voltage, highest",14.8;"Rated output",300;"Rated output at",5000;"Poles",18}, {1500;5000}, 8) gives 1500, about 13.6, about 14.3, about 15 and the battery amps, then a row for 5000 rpm
 */
export function curve(machine: any[][], rpms: any[][], load?: any[][]): any[][] {
  return overContext(
    andThen(neededMachine(toBlock(machine)), (job) => andThen(readOne(load, LOAD), (amps) => curveCells(job, amps))),
    (at) => overCells([RPM], at, [rpms], FIVE_BLANKS),
  );
}

/**
 * Engine speed from which on the machine carries its load and the battery gains.
 * @customfunction BREAKEVEN
 * @param machine Machine data: two columns (label, value), or a header row and one row
 * @param [load] Load at 13.5 V, A (one column); blank or 0 takes the machine's own
 * @returns Speed of a strong, a likely and a weak machine of these data, rpm, side by side
 * @example =CHG.BREAKEVEN({"Regulated voltage, lowest",14;"Regulated voltage, highest",14.8;"Rated output",300;"Rated output at",5000;"Poles",18}, 10) gives about 700, about 1000, about 1800
 */
export function breakEven(machine: any[][], load?: any[][]): any[][] {
  return overContext(neededMachine(toBlock(machine)), (job) =>
    overCells([LOAD], (amps) => breakEvenCells(job, amps), [load], THREE_BLANKS),
  );
}

/**
 * What a ride does to the battery: loads with their duty, the machine at each stretch's speed, one start, and a night of key-off draw and self-discharge.
 * @customfunction BUDGET
 * @param machine Machine data and readings (rested voltage, key-off draw, battery temperature): two columns, or a header row and one row
 * @param [loads] Loads while riding, A at 13.5 V, or W where written so; the machine's own load where blank
 * @param [duty] Share of the ride for which each load is on, 0 to 1 (1)
 * @param [ride] Ride in two columns, engine speed (rpm) and minutes; 6 min at 1400 and 24 min at 4500 rpm where blank
 * @returns Net Ah, state of charge after ride and night, starts tomorrow (yes, no, unsure), mean load (A) and the reason, side by side
 * @example =CHG.BUDGET({"Regulated voltage, lowest",14;"Regulated voltage, highest",14.8;"Rated output",300;"Rated output at",5000;"Poles",18}, {8}) gives about 0.7, about 0.8, yes, 8 and the reason
 */
export function budget(machine: any[][], loads?: any[][], duty?: any[][], ride?: any[][]): any[][] {
  return blockOrFault(
    andThen(neededMachine(toBlock(machine)), (job) =>
      andThen(budgetFromCells(job, toBlock(loads), toBlock(duty), toBlock(ride)), (cells) => ok([cells])),
    ),
  );
}

/**
 * Ripple that a healthy machine of these data shows at the battery, and where a broken device would show. Levels are told to a factor of two: a level alone condemns nothing, trust the frequency more.
 * @customfunction RIPPLE
 * @param machine Machine data: two columns (label, value), or a header row and one row
 * @param rpm Engine speed, rpm (one column)
 * @param [load] Load at 13.5 V, A; blank or 0 takes the machine's own
 * @param [reading] AC ripple read at the battery, V
 * @returns Low, likely and high ripple (V rms), its main frequency (Hz), the frequency at which one broken device shows (Hz), state of the reading and the reason, side by side
 * @example =CHG.RIPPLE({"Regulated voltage, lowest",14;"Regulated voltage, highest",14.8;"Rated output",300;"Rated output at",5000;"Poles",18}, 5000, 8) gives about 0.05, about 0.1, about 0.2 and the frequencies to look for
 */
export function ripple(machine: any[][], rpm: any[][], load?: any[][], reading?: any[][]): any[][] {
  return overContext(neededMachine(toBlock(machine)), (job) =>
    overCells(
      [RPM, LOAD, RIPPLE_READING],
      (speed, amps, read) => rippleCells(job, speed, amps, read),
      [rpm, load, reading],
      ["", "", "", "", "", "not read", ""],
    ),
  );
}

/**
 * What loads the parts of a healthy machine of these data: heat in the regulator-rectifier and in the stator, and the currents, AC voltage and drops that go with it. Likely values; a shunt regulator keeps the stator hot however little is drawn.
 * @customfunction HEAT
 * @param machine Machine data: two columns (label, value), or a header row and one row
 * @param rpm Engine speed, rpm (one column)
 * @param [load] Load at 13.5 V, A; blank or 0 takes the machine's own
 * @returns Regulator-rectifier and stator heat (W), share of time the regulator holds the output back, rectifier current and phase current (A), AC line to line under load (V rms), drop of the B+ run and of the ground run (V), side by side
 * @example =CHG.HEAT({"Regulated voltage, lowest",14;"Regulated voltage, highest",14.8;"Rated output",300;"Rated output at",5000;"Poles",18}, 5000, 8) gives about 42, about 370, about 0.23, about 10.5, about 16, about 11.3, about 0.12 and about 0.06
 */
export function heat(machine: any[][], rpm: any[][], load?: any[][]): any[][] {
  return overContext(neededMachine(toBlock(machine)), (job) =>
    overCells([RPM, LOAD], (speed, amps) => heatCells(job, speed, amps), [rpm, load], EIGHT_BLANKS),
  );
}

export const chargingFunctions = {
  BAND: band,
  RUNNING: running,
  OUTPUT: output,
  CURVE: curve,
  BREAKEVEN: breakEven,
  BUDGET: budget,
  RIPPLE: ripple,
  HEAT: heat,
} satisfies FunctionTable;
