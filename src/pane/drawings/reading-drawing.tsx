/** @jsxImportSource preact */
import type { JSX } from "preact";
import { HydrometerDrawing, KeyOffDrawing, PostClampDrawing, PostsDrawing, type Situation } from "./battery-drawings";
import { BridgeDrawing, CaseDrawing, type BridgeKind } from "./bridge-drawing";
import { PLACEMENTS, type Phase } from "./placements";
import {
  FieldDrawing,
  LoadedPairDrawing,
  PairDrawing,
  ShortedLeadsDrawing,
  ToGroundDrawing,
  type Connection,
} from "./stator-drawings";
import { DropDrawing, PhaseDropDrawing, RunClampDrawing } from "./wiring-drawings";

/** What the drawings need to know of the machine. */
export interface DrawnMachine {
  readonly connection: Connection;
  readonly bridge: BridgeKind;
  readonly phases: readonly Phase[];
}

const SITUATIONS: Readonly<Record<string, Situation>> = {
  "rested-voltage": "at rest",
  "load-test-rested": "at rest",
  "load-test-voltage": "load test",
  "load-test-current": "load test",
  "cranking-voltage": "cranking",
  "idle-voltage": "running",
  "test-voltage": "running",
  "battery-ripple": "running",
};

/**
 * The drawing of one reading, with the two leads (or the clamp) placed.
 *
 * @param readingId - Id of the catalogue, as `drawnReading` gives it
 * @param shows - What the meter should show, with its unit
 */
export function ReadingDrawing({
  readingId,
  shows,
  machine,
}: {
  readonly readingId: string;
  readonly shows: string;
  readonly machine: DrawnMachine;
}): JSX.Element | null {
  if (readingId.startsWith("gravity-")) return <HydrometerDrawing cell={Number(readingId.slice(8))} shows={shows} />;
  const placement = PLACEMENTS.get(readingId);
  if (!placement) return null;
  const view = { placement, shows };
  const stator = { connection: machine.connection, phases: machine.phases };
  const situation = SITUATIONS[readingId];
  if (situation) return <PostsDrawing {...view} situation={situation} />;
  if (readingId === "key-off-draw") return <KeyOffDrawing {...view} />;
  if (placement.clamp?.round === "positive post leads") return <PostClampDrawing {...view} />;
  if (placement.clamp) return <RunClampDrawing {...view} />;
  if (readingId.startsWith("no-load-")) return <PairDrawing {...view} {...stator} running />;
  if (readingId.startsWith("winding-")) return <PairDrawing {...view} {...stator} running={false} />;
  if (readingId.startsWith("loaded-")) return <LoadedPairDrawing {...view} {...stator} />;
  if (readingId === "meter-leads") return <ShortedLeadsDrawing shows={shows} />;
  if (placement.black === "engine metal") return <ToGroundDrawing {...view} {...stator} />;
  if (readingId === "field-ohms") return <FieldDrawing {...view} />;
  if (readingId === "case-leakage") return <CaseDrawing {...view} phases={machine.phases} />;
  if (placement.meter === "diode") return <BridgeDrawing {...view} kind={machine.bridge} phases={machine.phases} />;
  if (readingId.startsWith("phase-drop-"))
    return <PhaseDropDrawing {...view} phase={readingId.slice(-1) as Phase} phases={machine.phases} />;
  return <DropDrawing {...view} />;
}
