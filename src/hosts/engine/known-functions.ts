import { ALL_IMPLEMENTED_FUNCTIONS_SET } from "@univerjs/engine-formula";
import { closest, distance } from "fastest-levenshtein";
import { engineFunctions } from "./functions";

let names: Set<string> | undefined;

/** Every function that the engine calculates, ours and its own, in upper case. */
export function knownFunctions(): ReadonlySet<string> {
  names ??= new Set([
    ...[...ALL_IMPLEMENTED_FUNCTIONS_SET].map((name) => String(name).toUpperCase()),
    ...engineFunctions().map(([, name]) => name.toUpperCase()),
  ]);
  return names;
}

/** The known function that an unknown name most likely means, if one is near. */
export function nearestFunction(name: string): string | undefined {
  const wanted = name.toUpperCase();
  const candidates = [...knownFunctions()].filter((known) => !known.startsWith("_"));
  const nearest = closest(wanted, candidates);
  return distance(wanted, nearest) <= Math.max(1, Math.floor(wanted.length / 3)) ? nearest : undefined;
}
