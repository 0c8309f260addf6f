/**
 * One stage of a time step: what the coils bring to the bridge, and what the circuit answers. The one
 * object is filled again at every stage.
 */
export interface Stage {
  /** Currents that the coils' history drives into the three bridge terminals [A]. */
  readonly inflow: Float64Array;
  /** Voltages of the three terminals above the regulator's ground [V]. */
  readonly volts: Float64Array;
  /** Per coil: emf, emf with the history of the currents [V], current at the end of the stage [A]. */
  readonly emf: Float64Array;
  readonly history: Float64Array;
  readonly amps: Float64Array;
  /** B+ terminal and machine frame above the regulator's ground [V]. */
  plus: number;
  frame: number;
  /** Currents out of the B+ terminal and from a winding into the frame [A]. */
  output: number;
  leak: number;
  /** Open-circuit voltage at the posts, load included [V]. */
  source: number;
}

export function createStage(coils: number): Stage {
  return {
    inflow: new Float64Array(3),
    volts: new Float64Array(3),
    emf: new Float64Array(coils),
    history: new Float64Array(coils),
    amps: new Float64Array(coils),
    plus: 0,
    frame: 0,
    output: 0,
    leak: 0,
    source: 0,
  };
}
