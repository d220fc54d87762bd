// A mark looked at from the side, and the belt's tension: read in Two turns and in Fitting, the same as the
// program's own answer; the drive itself stands still.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { assertAccessible } from "./harness.mjs";
import {
  figure,
  inEngines,
  keys,
  L,
  labels,
  near,
  open,
  openAll,
  poseText,
  press,
  reads,
  STILL,
  settled,
  sideways,
  small,
  task,
  words,
} from "./working.mjs";

const eccentric = readFileSync(
  new URL("../../layouts/four-in-line-one-camshaft-eccentric.toml", import.meta.url),
  "utf8",
);

const slider = (page) => page.getByRole("slider", { name: L.sight_aside });
const lookFrom = async (page, deg) => {
  await slider(page).fill(String(deg));
  await settled(page);
};

/** The drive's picture as it is painted now. */
const painted = (page) =>
  page.evaluate(async () => {
    await new Promise(requestAnimationFrame);
    await new Promise(requestAnimationFrame);
    return document.querySelector("drive-view canvas").toDataURL();
  });

inEngines(["chromium", "firefox"], (prove) => {
  prove("from the side marks seem to move, and a mirror puts the eye square", {}, async (page) => {
    const [square, pose] = [await painted(page), await poseText(page)];
    await reads(page, "sight.marks.crank.apparent_teeth", 0);
    await lookFrom(page, 20);
    // g·tan v (computed): 10 mm at 20° are 3.640 mm.
    await reads(page, "sight.marks.crank.seems_mm", 3.64, 1e-3);
    const teeth = await figure(page, "sight.marks.crank.apparent_teeth");
    assert(teeth > 0.3 && teeth < 0.5, `${teeth}`);
    assert.equal(await poseText(page), pose, "the drive has not moved");
    assert.notEqual(await painted(page), square, "the picture has");
    await slider(page).focus();
    await keys(page, "ArrowRight");
    await reads(page, "sight.aside_deg", 21);
    await press(page, L.sight_square);
    await reads(page, "sight.aside_deg", 0);
    assert.equal(await painted(page), square);
    // Elsewhere nobody looks from the side.
    await lookFrom(page, -45);
    await task(page, L.what_if);
    await task(page, L.two_turns);
    await reads(page, "sight.aside_deg", 0);
  });

  prove("tension before the pin, after it and under the hand", {}, async (page) => {
    const answer = JSON.parse(await page.evaluate(() => globalThis.bench.json("tension")));
    for (const name of [L.two_turns, L.fitting]) {
      await task(page, name);
      await page.locator("tension-part summary").click();
      await reads(page, "tension.resting_tension_n", answer.resting_tension_n);
      await reads(page, "tension.tensioner.gives_way_n_m", answer.tensioner.gives_way_n_m);
      await reads(page, "tension.belt.stretch_mm", answer.belt.stretch_mm);
      for (const { shaft, mark_moves_deg } of answer.pin_moves) {
        await reads(page, `tension.pin_moves.${shaft}.mark_moves_deg`, mark_moves_deg);
      }
      // T₀·ρ of the crank, 24 teeth of 9.525 mm.
      const radius = (24 * 9.525) / (2 * Math.PI) / 1000;
      near(answer.tensioner.gives_way_n_m, answer.resting_tension_n * radius, 1e-9, "gives way");
    }
    const now = () => page.locator("tension-part details > p").first().textContent();
    assert.match(await now(), /rests at/);
    await page.evaluate(() => globalThis.bench.act({ tensioner: "back" }));
    await settled(page);
    assert.match(await now(), /no tension yet/);
    await page.evaluate(() => globalThis.bench.act({ tensioner: "bolt_up" }));
    await settled(page);
    assert.match(await now(), /Before the pin/);
  });

  for (const width of [1280, 390]) {
    for (const lang of ["en", "de"]) {
      const options = { viewport: { width, height: 800 }, locale: lang };
      prove(
        `opened, nothing is wider than there is room, ${width} px, ${lang}`,
        options,
        async (page) => {
          for (const name of [labels[lang].two_turns, labels[lang].fitting]) {
            await task(page, name);
            await page.evaluate(openAll);
            await page.evaluate(() => globalThis.bench.supposeSeized(3));
            await settled(page);
            assert.deepEqual(await page.evaluate(sideways), { wide: 0, out: [] }, name);
            const cut = await page.evaluate(() =>
              [...document.querySelectorAll("sight-part *, tension-part *, wearing-part *")]
                .filter(({ clientWidth }) => clientWidth > 0)
                .filter(({ scrollWidth, clientWidth }) => scrollWidth > clientWidth + 1)
                .map(
                  ({ tagName, className, textContent }) => `${tagName} ${className} ${textContent}`,
                ),
            );
            assert.deepEqual(cut, [], name);
            assert.deepEqual(await page.evaluate(small), [], name);
          }
        },
      );
    }
  }

  prove("what wheels go through rests on assumptions to change", {}, async (page) => {
    await page.locator("wearing-part summary").click();
    const field = (name) => page.locator(".assumption", { hasText: name });
    const assume = async (name, low, high) => {
      for (const [end, value] of [
        [L.assumed_from, low],
        [L.assumed_to, high],
      ]) {
        // Firefox's driver writes into a number field without clearing it.
        await field(name)
          .getByLabel(end)
          .evaluate((input, to) => {
            input.value = to;
            input.dispatchEvent(new Event("change", { bubbles: true }));
          }, String(value));
      }
      await settled(page);
    };
    const idler = "tension.wheels.idler";
    const perKm = await figure(page, `${idler}.turns_per_km.1`);
    const due = await figure(page, `${idler}.turns_when_due.1`);
    await assume("Crank turns in a kilometre", 2000, 6000);
    await reads(page, `${idler}.turns_per_km.1`, 2 * perKm);
    await reads(page, `${idler}.turns_when_due.1`, 2 * due);
    await assume("The belt is due after", 50_000, 50_000);
    await reads(page, `${idler}.turns_when_due.1`, due);
    // Euler and Eytelwein, as the command line has it.
    const heat = await figure(page, "tension.seized.idler.heat_w.1");
    await assume("Crank speed", 800, 6000);
    await reads(page, "tension.seized.idler.heat_w.1", 2 * heat, 1e-6);
    await assume("Friction of the belt's back", 0.5, 0.2);
    assert.match(await field("Friction of the belt's back").textContent(), /lower end first/);
    await reads(page, "tension.seized.idler.heat_w.1", 2 * heat, 1e-6);
    await page.locator("wearing-part select").selectOption({ label: "Water pump" });
    await settled(page);
    assert.match(
      await page.locator("wearing-part").textContent(),
      /Water pump seized: the belt slides/,
    );
    assert.match(await page.locator("wearing-part").textContent(), /at 800 to 6000 rpm/);
    await assertAccessible(page);
  });

  prove("a tensioner locked by hand: what is not known is said", {}, async (page) => {
    await open(page, "eccentric.toml", eccentric);
    await page.locator("tension-part summary").click();
    assert.match(await page.locator("tension-part").textContent(), /not known/);
    assert.equal(await page.locator('[data-key="tension.resting_tension_n"]').count(), 0);
  });

  prove("in German", { ...STILL, locale: "de-DE" }, async (page) => {
    const name = labels.de.sight_aside;
    await page.getByRole("slider", { name }).fill("-10");
    await settled(page);
    assert.equal(await words(page, "sight.aside_deg"), "−10°");
    assert.match(await page.locator("sight-part").textContent(), /zurück/);
  });
});
