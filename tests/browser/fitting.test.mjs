// The task Fitting in the usual order: by keys alone and by fingers alone, back and forth again, and
// played again.
import assert from "node:assert/strict";
import {
  assertFitted,
  DIESEL,
  doNext,
  ECCENTRIC,
  FOUR,
  focused,
  moment,
  momentText,
  next,
  pastSummary,
  rehearse,
  SIX,
  standingOf,
  stepButton,
  tabTo,
  titleOf,
  told,
  upTo,
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

/** Fails unless the crank went two turns with the pin in and two with it out, each to its mark. */
function assertTurned({ stood }) {
  const [before, once] = [stood[LET_GO].crank_deg, stood[TWICE].crank_deg];
  near(once - before, 720, 1e-6, "two turns with the pin in");
  assert.equal(stood[TWICE].tensioner.state, "pinned");
  assert.equal(stood[PULL_PIN].tensioner.state, "pin_out");
  near(stood[TWICE_AGAIN].crank_deg - stood[PULL_PIN].crank_deg, 720, 1e-6, "two turns after it");
  for (const step of [TWICE, TWICE_AGAIN]) assert.equal(stood[step].crank_deg % 360, 0, step);
}

/** Fails unless what hung at the crank was all at the tensioner before that was bolted up. */
function assertTakenUp({ names, stood }) {
  assert.equal(names.indexOf(BOLT_UP), names.indexOf(TAKE_UP) + 1);
  const slack = (step) => stood[step].runs.at(-1).slack_mm;
  assert(slack(HANG) > 1, `hung with slack into the crank: ${slack(HANG)}`);
  assert.equal(slack(TAKE_UP), 0);
  assert.equal(stood[TAKE_UP].tensioner.state, "back");
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
  let presses = 0;
  const order = await wholeOrder(page, async (name) => {
    // The focus is on the next step as soon as one is done.
    if (presses === 0) await tabTo(page, name);
    assert.equal(await focused(page), name);
    presses += 1;
    await page.keyboard.press(presses % 2 ? "Enter" : "Space");
  });
  assert.equal(await focused(page), L.all_done);
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
        assertTakenUp(order);
        assert.equal(order.names.length, 11 + more.length);
        for (const name of more) assert(order.names.includes(name), name);
        await assertFitted(page);
      });
    }
  }

  prove(
    "a lock draws its shaft to its place only where nothing turns with it",
    {},
    async (page) => {
      await rehearse(page, DIESEL);
      const before = await moment(page);
      const off = ({ shafts }, id) => shafts.find((each) => each.id === id).shaft_error_deg;
      assert(Math.abs(off(before, "cam")) > 1, "the best tooth leaves something");
      await press(page, `Camshaft: ${L.hold}`);
      assert.equal(await told(page), "Camshaft held where it stands.");
      const held = await moment(page);
      assert.deepEqual([held.crank_deg, off(held, "cam")], [0, off(before, "cam")]);
      await press(page, `Camshaft: ${L.let_go}`);
      await press(page, `Camshaft: ${L.slacken_bolt}`);
      await press(page, `Camshaft: ${L.hold}`);
      assert.equal(await told(page), "Camshaft locked in its timed place.");
      const locked = await moment(page);
      assert.equal(locked.crank_deg, 0, "the crank and the belt stay where they are");
      assert.equal(
        locked.runs.some(({ slack_mm }) => slack_mm !== 0),
        false,
      );
      near(off(locked, "cam"), 0, 1e-9, "the camshaft");
      await press(page, `Camshaft: ${L.tighten_bolt}`);
      assert.equal(await warnings(page), "");
      await press(page, `Camshaft: ${L.let_go}`);
      await press(page, L.back_off_button);
      assert.match(await warnings(page), /^Turned back with the pin out/);
    },
  );

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
    for (const [i, name] of names.entries()) {
      assert.notEqual(stood[i + 1], stood[i], `${name} changed something`);
    }
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

  prove("a step whose time is over is shown as skipped", {}, async (page) => {
    await task(page, L.fitting);
    const backOff = "Back the crank off 2\u00a0teeth";
    await upTo(page, backOff);
    assert.equal(await pastSummary(page), `✓ 4 ${L.steps_done}`);
    await press(page, L.hang_in_time);
    assert.equal(await standingOf(page, backOff), L.skipped);
    assert.equal(await pastSummary(page), `– 6 ${L.steps_done}, 1 ${L.skipped}`);
    await page.locator("task-fitting .past summary").click();
    const row = page.locator("task-fitting .past li.skipped");
    assert(await row.isVisible());
    assert.match(await row.textContent(), /–\s*Back the crank off 2\u00a0teeth skipped/);
    // What is tight already needs no taking up; the rest is as ever.
    for (const step of [BOLT_UP, LET_GO]) {
      assert.equal(await next(page), step);
      await doNext(page);
    }
    assert.equal(await next(page), TWICE);
    await press(page, L.pull_pin);
    assert.equal(await standingOf(page, TWICE), L.skipped);
    assert.equal(await next(page), TWICE_AGAIN);
    assert.match(await warnings(page), /^The pin was pulled after 0° of turning/);
    await doNext(page);
    assert.equal(await next(page), undefined);
    assert.equal(await pastSummary(page), `– 10 ${L.steps_done}, 2 ${L.skipped}`);
    assert.equal(await page.locator("task-fitting .finished").count(), 0, "not every step is done");
    // Undone, it is not skipped any more.
    for (let i = 0; i < 5; i += 1) await press(page, L.undo);
    assert.equal(await next(page), backOff);
  });

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
