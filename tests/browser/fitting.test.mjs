// The task Fitting in the usual order: by keys alone and by fingers alone, back and forth again, and
// played again.
import assert from "node:assert/strict";
import {
  assertFitted,
  DIESEL,
  doNext,
  ECCENTRIC,
  FOUR,
  moment,
  momentText,
  next,
  rehearse,
  SIX,
  stepButton,
  tabTo,
  titleOf,
  warnings,
  wholeOrder,
} from "./rehearsing.mjs";
import { button, forward, inEngines, keys, L, near, press, settled, task } from "./working.mjs";

const FINGERS = { hasTouch: true, viewport: { width: 390, height: 844 } };
const MARKS = "Bring every mark up";
const HANG = "Hang the belt, counted";
const BOLT_UP = "Bolt the tensioner up";
const TAKE_UP = "Bring the crank forward until tight";
const LET_GO = "Let go of every shaft";
const TWICE = "Turn it over twice, read the marks";
const PULL_PIN = "Pull the pin";
const TWICE_AGAIN = "Turn it over twice again, read again";
const TIGHTEN = "Tighten the sprocket bolts";
const SLACKEN = "Slacken the bolts of sprockets that float";

/** Fails unless the crank went two turns with the pin in and two with it out. */
function assertTurned({ stood }) {
  const [before, once] = [stood[LET_GO].crank_deg, stood[TWICE].crank_deg];
  near(once - before, 720, 1e-6, "two turns with the pin in");
  assert.equal(stood[TWICE].tensioner.state, "pinned");
  assert.equal(stood[PULL_PIN].tensioner.state, "pin_out");
  near(stood[TWICE_AGAIN].crank_deg - stood[PULL_PIN].crank_deg, 720, 1e-6, "two turns after it");
}

/** With keys alone: to the task, and through the order, Space and Enter in turn. */
async function byKeys(page, layout) {
  await tabTo(page, L.two_turns);
  await keys(page, "ArrowLeft");
  if (layout !== SIX) {
    await keys(page, "ArrowLeft");
    await tabTo(page, titleOf(layout));
    await keys(page, "Enter");
    await page.waitForFunction((title) => globalThis.bench.panel.title === title, titleOf(layout));
    await tabTo(page, L.layout);
    await keys(page, "ArrowRight");
  }
  let [tabs, presses] = [0, 0];
  const order = await wholeOrder(page, async (name) => {
    tabs += await tabTo(page, name);
    presses += 1;
    await page.keyboard.press(presses % 2 ? "Enter" : "Space");
  });
  // From a step that is done, Tab leads straight on to the next.
  assert.equal(tabs, presses);
  return order;
}

/** With a finger alone. */
async function byFinger(page, layout) {
  const tap = async (element) => {
    await element.tap();
    await settled(page);
  };
  const tab = (name) => page.getByRole("tab", { name, exact: true });
  if (layout !== SIX) {
    await tap(tab(L.layout));
    await tap(page.getByRole("button", { name: titleOf(layout), exact: true }));
    await page.waitForFunction((title) => globalThis.bench.panel.title === title, titleOf(layout));
  }
  await tap(tab(L.fitting));
  return wholeOrder(page, () => tap(stepButton(page)));
}

inEngines(["chromium"], (prove) => {
  for (const [what, layout, more] of [
    ["six in a vee", SIX, []],
    ["four in line", FOUR, []],
    ["diesel, its camshaft's sprocket floating", DIESEL, [SLACKEN, TIGHTEN]],
  ]) {
    for (const [how, options, work] of [
      ["keys", {}, byKeys],
      ["a finger", FINGERS, byFinger],
    ]) {
      prove(`the usual order by ${how}: ${what}`, options, async (page) => {
        const order = await work(page, layout);
        assertTurned(order);
        assert.equal(order.names.length, 11 + more.length);
        for (const name of more) assert(order.names.includes(name), name);
        await assertFitted(page);
      });
    }
  }

  prove("nothing is warned of where a lock draws its shaft", {}, async (page) => {
    await rehearse(page, DIESEL);
    await press(page, `Camshaft: ${L.hold}`);
    const { crank_deg, shafts } = await moment(page);
    assert(crank_deg < -1, `the lock turned the crank: ${crank_deg}`);
    near(shafts.find(({ id }) => id === "cam").shaft_error_deg, 0, 1e-9, "the camshaft");
    assert.equal(await warnings(page), "");
    await press(page, `Camshaft: ${L.let_go}`);
    await press(page, L.back_off_button);
    assert.match(await warnings(page), /^Turned back with the pin out/);
  });

  prove("an eccentric has no pin to pull", {}, async (page) => {
    await rehearse(page, ECCENTRIC);
    assert.equal(await button(page, L.pull_pin).count(), 0);
    const { names, stood } = await wholeOrder(page, () => doNext(page));
    assert(!names.some((name) => [PULL_PIN, TWICE_AGAIN].includes(name)));
    assert.equal(stood[BOLT_UP].tensioner.state, "locked");
    near(stood[TWICE].crank_deg - stood[LET_GO].crank_deg, 720, 1e-6, "two turns");
  });

  prove("undo to the very start, redo to the end, back, and played again", {}, async (page) => {
    await task(page, L.fitting);
    const stood = [await momentText(page)];
    const { names } = await wholeOrder(page, async () => {
      await doNext(page);
      stood.push(await momentText(page));
    });
    assert.equal(new Set(stood).size, names.length + 1, "every step changed something");
    for (let i = names.length - 1; i >= 0; i -= 1) {
      await press(page, L.undo);
      assert.equal(await momentText(page), stood[i], `before ${names[i]}`);
      assert.equal(await next(page), names[i]);
    }
    assert(await button(page, L.undo).isDisabled());
    assert(await button(page, L.start_over).isDisabled());
    for (const after of stood.slice(1)) {
      await press(page, L.redo);
      assert.equal(await momentText(page), after);
    }
    assert(await button(page, L.redo).isDisabled());
    await press(page, L.start_over);
    assert.equal(await momentText(page), stood[0]);
    for (let i = 0; i < 4; i += 1) await press(page, L.redo);
    await press(page, L.replay);
    assert.equal(await momentText(page), stood[0], "it begins at the beginning");
    await page.waitForFunction((end) => globalThis.bench.json("moment") === end, stood[4]);
    // It ends where it was, though there is more to do again.
    await page.waitForTimeout(1500);
    assert.equal(await momentText(page), stood[4]);
    assert(await button(page, L.redo).isEnabled());
  });

  prove(
    "what is done while it plays ends that",
    { reducedMotion: "no-preference" },
    async (page) => {
      await task(page, L.fitting);
      for (let i = 0; i < 3; i += 1) await doNext(page);
      await press(page, L.replay);
      const start = (await moment(page)).crank_deg;
      await button(page, forward(L.one_turn)).click();
      await settled(page);
      await page.waitForTimeout(1500);
      near((await moment(page)).crank_deg, start + 360, 1e-9, "the whole turn was run");
      await press(page, L.undo);
      assert(await button(page, L.undo).isDisabled(), "nothing was played beside it");
    },
  );

  prove("the order is read off the drive, however it came so", {}, async (page) => {
    await task(page, L.fitting);
    await press(page, forward(L.quarter));
    assert.equal(await next(page), MARKS);
    await doNext(page);
    near((await moment(page)).crank_deg, 720, 1e-9, "forward to where every mark is up");
    for (const name of ["Left camshaft", "Right camshaft"]) await press(page, `${name}: ${L.hold}`);
    await page
      .locator("task-fitting")
      .getByRole("button", { name: L.right_back, exact: true })
      .click();
    await settled(page);
    await press(page, L.take_off);
    await press(page, L.back_off_button);
    assert.equal(await next(page), HANG);
    await press(page, L.hang_in_time);
    await press(page, L.bolt_up);
    assert.equal(await next(page), TAKE_UP);
  });
});
