// The layout as a form, and wheels moved about in the view: what is filled in is on the bench, what cannot
// stand there is told at its field and stays typed, comments survive, and all of it can be undone.
import assert from "node:assert/strict";
import { assertAccessible, standing } from "./harness.mjs";
import {
  figure,
  inEngines,
  L,
  labels,
  open,
  press,
  report,
  settled,
  shippedText,
  sideways,
  task,
} from "./working.mjs";

const field = (page, path) => page.locator(`.field[data-path="${path}"]`);
const input = (page, path) => field(page, path).locator("input, select, textarea").first();
const part = (page, path) => page.locator(`details.part[data-path="${path}"]`);
const text = (page) => page.evaluate(() => globalThis.bench.draftText);

/** Opens the parts of a form that stand one in another. */
async function unfold(page, ...paths) {
  for (const path of paths) {
    const summary = part(page, path).locator("> summary");
    if ((await part(page, path).getAttribute("open")) === null) await summary.click();
  }
}

async function fillIn(page, path, value) {
  // As by hand: what a script puts in is no change to every browser.
  await input(page, path).click();
  await page.keyboard.press("Control+a");
  await page.keyboard.type(value);
  await page.keyboard.press("Tab");
}

/** Takes hold of wheel `index` in the view with the mouse, and moves it by each of these steps, px. */
async function drag(page, index, ...steps) {
  const canvas = await page.locator("drive-view canvas").boundingBox();
  const spot = await page.evaluate(
    ([width, height, wheel]) => {
      for (let py = 20; py < height; py += 6) {
        for (let px = 20; px < width; px += 6) {
          if (globalThis.bench.takeWheel(px, py) === wheel) return [px + 6, py + 6];
        }
      }
      return null;
    },
    [canvas.width, canvas.height, index],
  );
  const [x, y] = [canvas.x + spot[0], canvas.y + spot[1]];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (const [right, down] of steps) await page.mouse.move(x + right, y + down);
}

/** In the page: labels of wheels that lie on one another. */
function heaped() {
  const all = [...document.querySelectorAll(".wheel-label:not(.no-room)")].map((label) => ({
    name: label.textContent,
    box: label.getBoundingClientRect(),
  }));
  const meet = (a, b) =>
    a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  return all
    .filter(({ box }, i) => all.some((other, k) => k !== i && meet(box, other.box)))
    .map(({ name }) => name);
}

/** Lines in which two texts differ. */
function differing(before, after) {
  const [a, b] = [before.split("\n"), after.split("\n")];
  assert.equal(a.length, b.length);
  return b.filter((line, i) => line !== a[i]);
}

inEngines(["chromium", "firefox"], (prove, name) => {
  prove("a field is understood in its unit, and the text keeps its comments", {}, async (page) => {
    const noted = shippedText.replace("width_mm = 25.4", "width_mm = 25.4 # read off the box");
    await open(page, "noted.toml", noted);
    await task(page, L.layout);
    await unfold(page, "belt", "wheel", "wheel[0]");
    await input(page, "belt.width_mm").fill("7/8 in");
    assert.match(
      await field(page, "belt.width_mm").locator(".understood").textContent(),
      /= 22.225/,
    );
    await fillIn(page, "belt.width_mm", "7/8 in");
    assert.deepEqual(differing(noted, await text(page)), ["width_mm = 22.225 # read off the box"]);
    await fillIn(page, "wheel[0].friction_n_m", "40 in-lb");
    assert.match(await text(page), /friction_n_m = 4\.519393\n/);
    assert.equal(await input(page, "wheel[0].friction_n_m").inputValue(), "4.519393");
    await press(page, L.undo);
    await press(page, L.undo);
    assert.equal(await text(page), noted);
    assert.equal(await input(page, "belt.width_mm").inputValue(), "25.4");
  });

  prove("what cannot stand there is told at the field, and stays typed", {}, async (page) => {
    await task(page, L.layout);
    await unfold(page, "belt");
    await fillIn(page, "belt.teeth", "many");
    assert.match(
      await field(page, "belt.teeth").textContent(),
      /“many” is not a number.*20 to 400/s,
    );
    assert.equal(await input(page, "belt.teeth").inputValue(), "many");
    assert.equal(await text(page), shippedText);
    // A belt that can be written but cannot run is kept, and told at its field.
    await fillIn(page, "belt.teeth", "140");
    await field(page, "belt.teeth").locator(".field-problems").waitFor();
    assert.equal((await report(page)).belt.teeth, 173, "the bench is as it was");
    await fillIn(page, "belt.teeth", "173");
    assert.equal(await field(page, "belt.teeth").locator(".field-problems").count(), 0);
    assert.equal(await text(page), shippedText);
  });

  prove("wheels come and go, change places and faces", {}, async (page) => {
    await task(page, L.layout);
    await unfold(page, "wheel", "wheel[3]");
    const wheels = () =>
      page.evaluate(() =>
        [...globalThis.bench.draftText.matchAll(/^id = "(.*)"/gm)].map((m) => m[1]),
      );
    const before = await wheels();
    await part(page, "wheel[3]").getByRole("button", { name: L.form_add_behind }).click();
    await settled(page);
    assert.equal((await wheels()).length, before.length + 1);
    assert.equal((await wheels())[4], "idler_2");
    assert.equal(await input(page, "wheel[4].role").inputValue(), "idler");
    assert.match(
      await field(page, "wheel[4].teeth").locator("label").textContent(),
      /this or the outside diameter/,
    );
    await part(page, "wheel").getByRole("button", { name: "Add a wheel", exact: true }).waitFor();
    await part(page, "wheel[4]")
      .getByRole("button", { name: new RegExp(`^${L.form_remove}`) })
      .last()
      .click();
    await settled(page);
    assert.deepEqual(await wheels(), before);
    assert.equal(await text(page), shippedText);
    await unfold(page, "wheel[2]");
    await fillIn(page, "wheel[2].id", "camshaft_one");
    assert.equal((await wheels())[2], "camshaft_one");
    // The other face of the belt cannot carry a sprocket: told there, and the view shows which.
    await input(page, "wheel[2].face").selectOption("back");
    await field(page, "wheel[2].face").locator(".field-problems").waitFor();
    await press(page, L.undo);
    assert.equal(await input(page, "wheel[2].face").inputValue(), "toothed");
  });

  prove("a tensioner of another kind asks for what it needs", {}, async (page) => {
    await task(page, L.layout);
    await unfold(page, "tensioner");
    await input(page, "tensioner.kind").selectOption("eccentric");
    await input(page, "tensioner.bolt_mm").waitFor();
    assert.equal(await field(page, "tensioner.force_n").count(), 0);
    await fillIn(page, "tensioner.bolt_mm", "-75");
    await page.keyboard.press("Control+a");
    await page.keyboard.type("125");
    await page.keyboard.press("Tab");
    assert.match(await text(page), /bolt_mm = \[-75\.0, 125\.0\]/);
    await press(page, L.undo);
    await press(page, L.undo);
    assert.equal(await text(page), shippedText);
  });

  prove("wheels are moved in the view, by hand and by keys", {}, async (page) => {
    await task(page, L.layout);
    await page.getByRole("button", { name: L.arrange }).click();
    const label = page.locator(".wheel-label", { hasText: "Water pump" });
    const at = () =>
      page.evaluate(() =>
        /water_pump[\s\S]*?at_mm = \[(.*?)\]/
          .exec(globalThis.bench.draftText)[1]
          .split(",")
          .map(Number),
      );
    const [x, y] = await at();
    await label.focus();
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("Shift+ArrowRight");
    assert.deepEqual(await at(), [x + 0.1, y + 1]);
    await press(page, L.undo);
    await press(page, L.undo);
    assert.equal(await text(page), shippedText);
    const travel = await figure(page, "tensioner.travel");
    await drag(page, 3, ...Array.from({ length: 10 }, (_, i) => [0, i + 1]));
    await page.mouse.up();
    await settled(page);
    const [movedX, movedY] = await at();
    assert.equal(movedX, x);
    assert.ok(movedY < y - 2, `${movedY}`);
    assert.notEqual(await figure(page, "tensioner.travel"), travel, "the belt has followed");
    await press(page, L.undo);
    assert.equal(await text(page), shippedText, "one drag is one step");
  });

  for (const [width, locale] of [
    [1280, "en-GB"],
    [1280, "de-DE"],
    [390, "en-GB"],
    [390, "de-DE"],
  ].slice(name === "chromium" ? 0 : 3)) {
    const options = { viewport: { width, height: 800 }, locale };
    prove(`nothing widens the page, ${width} across, ${locale}`, options, async (page) => {
      const words = labels[locale.slice(0, 2)];
      await task(page, words.layout);
      const folded = page.locator("layout-form details:not([open]) > summary");
      const fits = async (when) => {
        await settled(page);
        assert.deepEqual(await page.evaluate(sideways), { wide: 0, out: [] }, when);
      };
      for (let left = await folded.count(); left > 0; left = await folded.count()) {
        await folded.first().click();
      }
      await fits("everything open");
      await fillIn(page, "belt.teeth", "140");
      await field(page, "belt.teeth").locator(".field-problems").waitFor();
      await fits("a slip");
      await fillIn(page, "belt.teeth", "173");
      await page.getByRole("button", { name: words.arrange }).click();
      await page.evaluate(() => scrollTo(0, 0));
      await drag(page, 3, [0, -10], [0, -60]);
      await page.mouse.up();
      await page.locator(".misfit:not([hidden])").waitFor();
      await fits("a wheel dragged");
    });
  }

  prove("a belt that does not fit is a dashed way, and how much is said", {}, async (page) => {
    await task(page, L.layout);
    const stands = page.locator(".standing");
    assert.match(await stands.textContent(), /All marks are on/);
    await page.getByRole("button", { name: L.arrange }).click();
    await drag(page, 3, [0, -4], [0, -40]);
    await page.waitForFunction(() => globalThis.bench.panel.draft !== null);
    await settled(page);
    // Still under the hand.
    assert.match(await page.locator(".misfit").textContent(), /teeth \(.*mm\) too (long|short)/);
    assert.match(await stands.textContent(), new RegExp(L.draft_standing));
    assert.doesNotMatch(await stands.textContent(), /All marks/);
    assert.deepEqual(await page.evaluate(heaped), [], "labels in a heap");
    await page.mouse.up();
    await settled(page);
    // And the same after the page was loaded anew.
    await page.waitForTimeout(900);
    const problem = await page.locator(".problems li").first().textContent();
    const rings = await page.locator(".wheel-label.out").count();
    await page.reload();
    await standing(page);
    await settled(page);
    assert.match(await stands.textContent(), new RegExp(L.draft_standing));
    assert.equal(await page.locator(".problems li").first().textContent(), problem);
    assert.equal(await page.locator(".wheel-label.out").count(), rings);
    assert.doesNotMatch(await page.locator("kept-notes").textContent(), /in time on its marks/);
    // What there are no readings of is not read.
    assert.equal(await page.locator("all-readings").count(), 0);
    await unfold(page, "wheel", "wheel[3]");
    await fillIn(page, "wheel[3].at_mm", "160");
    await page.keyboard.press("Control+a");
    await page.keyboard.type("320");
    await page.keyboard.press("Tab");
    await page.locator(".misfit", { hasText: "No belt goes round" }).waitFor();
  });

  prove(
    "the form reads well to a screen reader, in German too",
    { locale: "de-DE" },
    async (page) => {
      const D = labels.de;
      await task(page, D.layout);
      await unfold(page, "belt", "wheel", "wheel[0]", "wheel[0].mark", "tensioner", "engine");
      assert.equal(await page.getByLabel(labels.de.form_heading).count(), 0);
      const form = page.locator("layout-form");
      assert.equal(await form.getByRole("textbox", { name: "Zähne rundum" }).count(), 1);
      assert.equal(await input(page, "belt.pitch_mm").inputValue(), "9,525");
      await assertAccessible(page);
    },
  );
});
