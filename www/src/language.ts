// A browser may name no language that there is ("C", on a bare machine), and then formatting numbers by it
// fails. What is loaded after this finds one that does. Knows nothing of the page's own languages.
try {
  new Intl.NumberFormat(navigator.language);
} catch {
  Object.defineProperty(navigator, "language", { value: "en", configurable: true });
}
