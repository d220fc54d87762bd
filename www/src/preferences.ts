// What a person has chosen once and wants remembered: language, units, light or dark, the open task.
// Knows nothing of the drive. Where the browser forbids keeping things, choices last as long as the
// page.

export interface Preferences {
  lang: string;
  inch: boolean;
  theme: "" | "light" | "dark";
  task: string;
}

const PLACE = "two-turns-preferences";

/** What is kept, less what this page could not have written. */
function kept(): Partial<Preferences> {
  try {
    const { lang, inch, theme, task } = JSON.parse(localStorage.getItem(PLACE) ?? "{}");
    return {
      ...(["en", "de"].includes(lang) && { lang }),
      ...(typeof inch === "boolean" && { inch }),
      ...(["", "light", "dark"].includes(theme) && { theme }),
      ...(typeof task === "string" && { task }),
    };
  } catch {
    return {};
  }
}

/** As kept, else as the browser suggests. */
export function readPreferences(): Preferences {
  const browser: Preferences = {
    lang: navigator.language.toLowerCase().startsWith("de") ? "de" : "en",
    inch: false,
    theme: "",
    task: "two_turns",
  };
  return { ...browser, ...kept() };
}

export function keepPreferences(preferences: Preferences): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(preferences));
  } catch {
    // Forbidden or full: the choice holds until the page is closed.
  }
}
