// How the proofs work the page as a person does: by its words and roles, and by the key that every
// reading carries. Knows no layout but the one that ships, and no expected figure.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, describe, test } from "node:test";
import { engine } from "./engines.mjs";
import { launch, openPage } from "./harness.mjs";
import { openCore } from "./parity.mjs";

/** The layout that ships, as a person has it. */
export const shippedText = readFileSync(
  new URL("../../layouts/six-in-a-vee-one-camshaft-a-bank.toml", import.meta.url),
  "utf8",
);

const core = await openCore();

/** The page's fixed texts, by key, as each language has them. */
export const labels = Object.fromEntries(
  ["en", "de"].map((lang) => [lang, new core.Workbench(lang, false).labels()]),
);

/** In English, in which most proofs work. */
export const L = labels.en;

/** The button that turns forward by so much. */
export const forward = (by) => `${by}, ${L.forward}`;
/** The button that turns back by so much. */
export const back = (by) => `${by}, ${L.backward}`;

/** Somebody who reads English and metric, and wants no motion: every run is over at once. */
export const STILL = { locale: "en-GB", reducedMotion: "reduce" };

/**
 * Proofs in each of these engines, one browser for all of them. `define` gets `prove(title, options,
 * body)`: a test that opens the page with those options, runs the body on it, and fails if the page
 * said anything or asked for anything (with `quiet: false`, it may); and the engine's name. `others` defines suites beside these.
 */
export function inEngines(names, define, others = () => {}) {
  describe("in the browsers", { concurrency: true }, () => {
    for (const name of names) {
      describe(name, { skip: engine(name).missing, concurrency: 1 }, () => {
        let browser;
        before(async () => {
          browser = await launch(name, { still: true });
        });
        after(() => browser.close());
        const prove = (title, { quiet = true, ...options }, body) =>
          test(title, async () => {
            const opened = await openPage(browser, { ...STILL, ...options });
            try {
              await settled(opened.page);
              await body(opened.page, opened);
              if (quiet) await opened.seen.assertQuiet();
            } finally {
              await opened.context.close();
            }
          });
        define(prove, name);
      });
    }
    others();
  });
}

/** Waits until nothing runs, and what the page says is what the program holds. */
export async function settled(page) {
  const last = await page.evaluate(async () => {
    const { bench } = globalThis;
    const until = performance.now() + 15_000;
    for (;;) {
      const pose = JSON.parse(bench.json("pose"));
      const { crank, tensioner, wheels } = bench.panel;
      const says = [crank, tensioner.travel, ...wheels.map(({ turned }) => turned)];
      const holds = [
        pose.crank_deg,
        pose.tensioner.travel,
        ...pose.wheels.map(({ turned_deg }) => turned_deg),
      ];
      if (!bench.running && says.every(({ value }, i) => value === holds[i])) break;
      if (performance.now() > until) return `the page says ${JSON.stringify(says)}, not ${holds}`;
      await new Promise(requestAnimationFrame);
    }
    for (const element of document.querySelectorAll("two-turns, two-turns *")) {
      await element.updateComplete;
    }
    return "";
  });
  assert.equal(last, "");
}

/** The full figure of a reading, by its key; all elements that show it must agree. */
export async function figure(page, key) {
  const places = page.locator(`[data-key="${key}"]`);
  const shown = await places.evaluateAll((all) => all.map(({ dataset }) => dataset.value));
  assert(shown.length > 0, `no reading ${key} on the page`);
  assert.deepEqual(
    shown,
    shown.map(() => shown[0]),
    `readings of ${key} differ`,
  );
  return Number(shown[0]);
}

/** The words of a reading, by its key. */
export async function words(page, key) {
  return (await page.locator(`[data-key="${key}"]`).first().textContent()).trim();
}

/** Fails unless a figure is `wanted` to within `within`. */
export function near(found, wanted, within, what) {
  assert(Math.abs(found - wanted) <= within, `${what}: ${found} is not ${wanted} ± ${within}`);
}

/** Fails unless a reading is `wanted` to within `within`. */
export async function reads(page, key, wanted, within = 1e-9) {
  near(await figure(page, key), wanted, within, key);
}

/** The pose as the page's program gives it, text for text. */
export function poseText(page) {
  return page.evaluate(() => globalThis.bench.json("pose"));
}

/** The pose. */
export async function pose(page) {
  return JSON.parse(await poseText(page));
}

/** The report. */
export async function report(page) {
  return JSON.parse(await page.evaluate(() => globalThis.bench.json("report")));
}

/** A button by its name, whatever advice follows it behind a comma. */
export function button(page, name) {
  const plain = name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  return page.getByRole("button", { name: RegExp(`^${plain}(, .*)?$`) });
}

/** Presses a button by its exact name, and waits for what comes of it. */
export async function press(page, name) {
  await button(page, name).click();
  await settled(page);
}

/** Presses keys where the focus is, and waits for what comes of them. */
export async function keys(page, ...pressed) {
  for (const key of pressed) await page.keyboard.press(key);
  await settled(page);
}

/** Opens a task. */
export async function task(page, name) {
  await page.getByRole("tab", { name, exact: true }).click();
  await settled(page);
}

/** Chooses something in the menu. */
export async function choose(page, name) {
  await page.locator(".menu summary").click();
  await press(page, name);
}

/** Hands a file over as picked in the browser's own dialog. */
export async function open(page, name, content) {
  const buffer = Buffer.from(content);
  const file = { name, mimeType: "application/toml", buffer };
  await page.locator("input[type=file]").setInputFiles(file);
}

/** The readings' state of every marked shaft: mark and place against the crank. */
export async function marks(page, id) {
  return {
    mark: await words(page, `shafts.${id}.mark_error_teeth`),
    against: await words(page, `shafts.${id}.ahead_teeth`),
  };
}

/** In the page: everything that is pressed or pulled, and its size, if it is too small for a finger. */
export function small() {
  const all = "button, summary, input:not([type=file]), a[href], [role=slider], [role=tab]";
  return [...document.querySelectorAll(all)]
    .filter((element) => element.checkVisibility())
    .filter((element) => !element.matches(".wheel-label, .skip"))
    .map((element) => {
      // A box to tick is as large as its label.
      const box = element.closest("label.check") ?? element;
      const { width, height } = box.getBoundingClientRect();
      return { name: element.ariaLabel || element.textContent.trim(), width, height };
    })
    .filter(({ width, height }) => width < 43.99 || height < 43.99)
    .map(({ name, width, height }) => `${name}: ${width.toFixed(1)} × ${height.toFixed(1)}`);
}

/** In the page: opens everything that opens beside the drive. */
export function openAll() {
  for (const part of document.querySelectorAll(".side details")) part.open = true;
}

/** In the page: what sticks out to the side, if anything does. */
export function sideways() {
  const scrolls = ["html", ".side"]
    .map((place) => document.querySelector(place))
    .filter(({ scrollWidth, clientWidth }) => scrollWidth > clientWidth);
  const out = [...document.querySelectorAll("main *")]
    // A label beyond the edge of an enlarged drawing is not seen.
    .filter((element) => !element.closest(".scroll, .spoken, .skip, .wheel-label.no-room"))
    .filter((element) => element.checkVisibility())
    .filter((element) => element.getBoundingClientRect().right > innerWidth + 0.5)
    .map(
      (element) =>
        `${element.tagName} ${element.className} ${element.textContent.trim().slice(0, 30)}`,
    );
  return { wide: scrolls[0]?.scrollWidth ?? 0, out };
}
