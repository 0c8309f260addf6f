import { CATALOGUE } from "../core/readings/catalogue";
import type { Random } from "./simulation/random";

const BLANKS = [null, undefined, "", " ", "\u00a0"];
const EXTREMES = [
  0,
  -0,
  -1,
  1e308,
  -1e308,
  5e-324,
  Number.MAX_SAFE_INTEGER,
  Number.NaN,
  Infinity,
  -Infinity,
  45000,
  0.1 + 0.2,
];
const ERRORS = ["#VALUE!", "#N/A", "#REF!", "#NAME?", "#NUM!", "#DIV/0!", "#NULL!", "#BUSY!", "#SPILL!", "#CALC!"];
/** What people type: readings, half readings, words, and what is no reading at all. */
const TYPED = [
  "12.6",
  "12,6 V",
  "12.6 V",
  "0.35 kohm",
  "350 mA",
  "70 °F",
  "OL",
  "O.L",
  ">50M",
  "<0.1",
  "~14.2",
  "14.4V DC (hot)",
  "1,234",
  "12 or 13",
  "12.4-12.6",
  "0.3 mohm",
  "75 %",
  "1.265",
  "-5 C",
  "14 AWG",
  "4/0",
  "2.5 mm²",
  "flooded",
  "agm",
  "gel",
  "lithium",
  "calcium",
  "wet",
  "delta",
  "wye",
  "plain diodes",
  "parallel path",
  "unknown",
  "SAE",
  "EN",
  "yes",
  "no",
  "connection",
  "B+ run",
  "class 5",
  "iso 6722",
  "fail",
  "pass",
  "2026-11-25",
  "25/11/2026",
  "abc",
  "=A1",
  "'12.6",
  "__proto__",
  "constructor",
  "toString",
  "🔋",
  "12.6\n13",
  "ﾟ".repeat(3),
  "x".repeat(5000),
  "1e400",
  "NaN",
  "Infinity",
  "TRUE",
  "#N/A",
  "½",
] as const;
const LABELS = CATALOGUE.flatMap((entry) => [entry.id, entry.label, ...(entry.synonyms ?? []).slice(0, 2)]);

function plausibleNumber(dice: Random): number {
  const scale = dice.pick([1, 1, 15, 15, 100, 600, 6000]);
  const digits = dice.pick([0, 1, 2, 3]);
  return Number((dice.next() * scale).toFixed(digits));
}

/** One cell as a sheet can hold it and a host can send it: plain values, errors, entities, oddities. */
export function anyCell(dice: Random): unknown {
  switch (dice.below(12)) {
    case 0:
      return dice.pick(BLANKS);
    case 1:
      return dice.chance(0.5);
    case 2:
      return dice.pick(EXTREMES);
    case 3:
      return { error: dice.pick(ERRORS), ...(dice.chance(0.5) ? { message: "from another function" } : {}) };
    case 4:
      return entity(dice);
    case 5:
      return dice.pick(LABELS);
    case 6:
    case 7:
    case 8:
      return dice.pick(TYPED);
    default:
      return plausibleNumber(dice);
  }
}

/** Values as data types of the host, and objects that no host should send. */
function entity(dice: Random): unknown {
  const value = plausibleNumber(dice);
  return dice.pick<unknown>([
    { type: "Double", basicType: "Double", basicValue: value },
    { type: "FormattedNumber", basicValue: value, numberFormat: "0.00 \\V" },
    { type: "String", basicValue: dice.pick(TYPED) },
    { type: "Boolean", basicValue: true },
    { type: "Empty", basicValue: "" },
    { type: "Error", basicType: "Error", basicValue: dice.pick(ERRORS), errorType: "Value" },
    {
      type: "Entity",
      text: "machine",
      properties: { volts: { type: "Double", basicValue: value } },
      basicType: "Error",
      basicValue: "#VALUE!",
    },
    { type: "WebImage", address: "about:blank" },
    { code: dice.pick(ERRORS) },
    { basicValue: { basicValue: value } },
    {},
    [],
    Object.create(null),
    new Date(0),
    Symbol.iterator,
    10n,
    () => value,
  ]);
}

/** A cell that a careful person would enter. */
function likelyCell(dice: Random): unknown {
  if (dice.chance(0.12)) return dice.pick(BLANKS);
  return dice.chance(0.8) ? plausibleNumber(dice) : dice.pick(TYPED.slice(0, 45));
}

/** One argument: a value, a range of any shape, ragged and empty ones too, or a job as label and value. */
export function anyArgument(dice: Random): unknown {
  const cell = dice.chance(0.7) ? likelyCell : anyCell;
  switch (dice.below(12)) {
    case 0:
      return dice.pick<unknown>([[], [[]], [[], []], [null], [[1], [1, 2]], [[1, 2], 3], null, undefined]);
    case 1:
      return Array.from({ length: 1 + dice.below(4) }, () =>
        Array.from({ length: 1 + dice.below(4) }, () => cell(dice)),
      );
    case 2:
      return Array.from({ length: 1 + dice.below(4) }, () => Array.from({ length: dice.below(4) }, () => cell(dice)));
    case 3:
      return Array.from({ length: 1 + dice.below(6) }, () => [cell(dice)]);
    case 4:
      return [Array.from({ length: 1 + dice.below(6) }, () => cell(dice))];
    case 5:
      return jobList(dice);
    case 6:
      return jobTable(dice);
    case 7:
      return cell(dice);
    default:
      return [[cell(dice)]];
  }
}

/** The same arguments with one of them changed a little, or for something else altogether. */
export function changed(dice: Random, given: readonly unknown[]): unknown[] {
  const next = [...given];
  const at = dice.below(given.length + 1);
  if (at === given.length || dice.chance(0.35)) next[at] = anyArgument(dice);
  else next[at] = nudged(dice, given[at]);
  return next;
}

function nudged(dice: Random, argument: unknown): unknown {
  if (Array.isArray(argument)) {
    if (argument.length === 0 || dice.chance(0.15)) return [...argument, ...argument];
    const at = dice.below(argument.length);
    return argument.map((part: unknown, i) => (i === at ? nudged(dice, part) : part));
  }
  if (typeof argument === "number")
    return dice.pick([
      argument * (0.5 + dice.next()),
      -argument,
      String(argument),
      `${argument} V`,
      [[argument], [argument * 1.01], [""]],
      Math.round(argument),
    ]);
  return dice.chance(0.5) ? anyCell(dice) : argument;
}

/** Label and value, a row each; some values fit their label. */
function jobList(dice: Random): unknown[][] {
  return Array.from({ length: 1 + dice.below(20) }, () => {
    const entry = dice.pick(CATALOGUE);
    return [dice.chance(0.9) ? entry.label : anyCell(dice), fitting(dice, entry)];
  });
}

function jobTable(dice: Random): unknown[][] {
  const entries = Array.from({ length: 1 + dice.below(8) }, () => dice.pick(CATALOGUE));
  const rows = Array.from({ length: 1 + dice.below(3) }, () => entries.map((entry) => fitting(dice, entry)));
  return [entries.map((entry) => (dice.chance(0.9) ? entry.label : anyCell(dice))), ...rows];
}

function fitting(dice: Random, entry: (typeof CATALOGUE)[number]): unknown {
  if (dice.chance(0.1)) return anyCell(dice);
  if (entry.kind === "choice") return dice.pick(entry.choices).value;
  if (entry.kind === "text") return dice.pick(["unit 7", "2026-10-01", 46000]);
  const top = Math.min(entry.max, 400);
  return Number((entry.min + dice.next() * (top - entry.min)).toFixed(entry.decimals));
}
