import type { Cell } from "../../src/core/cell";

/**
 * A made-up fleet for measuring: a dozen types of machine, eight readings a row of which some are
 * missing, two decimals as meters show them, one machine in five with something wrong. Seeded.
 */
export const FLEET_HEADER = [
  "Machine",
  "Rested voltage",
  "Cranking voltage",
  "Key-off draw",
  "Idle voltage",
  "Voltage at test speed",
  "B+ drop",
  "Ground drop",
  "Battery ripple",
] as const;

export const MACHINE_HEADER = [
  "Machine",
  "Battery type",
  "Battery capacity",
  "Battery CCA",
  "Regulated voltage, lowest",
  "Regulated voltage, highest",
  "Rated output",
  "Lights-on load",
  "Key-off limit",
  "Regulator kind",
  "Idle rpm",
  "Test rpm",
] as const;

/** Uniform numbers from 0 to 1 by a linear congruence: the same in every run. */
function uniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

const TYPES = 12;

/** Machine data by machine name, `count` machines of a dozen types. */
export function machineRows(count: number): Cell[][] {
  return [
    [...MACHINE_HEADER],
    ...Array.from({ length: count }, (_, i) => {
      const t = i % TYPES;
      const capacity = 8 + 2 * t;
      return [
        `M-${i}`,
        ["agm", "flooded", "calcium"][t % 3]!,
        capacity,
        capacity * 14,
        13.5 + (t % 2) * 0.2,
        14.8,
        220 + 30 * t,
        8 + t,
        t % 4 === 0 ? 20 : "",
        ["shunt", "series"][t % 2]!,
        1200 + 20 * t,
        5000,
      ];
    }),
  ];
}

/**
 * @param count - Rows below the header
 * @param machines - How many machines they are visits of
 */
export function fleetRows(count: number, machines = count, seed = 7): Cell[][] {
  const random = uniform(seed);
  const around = (centre: number, spread: number) => centre + spread * (random() + random() + random() - 1.5);
  const read = (value: number, digits: number): Cell => (random() < 0.15 ? "" : Number(value.toFixed(digits)));
  return [
    [...FLEET_HEADER],
    ...Array.from({ length: count }, (_, i) => {
      const bad = random() < 0.2 ? Math.floor(random() * 5) : -1;
      return [
        `M-${i % machines}`,
        read(around(bad === 0 || bad === 1 ? 12.1 : 12.75, 0.2), 2),
        read(around(bad === 0 ? 7.5 : 10.6, 0.7), 2),
        read(Math.abs(around(bad === 1 ? 180 : 3, bad === 1 ? 100 : 3)), 1),
        read(around(bad === 2 ? 12.3 : 13.6, 0.3), 2),
        read(around(bad === 2 ? 12.4 : bad === 3 ? 15.6 : 14.3, 0.3), 2),
        read(Math.abs(around(bad === 4 ? 1.6 : 0.16, 0.12)), 3),
        read(Math.abs(around(0.07, 0.06)), 3),
        read(Math.abs(around(0.03, 0.02)), 3),
      ];
    }),
  ];
}
