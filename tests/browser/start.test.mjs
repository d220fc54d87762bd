// A layout from three counts, by keys and by a finger; and one that does not add up, mended by what is offered.
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { assertAccessible } from "./harness.mjs";
import { figure, inEngines, keys, L, press, report, settled, task, words } from "./working.mjs";

const FINGERS = { hasTouch: true, viewport: { width: 390, height: 844 } };

const start = (page) => page.locator("start-part");
const field = (page, name) => start(page).getByRole("textbox", { name });
const area = (page) => page.getByRole("textbox", { name: L.layout_text });

/** What three counts of 24, 48 and 167 say at once: arithmetic. */
async function saysWhatFollows(page) {
  assert.equal(await figure(page, "start.shafts.crank.degrees_per_tooth"), 360 / 24);
  assert.equal(await figure(page, "start.shafts.cam_left.degrees_per_tooth"), 360 / 48);
  assert.match(
    await words(page, "start.shafts.cam_left.degrees_per_tooth"),
    /^7\.5°, 15° of crank$/,
  );
  assert.equal(await figure(page, "start.stripes.crank_turns_to_meet_crank_mark"), 167);
  assert.equal(await figure(page, "start.stripes.crank_turns_to_meet_every_mark"), 334);
}

/** The drive is on the bench with these counts, and says that it is provisional. */
async function onBench(page) {
  await page.waitForFunction(() => globalThis.bench.panel.provisional !== "");
  await settled(page);
  const { belt, shafts } = await report(page);
  assert.deepEqual([belt.teeth, shafts.length], [167, 3]);
  assert.match(await page.locator(".standing").textContent(), /Provisional: only the tooth counts/);
}

inEngines(["chromium"], (prove) => {
  prove("from nothing to degrees a tooth in three entries, by keys", {}, async (page) => {
    const before = await page.evaluate(() => globalThis.bench.layoutText);
    await task(page, L.layout);
    await start(page).getByRole("radio", { name: "In line, one camshaft" }).focus();
    await keys(page, "ArrowDown", "ArrowDown", "Tab");
    assert(await start(page).getByRole("radio", { name: "Vee, one camshaft a bank" }).isChecked());
    await page.keyboard.type("24");
    await keys(page, "Tab");
    await page.keyboard.type("48");
    await keys(page, "Tab");
    await page.keyboard.type("167");
    await saysWhatFollows(page);
    await assertAccessible(page);
    await keys(page, "Enter");
    await onBench(page);
    await press(page, L.undo);
    assert.equal(await page.evaluate(() => globalThis.bench.layoutText), before);
  });

  prove("the same with a finger", FINGERS, async (page) => {
    await page.getByRole("tab", { name: L.layout }).tap();
    const picture = start(page).locator("label", { hasText: "Vee, one camshaft a bank" });
    const box = await picture.boundingBox();
    assert(Math.min(box.width, box.height) >= 44, JSON.stringify(box));
    await picture.tap();
    for (const [name, typed] of [
      ["Teeth of the crank sprocket", "24"],
      ["Teeth of a camshaft sprocket", "48"],
      ["Teeth of the belt", "167"],
    ]) {
      await field(page, name).tap();
      await page.keyboard.type(typed);
    }
    await saysWhatFollows(page);
    await start(page).getByRole("heading").tap();
    await onBench(page);
  });

  prove("what cannot be says what can; what rests on nothing is not told", {}, async (page) => {
    await task(page, L.layout);
    await field(page, "Teeth of the crank sprocket").fill("24");
    await field(page, "Teeth of a camshaft sprocket").fill("40");
    await field(page, "Teeth of the belt").fill("30");
    assert.match(await start(page).locator(".refused").textContent(), /too short.*takes.\d+/s);
    await field(page, "Teeth of the belt").fill("120");
    assert.match(await start(page).locator(".caution").textContent(), /48, not 40/);
    await keys(page, "Enter");
    await settled(page);
    // It fits, its wheels being put so; that a camshaft has not twice the crank's teeth is said all the same.
    assert.match(await page.locator("adds-up").textContent(), /Camshaft.*48, not 40/);
    await task(page, L.two_turns);
    assert.match(await page.locator("tension-part").textContent(), /made up/);
    assert.match(await page.locator("wearing-part").textContent(), /made up/);
    const forces = await page.locator("tension-part, wearing-part").allTextContents();
    assert(!/\d\s(N|W|kW|mm)\b/.test(forces.join(" ")), forces.join(" "));
    await page.evaluate(() => globalThis.bench.act({ turn_to: { crank_deg: 360 } }));
    await settled(page);
    const standing = await page.locator("#task-panel").textContent();
    assert(!standing.includes("normal, turn on"), standing);
    await task(page, L.fitting);
    assert.match(await page.locator("task-fitting").textContent(), /is not told/);
    const told = await page.locator("#task-panel").textContent();
    assert(!/\d teeth of slack then/.test(told), told);
  });

  prove(
    "a mistyped count is told at its field, and what is in view meanwhile",
    {},
    async (page) => {
      await task(page, L.layout);
      const crank = field(page, "Teeth of the crank sprocket");
      const belt = field(page, "Teeth of the belt");
      for (const [name, typed] of [
        ["Teeth of the crank sprocket", "24"],
        ["Teeth of a camshaft sprocket", "48"],
        ["Teeth of the belt", "120"],
      ]) {
        await field(page, name).fill(typed);
      }
      await keys(page, "Enter");
      await page.waitForFunction(() => globalThis.bench.panel.provisional !== "");
      const wrong = start(page).locator(".three-counts .field-problems");
      assert.equal(await wrong.count(), 0);
      assert.equal(await start(page).getByText("In view is still").count(), 0);
      for (const [typed, told] of [
        ["12x", /12x.*6 to 200/],
        ["20.5", /20\.5/],
        ["3", /3.*6 to 200/],
      ]) {
        await crank.fill(typed);
        assert.match((await wrong.textContent()).replaceAll("\u00a0", " "), told);
        assert.equal(await crank.getAttribute("aria-invalid"), "true");
        assert.match(
          await start(page).locator(".started").textContent(),
          /In view is still the drive of 24 and 48 teeth with a belt of 120/,
        );
      }
      await assertAccessible(page);
      await crank.fill("24");
      await belt.fill("30");
      assert.equal(await wrong.count(), 0);
      assert.match(
        await start(page).locator(".started").textContent(),
        /too short.*In view is still/s,
      );
      await belt.fill("120");
      assert.equal(await start(page).getByText("In view is still").count(), 0);
      // What nobody knows is not filled in.
      await keys(page, "Enter");
      await task(page, L.fitting);
      const counted = page.locator(".hang-counts input");
      assert.deepEqual(await counted.evaluateAll((all) => all.map(({ value }) => value)), ["", ""]);
      await page.locator(".hang-counts").getByText(L.hang_teeth_unknown).waitFor();
      await counted.first().fill("4x");
      const hang = page.locator(".hang-counts").getByRole("button", { name: L.hang_so });
      assert(await hang.isDisabled());
      await counted.first().fill("");
      await assertAccessible(page);
    },
  );

  prove("a camshaft a tooth short is told, and what mends it comes first", {}, async (page) => {
    await task(page, L.layout);
    const text = await page.evaluate(() => globalThis.bench.layoutText);
    await area(page).fill(text.replace("teeth = 48", "teeth = 47"));
    const part = page.locator("adds-up");
    await part.getByText("it has 48, not 47").waitFor();
    const causes = await part.getByRole("listitem").allTextContents();
    assert.match(causes[0], /^\s*Left camshaft with 48.teeth: then everything would fit/);
    assert(!causes.join(" ").includes("49"), causes.join(" "));
    await assertAccessible(page);
  });

  const own = new URL("../own/", import.meta.url);
  prove("ten layouts broken in one way are mended by what is offered", {}, async (page) => {
    await task(page, L.layout);
    const files = readdirSync(own).filter((name) => name.endsWith(".toml"));
    assert.equal(files.length, 10);
    for (const name of files) {
      const text = readFileSync(new URL(name, own), "utf8");
      const teeth = Number(/teeth = (\d+)/.exec(text)[1]);
      await area(page).fill(text);
      const part = page.locator("adds-up");
      await part.getByText("It adds up").waitFor();
      assert.equal(await part.getByRole("button").count(), 0, name);
      // An idler, a guide or a pump on the wrong face, and a belt counted one short, in turn.
      const onFace = text.lastIndexOf('face = "back"');
      const broken =
        teeth % 2
          ? `${text.slice(0, onFace)}face = "toothed"${text.slice(onFace + 13)}`
          : text.replace(`teeth = ${teeth}`, `teeth = ${teeth - 1}`);
      await area(page).fill(broken);
      await part.getByRole("listitem").first().waitFor();
      const mended = teeth % 2 ? /on the belt’s back|on the belt's back/ : `A belt of ${teeth}`;
      await part
        .getByRole("listitem")
        .filter({ hasText: mended })
        .first()
        .getByRole("button")
        .click();
      await part.getByText("It adds up").waitFor();
      assert.equal(await area(page).inputValue(), text, name);
    }
    await assertAccessible(page);
    await press(page, L.undo);
    await page.locator("adds-up").getByRole("listitem").first().waitFor();
  });
});
