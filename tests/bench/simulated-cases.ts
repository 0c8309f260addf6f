import type { ChargingSystem, Conditions, Stuck, Triple } from "../../src/core/circuit/types";

/** What a file of simulated jobs says of one: the true circuit, and what the simulator found. */
export interface SimulatedCase {
  readonly caseId: string;
  readonly truth: {
    readonly faultId: string;
    readonly parameters: TrueParameters;
    readonly batteryDerived: {
      ocvV: number;
      rintOhm: number;
      chargeA: number;
      chargeIx: number;
      dischargeA: number;
      dischargeIx: number;
    };
    readonly actualRpm: { idleRpm: number; testRpm: number };
    readonly simulation: Readonly<Record<"idle" | "test", SimulatedRun>>;
  };
}

export interface SimulatedRun {
  readonly batteryVoltageMeanV: number;
  readonly batteryCurrentMeanA: number;
  readonly rectifierCurrentMeanA: number;
  readonly regulatorCommandDuty: number;
}

interface TrueParameters {
  readonly connection: "wye" | "delta";
  readonly polePairs: number;
  readonly keLineLineVrmsPerKrpm: number;
  readonly phaseResistanceOhm20C: number;
  readonly phaseInductanceH: number;
  readonly emfHarmonic5: number;
  readonly emfHarmonic7: number;
  readonly emfScale: number;
  readonly statorRunTempC: number;
  readonly bridgeRunTempC: number;
  readonly regulatorType: "shunt_scr" | "series_scr";
  readonly regulatorSensesAt: "battery" | "own_output";
  readonly regulatorSetpointV25C: number;
  readonly regulatorTempcoVPerC: number;
  readonly regulatorHysteresisHalfV: number;
  readonly regulatorFilterTauS: number;
  readonly diodeIsA: number;
  readonly diodeN: number;
  readonly diodeRsOhm: number;
  readonly rBplusOhm: number;
  readonly rGroundOhm: number;
  readonly rPhaseConnOhm: Triple<number>;
  readonly rPhaseConnStatorSideExtraOhm: Triple<number>;
  readonly loadA: number;
  readonly deviceState: {
    readonly upper: Triple<"ok" | "open" | "short">;
    readonly lower: Triple<"ok" | "open" | "short">;
  };
  readonly acTerminalOpen: Triple<boolean>;
  readonly gateForced: Triple<0 | 1 | null>;
  readonly windingOpen: Triple<boolean>;
  readonly leadOpen: Triple<boolean>;
  readonly turnShort: {
    phaseIndex: 0 | 1 | 2;
    teethAffected: number;
    turnFractionOfTeeth: number;
    shortResistanceOhm: number;
    coupling: number;
  } | null;
  readonly groundLeak: { phaseIndex: 0 | 1 | 2; positionFraction: number; resistanceOhm: number } | null;
  readonly shortResistanceOhm?: number;
}

/** Teeth of one winding in these jobs' stators. */
const TEETH = 6;

/** The true circuit of a job at idle or test speed, and what the simulator found there. */
export function systemOfCase(
  one: SimulatedCase,
  which: "idle" | "test",
): { system: ChargingSystem; at: Conditions; found: SimulatedRun } {
  const { parameters: p, batteryDerived: b, actualRpm, simulation } = one.truth;
  const stuck = p.gateForced.map((gate): Stuck =>
    gate === null ? null : gate === 1 ? "on" : "off",
  ) as unknown as Triple<Stuck>;
  return {
    system: {
      alternator: {
        kind: "three-phase",
        connection: p.connection,
        emfPerKrpm: p.keLineLineVrmsPerKrpm,
        emfScale: p.emfScale,
        harmonic5: p.emfHarmonic5,
        harmonic7: p.emfHarmonic7,
        windingOhms: p.phaseResistanceOhm20C,
        windingHenry: p.phaseInductanceH,
        polePairs: p.polePairs,
        windingOpen: p.windingOpen,
        ...(p.turnShort
          ? {
              turnShort: {
                winding: p.turnShort.phaseIndex,
                teethShare: p.turnShort.teethAffected / TEETH,
                turnShare: p.turnShort.turnFractionOfTeeth,
                ohms: p.turnShort.shortResistanceOhm,
                coupling: p.turnShort.coupling,
              },
            }
          : {}),
        ...(p.groundLeak
          ? {
              groundLeak: {
                winding: p.groundLeak.phaseIndex,
                position: p.groundLeak.positionFraction,
                ohms: p.groundLeak.resistanceOhm,
              },
            }
          : {}),
      },
      bridge: {
        ...p.deviceState,
        legOpen: p.acTerminalOpen,
        shortOhms: p.shortResistanceOhm ?? 0.005,
        diode: { saturationAmps: p.diodeIsA, ideality: p.diodeN, seriesOhms: p.diodeRsOhm },
      },
      regulator: {
        kind: p.regulatorType === "shunt_scr" ? "shunt" : "series",
        setVolts: p.regulatorSetpointV25C,
        voltsPerC: p.regulatorTempcoVPerC,
        hysteresisHalfVolts: p.regulatorHysteresisHalfV,
        filterSeconds: p.regulatorFilterTauS,
        senses: p.regulatorSensesAt === "battery" ? "battery" : "own output",
        stuck,
      },
      harness: {
        bplusOhms: p.rBplusOhm,
        groundOhms: p.rGroundOhm,
        statorSideOhms: p.rPhaseConnStatorSideExtraOhm,
        phaseOhms: p.rPhaseConnOhm,
        leadOpen: p.leadOpen,
      },
      battery: {
        ocvVolts: b.ocvV,
        ohms: b.rintOhm,
        chargeVolts: b.chargeA,
        chargeAmps: b.chargeIx,
        dischargeVolts: b.dischargeA,
        dischargeAmps: b.dischargeIx,
      },
    },
    at: {
      rpm: actualRpm[`${which}Rpm`],
      loadAmps: p.loadA,
      statorCelsius: p.statorRunTempC,
      regulatorCelsius: p.bridgeRunTempC,
    },
    found: simulation[which],
  };
}
