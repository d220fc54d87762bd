// A mark looked at from the side, and the belt's tension: read in Two turns and in Fitting, the same as the
// program's own answer; the drive itself stands still.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import {
  figure,
  inEngines,
  keys,
  L,
  labels,
  near,
  open,
  poseText,
  press,
  reads,
  STILL,
  settled,
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
