/** Light, dark, or as the system says; kept in this browser. */
export type Theme = "system" | "light" | "dark";

const KEY = "ledgerline-theme";

export function readTheme(): Theme {
  const kept = localStorage.getItem(KEY);
  return kept === "light" || kept === "dark" ? kept : "system";
}

export function setTheme(theme: Theme): void {
  if (theme === "system") {
    localStorage.removeItem(KEY);
    delete document.documentElement.dataset.theme;
  } else {
    localStorage.setItem(KEY, theme);
    document.documentElement.dataset.theme = theme;
  }
}
