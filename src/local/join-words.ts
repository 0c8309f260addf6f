import type { Knock } from "./door";

type WhyNot = Exclude<Knock, { readonly opened: true }>;

const ENGLISH = {
  language: "en",
  title: "Join",
  heading: "Join the workbook",
  about: "The code stands in the window of the computer that runs Chargewright. It lets in one phone.",
  code: "Code",
  join: "Join",
  wrong: (left: number) => `That is not the code. ${left === 1 ? "One try is" : `${left} tries are`} left.`,
  locked: "Too many wrong codes: this code is void. Press Enter at the computer for a new one.",
  "no code": "There is no code to join with at the moment. Press Enter at the computer for a new one.",
};
export type JoinWords = typeof ENGLISH;

const SPANISH: JoinWords = {
  language: "es",
  title: "Entrar",
  heading: "Entrar en el libro",
  about: "El código está en la ventana del ordenador que ejecuta Chargewright. Deja entrar a un teléfono.",
  code: "Código",
  join: "Entrar",
  wrong: (left) => `Ese no es el código. ${left === 1 ? "Queda un intento" : `Quedan ${left} intentos`}.`,
  locked: "Demasiados códigos equivocados: este ya no vale. Pulse Intro en el ordenador para obtener otro.",
  "no code": "Ahora mismo no hay código con que entrar. Pulse Intro en el ordenador para obtener uno.",
};

/** Words for the language that a browser asks for: the one of ours that it would rather have. */
export function joinWords(acceptLanguage = ""): JoinWords {
  const wishes = acceptLanguage.split(",").map((wish) => {
    const [tag = "", ...rest] = wish.trim().toLowerCase().split(";");
    const weight = /q=(\d*\.?\d+)/u.exec(rest.join(";"))?.[1];
    return { tag: tag.trim(), weight: weight === undefined ? 1 : Number(weight) };
  });
  const weightOf = (language: string) =>
    Math.max(0, ...wishes.filter(({ tag }) => tag === language || tag.startsWith(`${language}-`)).map((w) => w.weight));
  return weightOf("es") > weightOf("en") ? SPANISH : ENGLISH;
}

export function whyNot(knock: WhyNot, words: JoinWords): string {
  return knock.why === "wrong" ? words.wrong(knock.triesLeft) : words[knock.why];
}
