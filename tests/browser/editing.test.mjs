// The layout's text edited on the page: a slip is named at its line and harms nothing, a sound change
// is on the bench at once, and all of it can be undone.
import assert from "node:assert/strict";
import {
  forward,
  inEngines,
  L,
  poseText,
  press,
  report,
  settled,
  shippedText,
  task,
} from "./working.mjs";

const area = (page) => page.getByRole("textbox", { name: L.layout_text });
const list = (page) => page.locator("task-layout .problems");

/** Waits until what was typed has been looked at and is on the bench, with this title. */
async function onBench(page, title) {
  await page.waitForFunction((wanted) => globalThis.bench.panel.title === wanted, title);
  await settled(page);
}

const TITLE = "Six in a vee, one camshaft a bank";

inEngines(["chromium", "firefox"], (prove) => {
  prove("a slip is named at its line, and changes nothing on the bench", {}, async (page) => {
    await press(page, forward(L.quarter));
    const before = await poseText(page);
    await task(page, L.layout);
    assert.equal(await area(page).inputValue(), shippedText);
    await area(page).fill(shippedText.replace("width_mm = 25.4", "widht_mm = 25.4"));
    await list(page).waitFor();
    const items = list(page).getByRole("listitem");
    assert.equal(await items.count(), 1);
    assert.match(await items.textContent(), /Line 12\s.*widht_mm.*Did you mean .width_mm/s);
    assert.equal(await area(page).getAttribute("aria-invalid"), "true");
    assert.equal(await poseText(page), before);
    await items.getByRole("button").click();
    const chosen = await area(page).evaluate((text) =>
      text.value.slice(text.selectionStart, text.selectionEnd),
    );
    assert.match(chosen, /widht_mm/);
    // Looked at elsewhere and come back to, it is still there.
    await task(page, L.what_if);
    await press(page, forward(L.one_degree));
    await press(page, L.undo);
    await task(page, L.layout);
    assert.match(await area(page).inputValue(), /widht_mm/);
    await list(page).waitFor();
    await press(page, L.drop_changes);
    assert.equal(await area(page).inputValue(), shippedText);
    assert.equal(await list(page).count(), 0);
    assert.equal(await poseText(page), before);
  });

  prove("a sound change is on the bench, and undo takes it back", {}, async (page) => {
    await press(page, forward(L.quarter));
    const before = await poseText(page);
    await task(page, L.layout);
    const other = shippedText
      .replace(TITLE, "Mine")
      .replace("friction_n_m = 8.0", "friction_n_m = 9.0");
    await area(page).fill(other);
    await onBench(page, "Mine");
    assert.equal((await report(page)).belt.teeth, 173);
    await press(page, L.undo);
    await onBench(page, TITLE);
    assert.equal(await area(page).inputValue(), shippedText);
    assert.equal(await poseText(page), before);
    await press(page, L.redo);
    await onBench(page, "Mine");
    assert.equal(await area(page).inputValue(), other);
  });

  prove("the keys for undo, pressed in a text with a slip, take typing back", {}, async (page) => {
    await press(page, forward(L.quarter));
    const before = await poseText(page);
    await task(page, L.layout);
    await area(page).focus();
    await area(page).evaluate((text) => text.setSelectionRange(0, 0));
    await page.keyboard.type("x");
    await list(page).waitFor();
    await page.keyboard.press("Control+z");
    await page.waitForFunction(
      (text) => document.querySelector(".layout-text").value === text,
      shippedText,
      { timeout: 3_000 },
    );
    // Longer than the pause after which typing is looked at.
    await page.waitForTimeout(500);
    await page.waitForFunction(() => globalThis.bench.draftProblems.length === 0);
    await settled(page);
    assert.equal(await poseText(page), before, "the drive is as it was");
  });

  prove("a text with a slip outlives other tasks, and is undone and redone", {}, async (page) => {
    await press(page, forward(L.quarter));
    const before = await poseText(page);
    await task(page, L.layout);
    const slip = shippedText.replace("teeth = 48", "teeth = 480");
    await area(page).fill(slip);
    await list(page).waitFor();
    await task(page, L.two_turns);
    assert.equal(await poseText(page), before, "the bench is as it was");
    await task(page, L.layout);
    assert.equal(await area(page).inputValue(), slip);
    await press(page, L.undo);
    assert.equal(await area(page).inputValue(), shippedText);
    assert.equal(await list(page).count(), 0);
    assert.equal(await poseText(page), before);
    await press(page, L.redo);
    await list(page).waitFor();
    assert.equal(await area(page).inputValue(), slip);
  });
});
