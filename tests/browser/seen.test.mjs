// What is seen of a rehearsal in the task Fitting: slack and counts on the drive, with motion and
// without, and by everybody.
import assert from "node:assert/strict";
import { assertAccessible } from "./harness.mjs";
import { doNext, moment, next, stepButton, upTo, warnings } from "./rehearsing.mjs";
import {
  figure,
  forward,
  inEngines,
  L,
  labels,
  near,
  press,
  settled,
  sideways,
  small,
  task,
  words,
} from "./working.mjs";

const HANG = "Hang the belt, counted";
const BOLT_UP = "Bolt the tensioner up";
const TAKE_UP = "Bring the crank forward until tight";
const LET_GO = "Let go of every shaft";
const TWICE = "Turn it over twice, read the marks";
const PULL_PIN = "Pull the pin";
const TWICE_AGAIN = "Turn it over twice again, read again";
const PITCH = 9.525;
/** Less slack than this, in teeth, has no tag on the drive. */
const HARDLY_TEETH = 0.1;

/** A part that scrolls gets the focus from the browser itself, so that keys can scroll it. */
const BROWSER_SCROLLS = { rules: { "scrollable-region-focusable": { enabled: false } } };

/** In the page: presses a button; how far the crank is turned in that very call, and what moves. */
function pressedAtOnce(step) {
  const crank = () => JSON.parse(globalThis.bench.json("moment")).crank_deg;
  const before = crank();
  step.click();
  return { turned: crank() - before, moving: document.getAnimations().length };
}

inEngines(["chromium"], (prove) => {
  prove("slack is seen to go from run to run", {}, async (page) => {
    const [own, into] = ["crank>cam_left", "cam_right>crank"];
    const slack = async () => {
      const { runs } = await moment(page);
      const tags = await page.locator(".slack-tags li").evaluateAll((all) =>
        all.map((tag) => {
          const { left, right, top, bottom } = tag.getBoundingClientRect();
          const view = document.querySelector("drive-view").getBoundingClientRect();
          const inside =
            left >= view.left && right <= view.right && top >= view.top && bottom <= view.bottom;
          const shown = tag.checkVisibility({ visibilityProperty: true });
          return { text: tag.textContent.trim(), shown, inside };
        }),
      );
      assert.equal(tags.length, runs.length);
      const found = {};
      for (const [i, { from, to, slack_mm }] of runs.entries()) {
        const key = `runs.${from}>${to}.slack_mm`;
        assert.equal(await figure(page, key), slack_mm);
        const teeth = slack_mm / PITCH;
        const said = await words(page, key);
        assert.equal(tags[i].shown, teeth >= HARDLY_TEETH, key);
        if (slack_mm > 0) assert(said.startsWith(`${slack_mm.toFixed(1)}\u00a0mm, `), said);
        if (tags[i].shown) {
          // Teeth only on the drive: the readings have the rest.
          assert.match(tags[i].text, /^[\d.]+\u00a0(tooth|teeth)$/);
          near(Number.parseFloat(tags[i].text), teeth, 0.051, `${key} on its tag`);
          assert(said.endsWith(`, ${tags[i].text}`), `${said} and ${tags[i].text}`);
          assert(tags[i].inside, `${key} has its tag in the view`);
        }
        found[`${from}>${to}`] = slack_mm;
      }
      return found;
    };
    await task(page, L.fitting);
    await upTo(page, TAKE_UP);
    const before = await slack();
    const all = before[own] + before[into];
    // Backed off two teeth, they hang where the belt runs into the crank.
    near(before[into], 2 * PITCH, 0.1, "two teeth and what the best tooth leaves");
    assert(before[own] > 1);
    await doNext(page);
    const after = await slack();
    near(after[own], all, 1e-6, "all slack at the tensioner");
    assert.equal(after[into], 0);
    await press(page, L.undo);
    assert.deepEqual(await slack(), before);
    await upTo(page, LET_GO);
    const up = await slack();
    assert(up[own] > 0 && up[own] < 1, `bolted up, little is left: ${up[own]}`);
    await upTo(page, TWICE_AGAIN);
    assert.deepEqual(Object.values(await slack()), [0, 0, 0]);
  });

  prove("what was told and what is warned of stand above the steps", {}, async (page) => {
    await task(page, L.fitting);
    const watch = page.locator("task-fitting .watch");
    assert.equal((await watch.textContent()).trim(), "", "nothing to watch, nothing said");
    assert.equal(await page.locator("task-fitting .told").count(), 0);
    await upTo(page, BOLT_UP);
    const tops = await page.evaluate(() =>
      [".told", ".watch li", ".past", ".stages li.next"].map(
        (what) => document.querySelector(`task-fitting ${what}`).getBoundingClientRect().top,
      ),
    );
    assert.deepEqual(
      tops,
      [...tops].sort((a, b) => a - b),
    );
    assert.equal(await page.locator(".watch [role=status] ul li").count(), 1);
    // What takes room and is seldom wanted is folded; where a tooth more or less lands is not.
    const folded = (heading) =>
      page
        .locator("task-fitting details", { has: page.getByText(heading, { exact: true }) })
        .evaluate((details) => !details.open);
    for (const heading of [
      L.paint_heading,
      L.why_heading,
      L.lay_on_heading,
      L.coming_up_heading,
      L.jump_heading,
    ]) {
      assert(await folded(heading), heading);
    }
    assert(!(await folded(L.landing_heading)));
    assert(await page.locator("task-fitting .past").evaluate((details) => !details.open));
  });

  prove("counts are shown on the drive, and no longer", {}, async (page) => {
    await task(page, L.fitting);
    const shown = () =>
      page
        .locator(".count-tags li")
        .evaluateAll((all) =>
          all
            .filter((tag) => tag.checkVisibility({ visibilityProperty: true }))
            .map((tag) => tag.textContent.trim()),
        );
    const painted = () =>
      page.evaluate(async () => {
        await new Promise(requestAnimationFrame);
        await new Promise(requestAnimationFrame);
        return document.querySelector("drive-view canvas").toDataURL();
      });
    const check = page.getByRole("checkbox", { name: L.show_counts });
    assert.deepEqual(await shown(), []);
    const without = await painted();
    const unfold = () => page.getByText(L.paint_heading, { exact: true }).click();
    await unfold();
    await check.check();
    await settled(page);
    const counts = ["crank>cam_left", "cam_left>cam_right", "cam_right>crank"];
    const wanted = [];
    for (const key of counts) wanted.push(await words(page, `fitting.counts.${key}.teeth`));
    assert.deepEqual(await shown(), wanted);
    const teeth = wanted.map((text) => Number.parseInt(text, 10));
    assert.equal(teeth[0] + teeth[1] + teeth[2], 173, "the whole belt is counted");
    assert.notEqual(await painted(), without, "ticks are painted");
    // With the belt off there is nothing to count, and nothing breaks anywhere.
    await upTo(page, HANG);
    assert.deepEqual(await shown(), []);
    for (const name of [L.layout, L.two_turns, L.what_if, L.fitting]) {
      await task(page, name);
      assert.deepEqual(await shown(), []);
      await press(page, forward(L.one_degree));
      await press(page, L.undo);
    }
    await doNext(page);
    assert.deepEqual(await shown(), wanted);
    await unfold();
    await check.uncheck();
    await settled(page);
    assert.deepEqual(await shown(), []);
  });

  for (const [width, colorScheme, locale] of [
    [1280, "light", "en-GB"],
    [1280, "dark", "en-GB"],
    [360, "light", "de-DE"],
    [360, "dark", "en-GB"],
  ]) {
    const options = { viewport: { width, height: 740 }, colorScheme, locale };
    prove(`for everybody: ${width} across, ${colorScheme}, ${locale}`, options, async (page) => {
      const words = labels[locale.slice(0, 2)];
      await task(page, words.fitting);
      const closed = page.locator("task-fitting details:not([open]) summary");
      while ((await closed.count()) > 0) await closed.first().click();
      await page.getByRole("checkbox", { name: words.show_counts }).check();
      const looked = async () => {
        await settled(page);
        assert.deepEqual(await page.evaluate(sideways), { wide: 0, out: [] });
        assert.deepEqual(await page.evaluate(small), []);
        await assertAccessible(page, BROWSER_SCROLLS);
      };
      const pressAll = async (count) => {
        for (let i = 0; i < count; i += 1) await doNext(page);
      };
      await looked();
      // Held, drawn back, the belt off; hung, with slack to warn of; done.
      await pressAll(3);
      await looked();
      await pressAll(2);
      assert.notEqual(await warnings(page), "");
      await looked();
      await pressAll(6);
      assert.equal(await page.locator("task-fitting .finished").count(), 1);
      await looked();
    });
  }

  prove("where nobody wants motion, everything is at once", {}, async (page) => {
    await task(page, L.fitting);
    await upTo(page, TWICE);
    const now = await stepButton(page).evaluate(pressedAtOnce);
    near(now.turned, 720, 1e-9, "in the very call");
    assert.equal(now.moving, 0);
  });

  const motion = { reducedMotion: "no-preference" };
  prove(
    "where motion is welcome, the crank is seen to turn, and ends there too",
    motion,
    async (page) => {
      await task(page, L.fitting);
      await upTo(page, TWICE);
      const before = (await moment(page)).crank_deg;
      assert.equal((await stepButton(page).evaluate(pressedAtOnce)).turned, 0);
      await page.waitForFunction((from) => globalThis.bench.panel.crank.value > from + 20, before);
      await settled(page);
      near((await moment(page)).crank_deg, before + 720, 1e-9, "two turns on");
      assert.equal(await next(page), PULL_PIN);
    },
  );
});
