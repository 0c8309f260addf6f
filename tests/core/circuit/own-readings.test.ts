import { filledFromReadings } from "../../../src/core/circuit/own-readings";
import { outputWith } from "../../../src/core/circuit/charging-cells";
import { jobOf } from "../diagnosis/jobs";

const number = (job: ReturnType<typeof jobOf>, id: string) => {
  const measured = job.get(id);
  return measured?.kind === "number" ? measured.value : undefined;
};
const NO_LOAD = { "no-load-rpm": 2000, "no-load-ab": 38, "no-load-bc": 38.4, "no-load-ca": 37.6 };
const SECOND = { "no-load-rpm-2": 4000, "no-load-2-ab": 76, "no-load-2-bc": 76.5, "no-load-2-ca": 75.5 };
const OHMS = {
  "meter-leads": 0.2,
  "winding-ab": 0.5,
  "winding-bc": 0.5,
  "winding-ca": 0.5,
  "stator-temperature": 45.4,
};

describe("machine data from its own readings", () => {
  it("[arithmetic] 38 V at 2000 and 76 V at 4000 rpm are 19 V per 1000", () => {
    const filled = filledFromReadings(jobOf({ ...NO_LOAD, ...SECOND }));
    expect(number(filled, "no-load-nominal")! / number(filled, "no-load-nominal-rpm")!).toBeCloseTo(0.019, 6);
  });
  it("[arithmetic, copper 0.393 %/°C] 0.5 Ω with 0.2 Ω of leads at 45.4 °C are 0.2727 Ω at 20 °C", () => {
    const filled = filledFromReadings(jobOf(OHMS));
    expect(number(filled, "stator-ohms-min")).toBeCloseTo(0.3 / (1 + 0.00393 * 25.4), 3);
  });
  it("the plate stands, uneven readings and a regulator at work say nothing", () => {
    const plate = { "no-load-nominal": 72, "no-load-nominal-rpm": 4000 };
    expect(number(filledFromReadings(jobOf({ ...plate, ...NO_LOAD })), "no-load-nominal")).toBe(72);
    expect(number(filledFromReadings(jobOf({ ...NO_LOAD, "no-load-ca": 21 })), "no-load-nominal")).toBeUndefined();
    const regulated = { "test-rpm": 5000, "test-voltage": 14.3, "battery-current": 1.2, "lights-load": 9 };
    expect(number(filledFromReadings(jobOf(regulated)), "rated-output")).toBeUndefined();
    const limited = { ...regulated, "test-rpm": 1500, "test-voltage": 13.1 };
    expect(number(filledFromReadings(jobOf(limited)), "rated-output")).toBeCloseTo(10.2 * 14, 9);
  });
  it("[property] each own reading narrows the band of what the machine gives at idle", () => {
    const width = (values: Parameters<typeof jobOf>[0]) => {
      const output = outputWith(filledFromReadings(jobOf(values)));
      if (!output.ok) throw new Error("no output");
      const cells = output.value(1400, 9);
      if (!cells.ok) throw new Error("no output");
      return Number(cells.value[3]) - Number(cells.value[2]);
    };
    const plate = {
      poles: 18,
      "battery-type": "agm",
      "battery-capacity": 14,
      "regulated-min": 13.8,
      "regulated-max": 14.8,
    };
    const some = width({ ...plate, ...NO_LOAD });
    const more = width({ ...plate, ...NO_LOAD, ...OHMS });
    expect(some).toBeLessThan(width(plate));
    expect(more).toBeLessThan(some + 0.05);
  });
});
