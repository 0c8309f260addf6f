import type { Judged } from "../judgement/types";
import type { Frame } from "./frame";

/** Judges one reading that was taken, in its job; `undefined` where it has no limit of its own. */
export type JudgeOne = (frame: Frame, id: string) => Judged | undefined;

/** Which readings of the catalogue a room judges, and how. */
export type Room = Readonly<Record<string, JudgeOne>>;

/** The same judgement for several readings. */
export function forEach(ids: readonly string[], judge: JudgeOne): Room {
  return Object.fromEntries(ids.map((id) => [id, judge]));
}

/** A view of a whole part that all of its readings share: made once for each job. */
export function onceEach<T extends object>(view: (frame: Frame) => T): (frame: Frame) => T {
  const views = new WeakMap<Frame, T>();
  return (frame) => {
    const known = views.get(frame);
    if (known !== undefined) return known;
    const made = view(frame);
    views.set(frame, made);
    return made;
  };
}
