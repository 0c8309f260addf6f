import {
  InsertColMutation,
  InsertRowMutation,
  MoveColsMutation,
  MoveRangeMutation,
  MoveRowsMutation,
  RemoveColMutation,
  RemoveRowMutation,
} from "@univerjs/sheets";

/** Changes by which cells come to stand in other places. */
export const MOVING_CELLS: readonly string[] = [
  InsertRowMutation.id,
  InsertColMutation.id,
  RemoveRowMutation.id,
  RemoveColMutation.id,
  MoveRowsMutation.id,
  MoveColsMutation.id,
  MoveRangeMutation.id,
];
