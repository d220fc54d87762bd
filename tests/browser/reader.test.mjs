// Who reads the page and how: language, units, what is remembered, light and dark, narrow and wide,
// and what a screen reader gets.
import assert from "node:assert/strict";
import { assertAccessible, standing } from "./harness.mjs";
import {
  choose,
  figure,
  forward,
  inEngines,
  L,
  labels,
  near,
  open,
  press,
  report,
  settled,
  sideways,
  small,
  task,
  words,
} from "./working.mjs";

/** In the page: every text that somebody sees or is told, one a line; whole texts only. */
function texts() {
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    if (!walker.currentNode.parentElement.closest("script, style, noscript")) {
      found.push(walker.currentNode.data);
    }
  }
  for (const element of document.querySelectorAll("*")) {
    for (const name of ["aria-label", "aria-valuetext", "title", "alt", "placeholder"]) {
      if (element.hasAttribute(name)) found.push(element.getAttribute(name));
    }
  }
  return found.map((text) => text.trim()).filter(Boolean);
}

/** The texts that only one language has, as whole texts or as parts between `: ` and `, `. */
function only(lang, other) {
  const theirs = new Set(Object.values(labels[other]));
  return Object.values(labels[lang]).filter((text) => !theirs.has(text));
}

/** Fails if a label of `lang` stands on the page, but for the button that leads to it. */
async function assertNone(page, lang, other) {
  const foreign = new Set(only(lang, other));
  foreign.delete(labels[other].other_language);
  const shown = await page.evaluate(texts);
  assert(shown.length > 50, "texts were found");
  const parts = shown.flatMap((text) => [text, ...text.split(/[:,] /)]);
  assert.deepEqual(
    parts.filter((part) => foreign.has(part)),
    [],
    `still in ${lang}`,
  );
}

/** Common words that no German sentence has. */
const ENGLISH = /\b(the|and|with|turns?|teeth|tooth|crankshaft is|behind|ahead|tight|slack|of)\b/i;
/** What the layout's own author wrote is in the author's language. */
const AUTHORS =
  /^(Six in a vee|Four in line|Diesel four|Balance-shaft belt|Invented for demonstration|Crankshaft|Tensioner|Left camshaft|Water pump|Right camshaft|Idler|Two Turns)/;

async function assertGerman(page) {
  await assertNone(page, "en", "de");
  const shown = await page.evaluate(texts);
  // The program's name is the same in every language.
  const english = shown
    .filter((text) => !AUTHORS.test(text))
    .filter((text) => ENGLISH.test(text.replace(/Two Turns/g, "")))
    .filter(
      (text) =>
        !/Left camshaft|Right camshaft/.test(text) || ENGLISH.test(text.split("amshaft")[1]),
    );
  assert.deepEqual(english, []);
}

const lang = (page) => page.evaluate(() => document.documentElement.lang);

inEngines(["chromium", "firefox"], (prove, name) => {
  const inChromium = name === "chromium" ? prove : () => undefined;

  prove("German everywhere, and back", {}, async (page) => {
    assert.equal(await lang(page), "en");
    await assertNone(page, "de", "en");
    await press(page, forward(L.quarter));
    const pose = await page.evaluate(() => globalThis.bench.json("pose"));
    await open(page, "broken.toml", "format = 2");
    await page.locator("open-file .problems").waitFor();
    await choose(page, L.other_language);
    assert.equal(await lang(page), "de");
    for (const name of ["layout", "fitting", "two_turns", "what_if"].map((key) => labels.de[key])) {
      await task(page, name);
      await assertGerman(page);
    }
    await press(page, `Nockenwelle links: ${labels.de.tooth_behind}`);
    await press(page, labels.de.right_back);
    await assertGerman(page);
    assert.equal(await words(page, "shafts.cam_left.out_deg"), "7,5°", "a decimal comma");
    await press(page, labels.de.undo);
    await press(page, labels.de.undo);
    await page.evaluate(() => globalThis.bench.act({ turn_to: { crank_deg: 1e300 } }));
    await page.locator(".refused").waitFor();
    await assertGerman(page);
    await press(page, `${labels.de.one_degree}, ${labels.de.forward}`);
    await press(page, labels.de.undo);
    assert.equal(
      await page.evaluate(() => globalThis.bench.json("pose")),
      pose,
      "only words changed",
    );
    await page.locator(".menu summary").click();
    assert.equal(await page.getByRole("button", { name: "English" }).getAttribute("lang"), "en");
    await press(page, "English");
    assert.equal(await lang(page), "en");
    await assertNone(page, "de", "en");
  });

  inChromium("a reader of German gets German from the start", { locale: "de-AT" }, async (page) => {
    assert.equal(await lang(page), "de");
    await assertGerman(page);
  });

  prove("choices are remembered", {}, async (page) => {
    await choose(page, L.other_language);
    await choose(page, `${labels.de.units}: ${labels.de.inch}`);
    await choose(page, labels.de.dark);
    await task(page, labels.de.what_if);
    await press(page, labels.de.right_back);
    const before = await page.evaluate(() => ({ ...globalThis.bench.preferences }));
    await page.reload();
    await standing(page);
    await settled(page);
    assert.deepEqual(await page.evaluate(() => ({ ...globalThis.bench.preferences })), before);
    assert.equal(await lang(page), "de");
    assert.equal(await page.locator("task-what-if").count(), 1);
    const scheme = await page.evaluate(
      () => getComputedStyle(document.documentElement).colorScheme,
    );
    assert.equal(scheme, "dark");
    assert.match(await words(page, "tensioner.travel"), /\u00a0(in|Zoll)$/);
  });

  inChromium("inches are the same figures in other words", {}, async (page) => {
    await press(page, L.right_back);
    const mm = await figure(page, "runs.crank>cam_left.slack_mm");
    assert.equal(
      (await words(page, "runs.crank>cam_left.slack_mm")).split(",")[0],
      `${mm.toFixed(1)}\u00a0mm`,
    );
    await choose(page, `${L.units}: ${L.inch}`);
    assert.equal(await figure(page, "runs.crank>cam_left.slack_mm"), mm);
    const [, inches, unit] = (await words(page, "runs.crank>cam_left.slack_mm")).match(
      /^([\d.]+)\u00a0(\S+),/,
    );
    near(Number(inches), mm / 25.4, 0.006, "inches");
    assert.equal(unit, "in");
    assert(!/\dmm|\u00a0mm/.test((await page.evaluate(texts)).join("\n")), "no millimetre is left");
    await choose(page, `${L.units}: ${L.metric}`);
    assert.match(await words(page, "tensioner.travel"), /mm$/);
  });

  prove("with the browser keeping nothing, it still works", {}, async (page) => {
    await page.addInitScript(() => {
      for (const what of ["localStorage", "sessionStorage", "indexedDB"]) {
        Object.defineProperty(globalThis, what, {
          get() {
            throw new DOMException("The operation is insecure.", "SecurityError");
          },
        });
      }
    });
    await page.reload();
    await standing(page);
    await settled(page);
    await choose(page, L.other_language);
    assert.equal(await lang(page), "de");
    await press(page, labels.de.two_turns_forward);
    assert.equal(await figure(page, "crank_deg"), 720);
    await page.reload();
    await standing(page);
    assert.equal(await lang(page), "en");
  });

  inChromium("with what it kept damaged, it still works", {}, async (page) => {
    for (const kept of [
      "{",
      "null",
      "7",
      '"x"',
      '{"lang":"xx","task":7,"theme":"pink","inch":"no"}',
    ]) {
      await page.evaluate((text) => localStorage.setItem("two-turns-preferences", text), kept);
      await page.reload();
      await standing(page);
      await settled(page);
      assert.equal(await page.locator("[role=alert]").count(), 0, kept);
      assert.equal((await report(page)).belt.teeth, 173, kept);
      assert.match(await lang(page), /^(en|de)$/, kept);
    }
  });

  for (const [width, colorScheme] of [
    [390, "light"],
    [1280, "dark"],
    [390, "dark"],
    [1280, "light"],
  ].slice(0, name === "chromium" ? 4 : 1)) {
    const options = { viewport: { width, height: 800 }, colorScheme };
    prove(`accessible, ${width} wide and ${colorScheme}`, options, async (page) => {
      await assertAccessible(page);
      await task(page, L.layout);
      await assertAccessible(page);
      await task(page, L.what_if);
      await press(page, `Left camshaft: ${L.tooth_behind}`);
      await press(page, L.right_back);
      await open(page, "broken.toml", "format = 2");
      await page.locator("open-file .problems").waitFor();
      await page.locator(".menu summary").click();
      await assertAccessible(page);
      await press(page, L.about);
      if (colorScheme === "light") await assertAccessible(page);
      assert.deepEqual((await page.evaluate(sideways)).wide, 0);
    });
  }

  for (const width of name === "chromium" ? [360, 390, 860, 1920] : [360]) {
    const viewport = { width, height: width > 1000 ? 1080 : 740 };
    for (const inLang of width < 400 ? ["de", "en"] : ["de"]) {
      const locale = inLang === "en" ? "en-GB" : "de-DE";
      prove(
        `fits ${width} across, in ${inLang}, with room for fingers`,
        { viewport, locale },
        async (page) => {
          const { layout, fitting, two_turns, what_if } = labels[inLang];
          for (const name of [layout, fitting, two_turns, what_if]) {
            await task(page, name);
            await page.locator("tensioner-part").getByRole("button").first().click();
            await settled(page);
            assert.deepEqual(await page.evaluate(sideways), { wide: 0, out: [] });
            assert.deepEqual(await page.evaluate(small), []);
            await page.locator(".menu summary").click();
            assert.deepEqual(await page.evaluate(sideways), { wide: 0, out: [] });
            assert.deepEqual(await page.evaluate(small), []);
            await page.locator(".menu summary").click();
          }
        },
      );
    }
  }
});
