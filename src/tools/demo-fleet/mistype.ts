import type { Random } from "../simulation/random";
import type { DraftRow, Planted } from "./fleet-events";

/** Places of the columns that people slip in. */
const DATE = 0;
const MACHINE = 1;
const SERIAL = 2;
const CELSIUS = 6;
const RESTED = 7;
const CRANKING = 8;
const DRAW = 9;
const NOTES = 12;

/**
 * Types a row as people do: commas, units, capitals, another date order, now and then the wrong
 * unit, a slipped letter, an impossible number, or the row twice.
 *
 * @returns Rows that come on top
 */
export function mistype({ day, cells, planted }: DraftRow, random: Random): DraftRow[] {
  const note = (kind: Planted["kind"]) => planted.push({ kind, machine: cells[MACHINE]!, row: 0, day });
  harmless(cells, random);
  const slip = random.weighted(SLIPS);
  switch (slip) {
    case "fahrenheit":
      if (cells[CELSIUS] === "") break;
      cells[CELSIUS] = String(Math.round(Number(cells[CELSIUS]) * 1.8 + 32));
      note("mixed units");
      break;
    case "amperes":
      cells[DRAW] = String(Number((Number(cells[DRAW]) / 1000).toPrecision(2)));
      note("mixed units");
      break;
    case "lost point":
      // A slipped decimal point makes a reading that cannot be.
      cells[RESTED] = cells[RESTED]!.replace(/[.,]/u, "");
      note("not a reading");
      break;
    case "words":
      cells[CRANKING] = random.pick(["dead", "see notes", "??"]);
      note("not a reading");
      break;
    case "date":
      cells[DATE] = random.pick(["last week", "31.2.2024", "03/04/2024"]);
      note("not a date");
      break;
    case "name":
      // Whoever slips in the name leaves the serial number out as well.
      cells[MACHINE] = slipIn(cells[MACHINE]!, random);
      cells[SERIAL] = "";
      note("renamed machine");
      break;
    case "twice":
      return [
        {
          day,
          cells: [...cells],
          planted: [{ kind: "duplicate machine", machine: cells[MACHINE]!, row: 0, day }],
        },
      ];
  }
  return [];
}

/** How often a row of a hundred has each slip. */
const SLIPS = {
  none: 94,
  fahrenheit: 1.2,
  amperes: 1,
  "lost point": 0.8,
  words: 0.8,
  date: 0.6,
  name: 0.8,
  twice: 0.8,
} as const;

/** What is read all the same. */
function harmless(cells: string[], random: Random): void {
  if (random.chance(0.05)) cells[RESTED] = cells[RESTED]!.replace(".", ",");
  if (random.chance(0.04)) cells[CRANKING] = `${cells[CRANKING]} V`;
  if (random.chance(0.03)) cells[MACHINE] = cells[MACHINE]!.toUpperCase();
  if (random.chance(0.04)) cells[DATE] = cells[DATE]!.replace(/^(\d+)-(\d+)-(\d+)$/u, "$3.$2.$1");
  if (random.chance(0.05)) cells[CELSIUS] = "";
  if (random.chance(0.06)) cells[CRANKING] = "";
  if (random.chance(0.02)) cells[NOTES] = random.pick(["rained", "key left with owner", "terminals cleaned"]);
}

function slipIn(name: string, random: Random): string {
  const letters = [...name.matchAll(/\p{L}{4,}/gu)].at(-1)!;
  const at = letters.index + random.integer(1, letters[0].length - 2);
  switch (random.integer(0, 2)) {
    case 0:
      return name.slice(0, at) + name.slice(at + 1);
    case 1:
      return name.slice(0, at) + name[at + 1]! + name[at]! + name.slice(at + 2);
    default:
      return name.replace(/ (\d+)$/u, "-0$1");
  }
}
