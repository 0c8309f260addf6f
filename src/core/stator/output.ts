import { fail, ok, type Result } from "../result";

/**
 * Output per 1000 rpm, the figure in which permanent-magnet stators are compared.
 *
 * @param volts - No-load AC, line to line [V rms], 0 or more
 * @param rpm - Speed [rpm], above 0
 * @returns Output [V per 1000 rpm]; `outside-range` at standstill
 * @source common-practice: no-load output of permanent magnets is proportional to speed
 */
export function voltsPerThousand(volts: number, rpm: number): Result<number> {
  if (!(rpm > 0)) return fail({ code: "outside-range", what: "rpm", came: rpm, min: 1, max: 20000, unit: "rpm" });
  return ok((volts * 1000) / rpm);
}

/**
 * How far the output of two speeds is from proportional: 0 where volts per 1000 rpm are the same.
 *
 * @param volts1 - No-load AC at the first speed [V rms], above 0
 * @param rpm1 - First speed [rpm], above 0
 * @param volts2 - No-load AC at the second speed [V rms]
 * @param rpm2 - Second speed [rpm], above 0
 * @returns Deviation [1], 0.03 where the second speed gives 3 % more per 1000 rpm
 * @source common-practice: no-load output of permanent magnets is proportional to speed
 */
export function departureFromLine(volts1: number, rpm1: number, volts2: number, rpm2: number): Result<number> {
  if (!(volts1 > 0))
    return fail({
      code: "refused",
      what: "volts at the first speed",
      why: "zero volts have no line through them",
      instead: "read a speed that gives output",
    });
  const first = voltsPerThousand(volts1, rpm1);
  const second = voltsPerThousand(volts2, rpm2);
  if (!first.ok) return first;
  if (!second.ok) return second;
  return ok(second.value / first.value - 1);
}

/**
 * Electrical frequency: f = poles · rpm / 120.
 *
 * @param rpm - Speed of the rotor [rpm], 0 or more
 * @param poles - Magnet poles [1], even, 2 to 60; poles, not pairs
 * @returns Frequency [Hz]; `not-understood` for an odd number of poles
 * @source deshpande-machines Ex. 13.5
 */
export function electricalFrequency(rpm: number, poles: number): Result<number> {
  if (!(Number.isInteger(poles / 2) && poles >= 2 && poles <= 60)) {
    return fail({
      code: "not-understood",
      what: "poles",
      came: String(poles),
      expected: "an even number from 2 to 60: poles, not pairs",
    });
  }
  return ok((poles * rpm) / 120);
}
