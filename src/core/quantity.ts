/**
 * Numbers that carry their unit in the type. A brand is given in two places only: where a cell is
 * read and where a formula returns.
 */
declare const unitOf: unique symbol;
export type Quantity<Unit extends string> = number & { readonly [unitOf]: Unit };

export type Volt = Quantity<"V">;
export type Ampere = Quantity<"A">;
export type Milliampere = Quantity<"mA">;
export type Ohm = Quantity<"Ω">;
export type Megohm = Quantity<"MΩ">;
export type Watt = Quantity<"W">;
export type Celsius = Quantity<"°C">;
export type Hour = Quantity<"h">;
export type Second = Quantity<"s">;
export type Day = Quantity<"d">;
export type AmpereHour = Quantity<"Ah">;
export type Rpm = Quantity<"rpm">;
export type Hertz = Quantity<"Hz">;
export type Metre = Quantity<"m">;
export type SquareMillimetre = Quantity<"mm²">;
/** Relative density of electrolyte, water = 1. */
export type SpecificGravity = Quantity<"SG">;
/** A share between 0 and 1 (state of charge, unbalance, chance). */
export type Fraction = Quantity<"1">;
