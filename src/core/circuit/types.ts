/**
 * The charging circuit as the solver sees it: every part with its true values and its state. A fault
 * is a state of a part, never a flag beside it, so a system with a fault is solved like any other.
 *
 * Triples are ordered A, B, C for windings, leads and devices, and AB, BC, CA between lines.
 */
export type Triple<T> = readonly [T, T, T];

export interface ChargingSystem {
  readonly alternator: Alternator;
  readonly bridge: Bridge;
  readonly regulator: Regulator;
  readonly harness: Harness;
  readonly battery: Battery;
}

/** How the alternator is built; single-phase machines use winding A only. */
export type AlternatorKind = "three-phase" | "single-phase full-wave" | "single-phase half-wave" | "field-excited";

export type Connection = "wye" | "delta";

export interface Alternator {
  readonly kind: AlternatorKind;
  readonly connection: Connection;
  /** No-load emf between two lines, rms of the fundamental, per 1000 rpm [V/krpm], 0 to 200. */
  readonly emfPerKrpm: number;
  /** What is left of the magnets' flux (weak rotor); multiplies the emf [1], 0 to 1.5. */
  readonly emfScale: number;
  /** Fifth and seventh harmonic of the winding emf, parts of the fundamental [1], −0.3 to 0.3. */
  readonly harmonic5: number;
  readonly harmonic7: number;
  /** Resistance of one winding at 20 °C [Ω], 0.001 to 100 (of one coil, not between lines). */
  readonly windingOhms: number;
  /** Inductance of one winding [H], 1e-6 to 0.1. */
  readonly windingHenry: number;
  /** Pairs of rotor poles, 1 to 60. */
  readonly polePairs: number;
  /** A winding broken inside the stator. */
  readonly windingOpen: Triple<boolean>;
  readonly turnShort?: TurnShort;
  readonly groundLeak?: GroundLeak;
  /** Only for `field-excited`: what the field winding draws from B+ and the current it saturates at. */
  readonly field?: Field;
}

/** Some turns on some teeth of one winding joined by damaged insulation. */
export interface TurnShort {
  readonly winding: 0 | 1 | 2;
  /** Share of the winding's teeth that carry the damaged coil [1], 0 to 1. */
  readonly teethShare: number;
  /** Share of the turns on those teeth that is shorted [1], 0 to 1. */
  readonly turnShare: number;
  /** Resistance of the contact between the turns [Ω]. */
  readonly ohms: number;
  /** Magnetic coupling of shorted and remaining turns on the same teeth [1], 0 to 0.999. */
  readonly coupling: number;
}

/** A winding that touches the stator's iron. */
export interface GroundLeak {
  readonly winding: 0 | 1 | 2;
  /** Where along the winding, 0 at its line end (A, B, C) to 1 at its far end [1]. */
  readonly position: number;
  readonly ohms: number;
}

export interface Field {
  /** Field winding resistance at 20 °C [Ω]. */
  readonly ohms: number;
  /** Field current at which `emfPerKrpm` is reached [A]. */
  readonly ratedAmps: number;
  /** Share of the rated emf that remains without field current [1], 0 to 0.2. */
  readonly remanence: number;
}

export type DeviceState = "ok" | "open" | "short";

export interface Bridge {
  /** Phase → B+. */
  readonly upper: Triple<DeviceState>;
  /** Ground → phase. */
  readonly lower: Triple<DeviceState>;
  /** AC terminal of a phase open inside the unit: both its devices are lost. */
  readonly legOpen: Triple<boolean>;
  /** Resistance of a shorted device [Ω]. */
  readonly shortOhms: number;
  readonly diode: DiodeLaw;
}

/** I = Is·(exp(V/(n·Vt)) − 1) with a resistance in series, given at 25 °C. */
export interface DiodeLaw {
  readonly saturationAmps: number;
  readonly ideality: number;
  readonly seriesOhms: number;
}

/** A device of the regulator that no longer follows its command. */
export type Stuck = "on" | "off" | null;

export interface Regulator {
  /** `shunt`: shorts the phases to ground; `series`: phase-controlled devices feed B+; `none`: unregulated; `field`: steers the field current. */
  readonly kind: "shunt" | "series" | "none" | "field";
  /** Switching level at 25 °C [V]. */
  readonly setVolts: number;
  /** Change of the level with the regulator's own temperature [V/°C]. */
  readonly voltsPerC: number;
  /** Half of the distance between its upper and lower switching level [V]. */
  readonly hysteresisHalfVolts: number;
  /** Time constant of its sensing filter [s]. */
  readonly filterSeconds: number;
  /** Where it senses: at the battery posts, or between its own B+ and ground terminals. */
  readonly senses: "battery" | "own output";
  /** Per phase: shunt stuck on shorts the phase, off never does; series on always feeds, off never fires. */
  readonly stuck: Triple<Stuck>;
}

export interface Harness {
  /** Regulator B+ to battery positive, connectors included [Ω]. */
  readonly bplusOhms: number;
  /** Battery negative to regulator ground [Ω]. */
  readonly groundOhms: number;
  /** Winding end to stator plug, per phase [Ω]; read together with the winding at the plug. */
  readonly statorSideOhms: Triple<number>;
  /** Stator plug to regulator, connector included, per phase [Ω]. */
  readonly phaseOhms: Triple<number>;
  /** A phase lead parted between winding and stator plug. */
  readonly leadOpen: Triple<boolean>;
}

/**
 * Battery as source, resistance and polarization: V = ocv + ohms·I + η(I), with
 * η = chargeVolts·asinh(I/chargeAmps) while charging and the discharge pair while discharging. The
 * polarization follows the mean current, not the ripple.
 */
export interface Battery {
  readonly ocvVolts: number;
  readonly ohms: number;
  readonly chargeVolts: number;
  readonly chargeAmps: number;
  readonly dischargeVolts: number;
  readonly dischargeAmps: number;
}

/** How the engine runs and what is switched on. */
export interface Conditions {
  /** Engine speed as the rotor sees it [rpm], 0 to 20000. */
  readonly rpm: number;
  /** Load at the battery posts, a resistance that draws this at 13.5 V [A], 0 to 200. */
  readonly loadAmps: number;
  /** Winding temperature [°C], −40 to 250. */
  readonly statorCelsius: number;
  /** Temperature of bridge and regulator [°C], −40 to 200. */
  readonly regulatorCelsius: number;
}

/** One line of the ripple's spectrum at the battery posts. */
export interface RippleLine {
  readonly hertz: number;
  readonly voltsRms: number;
}

export type CircuitModel = "time-stepped" | "averaged";

/** What the circuit does in steady running; means over whole periods. */
export interface OperatingPoint {
  readonly model: CircuitModel;
  /** Mean at the battery posts [V]; current into the battery is positive [A]. */
  readonly batteryVolts: number;
  readonly batteryAmps: number;
  /** AC part at the battery posts [V rms], of the battery current [A rms]. */
  readonly rippleVoltsRms: number;
  readonly batteryAmpsAcRms: number;
  /** Strongest lines of the ripple, strongest first, at most four. */
  readonly rippleLines: readonly RippleLine[];
  readonly rectifierAmps: number;
  readonly phaseAmpsRms: Triple<number>;
  /** Line to line at the stator plug, rms [V]. */
  readonly lineVoltsRms: Triple<number>;
  /** Share of time in which the regulator holds the output back [1]. */
  readonly regulatorDuty: number;
  /** Mean between the regulator's own B+ and ground terminals [V]. */
  readonly regulatorVolts: number;
  readonly bplusDropVolts: number;
  readonly groundDropVolts: number;
  /** Heat in bridge and regulator, in the windings [W]. */
  readonly regulatorWatts: number;
  readonly statorWatts: number;
  /** Polarization of the battery at its mean current [V]. */
  readonly polarizationVolts: number;
  /** Electrical frequency [Hz]. */
  readonly hertz: number;
  /** Half-window difference of the rectifier current [A]: how well it has settled. */
  readonly driftAmps: number;
  /** True where the answer settled; a limit cycle of the regulator leaves it false with a wide drift. */
  readonly settled: boolean;
}
