import type { Grammar } from "../phrasebook";

export const SPANISH_GRAMMAR: Grammar = {
  units: [
    ["V AC", "V CA"],
    ["V DC", "V CC"],
    ["over ", "más de "],
    ["under ", "menos de "],
    ["above ", "más de "],
    ["below ", "menos de "],
    ["Infinity", "∞"],
    [/\.(?=\d)/gu, ","],
  ],
  range: (low, high) => `de ${low} a ${high}`,
  and: "y",
};
