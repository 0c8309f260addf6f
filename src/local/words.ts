import type { Language } from "../pane/settings";

/** What the local page itself says, besides the grid and the pane; in the language of the pane. */
const ENGLISH = {
  sheet: "Workbook",
  pane: "Job pane",
  divider: "Width of the pane",
  views: { label: "What is shown", sheet: "Sheet", both: "Both", pane: "Pane" },
  notStarted: (reason: string) => `The workbook could not be opened: ${reason}`,
  unreachable: "The shop's computer cannot be reached.",
  file: { label: "Workbook file", open: "Open…", save: "Save as .xlsx", anew: "Start anew" },
  saved: (name: string) => `Saved as ${name} in your downloads.`,
  opened: (name: string) => `${name} is open. The file itself stays as it is; save to get a new one.`,
  openedWithout: (name: string) => `${name} is open, without what the page cannot show. The file itself still has it:`,
  more: (count: number) => `and ${count} more.`,
  replace: (name: string) =>
    `Open ${name} in place of the workbook that is here? What is here and not saved as a file is lost.`,
  startAnew: "Start anew with the demo workbook? What is here and not saved as a file is lost.",
  notOpened: (reason: string) => `Nothing was opened: ${reason}`,
  notSaved: (reason: string) => `Nothing was saved: ${reason}`,
  notKept: (reason: string) =>
    `The browser could not keep the workbook (${reason}). Save it as a file before you leave.`,
  otherTab: "This workbook is open in another tab. What is typed here is not kept.",
  keepHere: "Keep it here instead",
  takenAway: "This workbook is now kept by another tab. What is typed here is not kept.",
  changedElsewhere:
    "The kept workbook was changed elsewhere. What is typed here is not kept; save it as a file, or load this page again.",
  notRestored: (reason: string) =>
    `The kept workbook could not be opened (${reason}). It is still kept, and what is typed here is not: start anew to let go of it.`,
  auditing: "A long table is being audited. Go on working meanwhile; what you type is judged with it.",
  newer: "A newer version of this page is ready.",
  useNewer: "Use it now",
  dismiss: "Close",
  phone: (count: number) =>
    count === 1 ? "One phone works on this workbook." : `${count} phones work on this workbook.`,
} as const;

export type PageWords = { readonly [K in keyof typeof ENGLISH]: Widened<(typeof ENGLISH)[K]> };
type Widened<T> = T extends string
  ? string
  : T extends (...args: infer A) => string
    ? (...args: A) => string
    : { readonly [K in keyof T]: string };

const SPANISH: PageWords = {
  sheet: "Libro",
  pane: "Panel de trabajo",
  divider: "Ancho del panel",
  views: { label: "Qué se muestra", sheet: "Hoja", both: "Ambos", pane: "Panel" },
  notStarted: (reason) => `No se pudo abrir el libro: ${reason}`,
  unreachable: "No se alcanza el ordenador del taller.",
  file: { label: "Archivo del libro", open: "Abrir…", save: "Guardar como .xlsx", anew: "Empezar de nuevo" },
  saved: (name) => `Guardado como ${name} en sus descargas.`,
  opened: (name) => `${name} está abierto. El archivo no se toca; guarde para obtener uno nuevo.`,
  openedWithout: (name) => `${name} está abierto, sin lo que la página no puede mostrar. El archivo aún lo tiene:`,
  more: (count) => `y ${count} más.`,
  replace: (name) =>
    `¿Abrir ${name} en lugar del libro que está aquí? Lo que está aquí y no se guardó como archivo se pierde.`,
  startAnew: "¿Empezar de nuevo con el libro de muestra? Lo que está aquí y no se guardó como archivo se pierde.",
  notOpened: (reason) => `No se abrió nada: ${reason}`,
  notSaved: (reason) => `No se guardó nada: ${reason}`,
  notKept: (reason) => `El navegador no pudo conservar el libro (${reason}). Guárdelo como archivo antes de salir.`,
  otherTab: "Este libro está abierto en otra pestaña. Lo que se escribe aquí no se conserva.",
  keepHere: "Conservarlo aquí",
  takenAway: "Ahora otra pestaña conserva este libro. Lo que se escribe aquí no se conserva.",
  changedElsewhere:
    "El libro conservado cambió en otro sitio. Lo que se escribe aquí no se conserva; guárdelo como archivo o vuelva a cargar la página.",
  notRestored: (reason) =>
    `El libro conservado no se pudo abrir (${reason}). Sigue conservado, y lo que se escribe aquí no: empiece de nuevo para soltarlo.`,
  auditing: "Se está evaluando una tabla larga. Puede seguir trabajando; lo que escriba se evaluará con ella.",
  newer: "Hay una versión más nueva de esta página.",
  useNewer: "Usarla ahora",
  dismiss: "Cerrar",
  phone: (count) => (count === 1 ? "Un teléfono trabaja en este libro." : `${count} teléfonos trabajan en este libro.`),
};

const WORDS: Readonly<Record<Language, PageWords>> = { en: ENGLISH, es: SPANISH };

/** The page's words; they become those of another language in place, wherever they are held. */
export class SpokenWords {
  readonly words: PageWords;

  constructor(private language: Language) {
    this.words = { ...WORDS[language] };
  }

  /** What the workbook or a file refused, in the page's language; its own words are fetched. */
  readonly refused = async (text: string): Promise<string> => {
    if (this.language === "en") return text;
    try {
      const [{ SPANISH }, { FILE_PHRASES }] = await Promise.all([
        import(/* webpackChunkName: "spanish" */ "../pane/words/spanish"),
        import(/* webpackChunkName: "files-spanish" */ "./files-spanish"),
      ]);
      const said = SPANISH.saidWith(FILE_PHRASES)(text);
      return said === text ? await SPANISH.refused(text) : said;
    } catch {
      // Better in English than not at all.
      return text;
    }
  };

  speak(language: Language): void {
    this.language = language;
    Object.assign(this.words, WORDS[language]);
  }
}
