// Opens the built page in Chromium and Firefox, and keeps everything that it says or asks for.
import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium, firefox } from "playwright-core";
import { engine } from "./engines.mjs";

const built = fileURLToPath(new URL("../../dist/two-turns.html", import.meta.url));

/** The page under test: `TWO_TURNS_PAGE` when that is set, else the one in `dist`. */
export const pagePath = resolve(process.env.TWO_TURNS_PAGE || built);
/** The same as a URL. */
export const pageUrl = pathToFileURL(pagePath).href;
assert(existsSync(pagePath), `${pagePath} is not there: run \`cargo xtask page\` first.`);

const CHROMIUM_FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/**
 * Starts `"chromium"` or `"firefox"`; the caller closes it. Firefox learns only here that somebody
 * wants no motion (`still`) or wants it dark; Chromium, in the options of [`openPage`].
 */
export function launch(name, { still = false, dark = false } = {}) {
  const { parts, missing } = engine(name);
  assert(!missing, `${name}: ${missing}`);
  const executablePath = parts.browser;
  if (name === "chromium") return chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
  const firefoxUserPrefs = {
    "ui.prefersReducedMotion": still ? 1 : 0,
    "layout.css.prefers-color-scheme.content-override": dark ? 0 : 1,
  };
  return firefox.launch({ executablePath, channel: "moz-firefox", firefoxUserPrefs });
}

/** Chromium with a profile in `folder` that outlives it. */
export function launchWithProfile(folder, options = {}) {
  const { parts } = engine("chromium");
  const given = { executablePath: parts.browser, args: CHROMIUM_FLAGS, ...options };
  return chromium.launchPersistentContext(folder, given);
}

/**
 * Opens a page in a context of its own and waits until the app stands.
 *
 * `options` are those of a context (`viewport`, `colorScheme`, `reducedMotion`, …), `url` when it is
 * not the built page, and `prepare`, which runs in the page before anything else. What comes back is
 * the page and `seen`: every console message, page error and request so far, in words.
 * `seen.assertQuiet()` fails on anything but the file itself.
 */
export async function openPage(browser, { url = pageUrl, prepare, ...options } = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
  await context.addInitScript(noteBlocked);
  if (prepare) await context.addInitScript(prepare);
  const page = await context.newPage();
  page.setDefaultTimeout(10_000);
  const seen = watch(page, url);
  await page.goto(url);
  await standing(page);
  return { page, context, seen };
}

/** Waits until the app is up, or has said why it is not. */
export async function standing(page) {
  await page.waitForFunction(() => !document.querySelector("main[aria-busy]"));
}

/** Runs in the page: Firefox tells nobody else what the page's policy held back. */
function noteBlocked() {
  window.blocked = [];
  document.addEventListener("securitypolicyviolation", (event) => {
    window.blocked.push(`${event.violatedDirective}: ${event.blockedURI}`);
  });
}

/** What a page makes itself and what never leaves the browser. */
const OWN = /^(data|blob|about):/;

/** Notes from now on what a page says and asks for. */
export function watch(page, url = pageUrl) {
  const seen = { console: [], errors: [], requests: [], assertQuiet };
  page.on("console", (said) => seen.console.push(`${said.type()}: ${said.text()}`));
  page.on("pageerror", (problem) => seen.errors.push(String(problem)));
  page.on("crash", () => seen.errors.push("the page crashed"));
  page.on("request", (request) => {
    if (!OWN.test(request.url())) seen.requests.push(`${request.method()} ${request.url()}`);
  });
  async function assertQuiet() {
    // A little later, so that what is on its way has arrived.
    await page.waitForTimeout(200);
    const { loaded, blocked } = await page.evaluate(() => ({
      loaded: performance.getEntriesByType("resource").map((entry) => entry.name),
      blocked: window.blocked,
    }));
    // Firefox does not report the page's own file, so it may be there or not.
    const itself = `GET ${url.split("#")[0]}`;
    const asked = seen.requests.filter((request) => request.split("#")[0] !== itself);
    asked.push(...loaded.filter((name) => !OWN.test(name)));
    const { console, errors } = seen;
    assert.deepEqual(
      { console, errors, blocked, asked },
      { console: [], errors: [], blocked: [], asked: [] },
      "the page said or asked for something",
    );
  }
  return seen;
}

const axeText = () => readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"));

/** Fails with one line for each accessibility rule that the page breaks, as it stands now. */
export async function assertAccessible(page, options = {}) {
  await page.evaluate(`${axeText()}; undefined`);
  const { violations } = await page.evaluate((given) => window.axe.run(document, given), options);
  const lines = violations.map(
    ({ id, help, nodes }) => `${id}: ${help} (${nodes.map((node) => node.target).join("; ")})`,
  );
  assert.deepEqual(lines, []);
}
