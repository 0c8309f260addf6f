import { DRAWING_ENGLISH } from "./drawing-english";

export const ENGLISH = {
  drawing: DRAWING_ENGLISH,
};

export type Words = typeof ENGLISH;
