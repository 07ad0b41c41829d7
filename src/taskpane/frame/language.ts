/** The languages of the pane: which one is spoken, and fetching its words. */
import type { Drafts } from "../host/storage";
import { english, speak, type Texts } from "../words/texts";

/** Each named in itself, so that whoever reads it finds it, with what fetches its words. The tests of the words walk this list. */
export const languages = [
  { code: "en", name: "English", words: (): Promise<Texts> => Promise.resolve(english) },
  {
    code: "fr",
    name: "Français",
    words: async (): Promise<Texts> => (await import(/* webpackChunkName: "french" */ "../words/french/index")).french,
  },
] as const;

export type Language = (typeof languages)[number]["code"];

const draftName = "language";

/**
 * The language that was chosen here before, else the first preferred one that the pane speaks, else English.
 * @param preferred codes such as `fr-CA`, the dearest first
 */
export function languageFor(drafts: Drafts, preferred: readonly string[]): Language {
  const wanted = [drafts.read(draftName), ...preferred];
  for (const one of wanted) {
    const code = typeof one === "string" ? one.toLowerCase().split("-")[0] : undefined;
    const spoken = languages.find((language) => language.code === code);
    if (spoken) return spoken.code;
  }
  return "en";
}

export function keepLanguage(drafts: Drafts, language: Language): void {
  drafts.keep(draftName, language);
}

/** Has the pane speak a language. Rejected, with the language as it was, where its words could not be fetched. */
export async function speakLanguage(language: Language): Promise<void> {
  const chosen = languages.find(({ code }) => code === language);
  if (chosen) speak(await chosen.words());
}
