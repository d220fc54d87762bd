// The engine behind the belt in pictures: the section and its readings, plots by key and pointer, the
// belt-off contact map to read and to move in, and one sentence where figures are missing.
import assert from "node:assert/strict";
import {
  button,
  choose,
  inEngines,
  keys,
  L,
  labels,
  near,
  open,
  press,
  settled,
  shippedText,
  task,
} from "./working.mjs";

const CAMSHAFT = "Left camshaft";

/** Without its engine, without the crank's figures, and without the room of its valves. */
const withoutEngine = shippedText.replace(/\[engine\][\s\S]*?(?=\[\[caution)/, "");
const withoutRod = shippedText.replace(/^(stroke|rod)_mm = .*\n/gm, "");
const withoutRoom = shippedText.replace(/, lean_deg = [\d.]+, gap_at_tdc_mm = [\d.]+/g, "");

async function put(page, ...actions) {
  await page.evaluate((all) => all.forEach((each) => void globalThis.bench.act(each)), actions);
  await settled(page);
}

const text = async (page, place) => (await page.locator(place).first().textContent()).trim();
const stand = (page) => page.evaluate(() => JSON.parse(globalThis.bench.json("pose")));

/** How many pixels of the section have the colour of a valve that would touch. */
const touchingPixels = (page) =>
  page.evaluate(() => {
    const canvas = document.querySelector("cylinder-section canvas");
    const probe = document.querySelector("#probe");
    probe.style.color = "var(--paint-valve-touching)";
    const wanted = getComputedStyle(probe).color.match(/\d+/g).map(Number);
    const copy = new OffscreenCanvas(canvas.width, canvas.height);
    const context = copy.getContext("2d", { willReadFrequently: true });
    context.drawImage(canvas, 0, 0);
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    let found = 0;
    for (let i = 0; i < data.length; i += 4) {
      if (wanted.every((part, k) => Math.abs(part - data[i + k]) < 3)) found += 1;
    }
    return found;
  });

inEngines(["chromium", "firefox"], (prove) => {
  prove("a valve is seen to meet its piston one tooth past what survives", {}, async (page) => {
    await task(page, L.what_if);
    await put(page, { set_teeth: { cam_left: 2 } }, { turn_to: { crank_deg: 366 } });
    assert.match(await text(page, ".section-reading"), /^Cylinder 1: piston 0\.3.mm below its top/);
    assert.doesNotMatch(await text(page, ".section-reading"), /would touch/);
    assert.equal(await touchingPixels(page), 0);
    await press(page, `${CAMSHAFT}: ${L.tooth_ahead}`);
    const reading = await text(page, ".section-reading");
    assert.match(reading, /intake valve open .* would touch: 0\.6.mm inside the piston/);
    assert.equal(await page.locator("cylinder-section canvas").getAttribute("aria-label"), reading);
    assert.match(await text(page, ".gap-tag.out"), /−0\.6.mm/);
    assert((await touchingPixels(page)) > 100, "it is drawn so");
    assert.match(await text(page, "engine-pictures"), /some valve would touch its piston at/);
    // Another cylinder, and back to the one with the least gap.
    const chooser = page.locator("cylinder-section select");
    await chooser.selectOption({ label: "Cylinder 4" });
    assert.match(await text(page, ".section-reading"), /^Cylinder 4: /);
    await chooser.selectOption("-1");
    assert.match(await text(page, ".section-reading"), /^Cylinder 1: /);
    await choose(page, L.other_language);
    assert.match(await text(page, ".section-reading"), /^Zylinder 1: .*0,6.mm im Kolben/);
    assert.equal(await text(page, "engine-pictures .caution"), labels.de.gap_caution);
  });

  prove("plots are read by keys and by pointer, and as a table", {}, async (page) => {
    await task(page, L.what_if);
    await put(page, { set_teeth: { cam_left: 3 } });
    const plot = page.getByRole("slider", { name: L.teeth_gap_heading });
    const reads = () => plot.getAttribute("aria-valuetext");
    assert.match(await reads(), /^3.teeth ahead: intake valve would touch/);
    await plot.focus();
    await keys(page, "ArrowLeft");
    assert.match(await reads(), /^2.teeth ahead: intake valve at least 1\.2.mm from the piston/);
    assert.equal(await text(page, "teeth-plot .plot-reading"), await reads());
    await keys(page, "Home");
    assert.match(await reads(), /^6.teeth behind/);
    await page.locator("teeth-plot .u-over").scrollIntoViewIfNeeded();
    const over = await page.locator("teeth-plot .u-over").boundingBox();
    await page.mouse.move(over.x + over.width / 2, over.y + 20);
    await settled(page);
    assert.match(await reads(), /^In time/);
    const table = page.locator(".teeth-gaps");
    await page.getByText(L.as_a_table).click();
    assert.equal(await table.locator("tbody tr").count(), 13);
    assert.match(
      await table.locator("tbody tr").nth(9).textContent(),
      /3.teeth ahead\s*−0\.6.mm: touches/,
    );
    const curves = page.getByRole("slider", { name: L.curves_heading });
    assert.match(await curves.getAttribute("aria-valuetext"), /^At the overlap top: /);
    await curves.focus();
    await keys(page, "ArrowRight");
    assert.match(await curves.getAttribute("aria-valuetext"), /^1° after the overlap top: intake/);
  });

  prove("with figures missing one sentence stands instead", {}, async (page) => {
    await task(page, L.what_if);
    for (const [layout, sentence] of [
      [withoutEngine, /No engine figures in this layout: degrees only\./],
      [withoutRod, /No stroke and rod stated in this layout/],
    ]) {
      assert.notEqual(layout, shippedText);
      await open(page, "less.toml", layout);
      await page.locator("engine-pictures .missing").waitFor();
      assert.match(await text(page, "engine-pictures"), sentence);
      assert.equal(await page.locator("engine-pictures canvas").count(), 0);
      await put(page, { tensioner: "back" }, { belt: "off" });
      await task(page, L.fitting);
      assert.match(await text(page, "contact-map"), sentence);
      assert.equal(await page.locator("contact-map canvas").count(), 0);
      await task(page, L.what_if);
    }
    await open(page, "less.toml", withoutRoom);
    await page.getByText(/No room at the top stated for the intake valve of Left/).waitFor();
    assert.equal(await page.locator("cylinder-section canvas").count(), 1);
    assert.equal(await page.locator(".plot").count(), 0);
  });

  prove("with the belt off crank and camshaft move on the map", {}, async (page) => {
    await task(page, L.fitting);
    assert.equal(await page.locator("contact-map").count(), 0, "not with the belt on");
    await put(page, { tensioner: "back" }, { belt: "off" });
    const field = page.getByRole("application");
    await field.focus();
    await keys(page, "ArrowLeft", "ArrowLeft", "ArrowLeft");
    near((await stand(page)).crank_deg, -3, 1e-9, "the crank");
    assert.match(await text(page, ".map-reading"), /^Crankshaft 3° before its mark, Left camshaft/);
    const cam = async () =>
      (await stand(page)).wheels.find(({ id }) => id === "cam_left").turned_deg;
    const before = await cam();
    await keys(page, "ArrowUp");
    near((await cam()) - before, 1, 1e-9, "the camshaft");
    // A tap a quarter of the map to the left of the middle: 90° back, the camshaft on its mark.
    const map = page.locator(".map-field canvas");
    await map.scrollIntoViewIfNeeded();
    const { x, y, width, height } = await map.boundingBox();
    await page.mouse.click(x + width / 4, y + height / 2);
    await settled(page);
    near((await stand(page)).crank_deg, -90, 2, "the crank");
    near(await cam(), 0, 2, "the camshaft");
    await button(page, L.undo).click();
    await settled(page);
    near((await stand(page)).crank_deg, -3, 1e-9, "one step for both");
  });
});
