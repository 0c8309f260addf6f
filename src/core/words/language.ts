import { fail, ok, type Result } from "../result";

/** Languages that sentences can be said in. */
export type LanguageCode = "en" | "es";

/** Says a text in a language; what is not known comes back as it is. */
export type Say = (english: string) => string;

/** @param code - `en`, `es`, or blank for English */
export function languageNamed(code: string): Result<LanguageCode> {
  const known = code.toLowerCase();
  if (known === "" || known === "en") return ok("en");
  if (known === "es") return ok("es");
  return fail({ code: "not-understood", what: "language", came: code, expected: "en or es" });
}
