// Keys, mouse and fingers: every control is reached and worked by each. Where wheels lie on the
// screen is found by asking the page what a hand would take hold of.
import assert from "node:assert/strict";
import {
  figure,
  forward,
  inEngines,
  keys,
  L,
  near,
  pose,
  press,
  reads,
  report,
  settled,
} from "./working.mjs";

const CRANK_DEG = 15;

/** In the page: everything that Tab should stop at, in the order of the page, by what it is called. */
function controls() {
  const all = "a[href], button, input, select, textarea, summary, [tabindex]";
  const name = (element) => element.ariaLabel || element.textContent.trim() || element.type;
  return (
    [...document.querySelectorAll(all)]
      .filter((element) => !element.disabled && element.tabIndex >= 0)
      .filter((element) => element.checkVisibility())
      // Of radio buttons Tab reaches the one that is chosen.
      .filter((element) => element.type !== "radio" || element.checked)
      .map(name)
  );
}

/** In the page: what has the focus, by the same names, and whether that can be seen. */
function focused() {
  const element = document.activeElement;
  if (!element || element === document.body) return undefined;
  // A radio button lies unseen on its label, which shows the focus in its place.
  const shows = element.type === "radio" ? element.closest("label") : element;
  const { outlineStyle, outlineWidth, opacity } = getComputedStyle(shows);
  const box = element.getBoundingClientRect();
  const x = Math.min(Math.max(box.left + box.width / 2, 1), innerWidth - 1);
  const y = Math.min(Math.max(box.top + box.height / 2, 1), innerHeight - 1);
  return {
    name: element.ariaLabel || element.textContent.trim() || element.type,
    outlined: outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2 && opacity === "1",
    // Nothing lies over its middle.
    inSight: element.contains(document.elementFromPoint(x, y)),
    // A part that scrolls gets the focus from the browser itself, so that keys can scroll it.
    scrolls: !element.matches("a, button, input, select, textarea, summary, [tabindex]"),
  };
}

/** The wheel of this index on the screen: its middle and its radius there, found by feeling for it. */
async function onScreen(page, wheel) {
  await page.locator("drive-view canvas").scrollIntoViewIfNeeded();
  return page.evaluate((wanted) => {
    const own = document.querySelector("drive-view canvas").getBoundingClientRect();
    let [count, x, y] = [0, 0, 0];
    const step = own.width > 500 ? 6 : 3;
    for (let down = 0; down < own.height; down += step) {
      for (let across = 0; across < own.width; across += step) {
        const held = globalThis.bench.grab(across, down);
        if (held?.wheel !== wanted) continue;
        count += 1;
        x += across;
        y += down;
      }
    }
    return {
      x: own.left + x / count,
      y: own.top + y / count,
      radius: step * Math.sqrt(count / Math.PI),
    };
  }, wheel);
}

/** Points on a circle about `middle`, from one clock angle to another, degrees. */
function round({ x, y }, radius, from, to, by = 10) {
  const points = [];
  const steps = Math.abs(to - from) / by;
  for (let i = 0; i <= steps; i += 1) {
    const angle = ((from + (i * (to - from)) / steps) * Math.PI) / 180;
    points.push({ x: x + radius * Math.sin(angle), y: y - radius * Math.cos(angle) });
  }
  return points;
}

/** Drags along points with the mouse. */
async function drag(page, [first, ...rest]) {
  await page.mouse.move(first.x, first.y);
  await page.mouse.down();
  for (const { x, y } of rest) await page.mouse.move(x, y);
  await page.mouse.up();
  await settled(page);
}

/** Drags along points with a finger, as the screen would report it. */
async function swipe(page, [first, ...rest]) {
  const session = await page.context().newCDPSession(page);
  const touch = (type, touchPoints) =>
    session.send("Input.dispatchTouchEvent", { type, touchPoints });
  await touch("touchStart", [first]);
  for (const point of rest) await touch("touchMove", [point]);
  await touch("touchEnd", []);
  await settled(page);
}

const dialOf = async (page) => {
  const dial = page.getByRole("slider", { name: /^Turn dial/ });
  await dial.scrollIntoViewIfNeeded();
  const { x, y, width, height } = await dial.boundingBox();
  return { x: x + width / 2, y: y + height / 2, radius: width / 2 };
};

/** Turns, drags and pulls with `hand`, and looks what came of it. */
async function worksUnder(page, hand) {
  const dial = await dialOf(page);
  // Round and round like a wrench, over more than two turns, and some of it back.
  await hand(page, round(dial, 0.7 * dial.radius, 5, 1985, 30));
  await reads(page, "crank_deg", 1985, 2);
  await hand(page, round(dial, 0.7 * dial.radius, 185, -355, 30));
  await reads(page, "crank_deg", 1985 - 540, 3);
  // A drag is one step.
  await press(page, L.undo);
  await reads(page, "crank_deg", 1985, 2);
  await press(page, L.undo);
  await reads(page, "crank_deg", 0);

  const at = Object.fromEntries(
    await Promise.all(
      (await pose(page)).wheels.map(async ({ id, at_mm }, i) => [id, { i, at_mm }]),
    ),
  );
  const left = await onScreen(page, at.cam_left.i);
  const before = await figure(page, "wheels.cam_left.turned_deg");
  await hand(page, round(left, 0.8 * left.radius, 0, 90));
  const turned = (await figure(page, "wheels.cam_left.turned_deg")) - before;
  near(turned, 90, 4, "the left camshaft, dragged a quarter round");
  // Tight: the crank goes with it, at twice its rate.
  await reads(page, "crank_deg", 2 * turned, 1e-9);
  await press(page, L.undo);
  await reads(page, "crank_deg", 0);

  const right = await onScreen(page, at.cam_right.i);
  const apart_mm = Math.hypot(
    ...[0, 1].map((axis) => at.cam_right.at_mm[axis] - at.cam_left.at_mm[axis]),
  );
  const px_per_mm = Math.hypot(right.x - left.x, right.y - left.y) / apart_mm;
  const { tensioner } = await report(page);
  const roller = await onScreen(page, at.tensioner.i);
  const pulled = (by) =>
    [0, 0.25, 0.5, 0.75, 1].map((part) => ({ x: roller.x + part * by, y: roller.y }));
  await hand(page, pulled(-15 * px_per_mm));
  // To within a few pixels: the middle was found by feel.
  await reads(page, "tensioner.travel", tensioner.travel - 15, 3 / px_per_mm);
  const { runs } = await pose(page);
  assert(runs[0].slack_mm > 5, `drawn back, the belt hangs: ${runs[0].slack_mm} mm`);
  const drawn = await onScreen(page, at.tensioner.i);
  await hand(
    page,
    [0, 0.5, 1].map((part) => ({ x: drawn.x + part * 40 * px_per_mm, y: drawn.y })),
  );
  await reads(page, "tensioner.travel", tensioner.travel, 1e-9);
}

inEngines(["chromium", "firefox"], (prove, name) => {
  prove(
    "Tab reaches every control in the order of the page, and shows where it is",
    {},
    async (page) => {
      for (const task of [L.layout, L.fitting, L.two_turns, L.what_if]) {
        await page.getByRole("tab", { name: task }).click();
        await press(page, forward(L.one_degree));
        const wanted = await page.evaluate(controls);
        assert(wanted.length > 20, `${wanted}`);
        await page.locator(".skip").focus();
        const reached = [wanted[0]];
        // Never beyond the last: Firefox would go on to its own buttons, and not quite come back.
        for (let i = 0; i < 2 * wanted.length && reached.length < wanted.length; i += 1) {
          await page.keyboard.press("Tab");
          const now = await page.evaluate(focused);
          if (!now) break;
          assert(now.outlined, `the focus on ${now.name} cannot be seen`);
          assert(now.inSight, `something lies over ${now.name}, which has the focus`);
          if (now.scrolls) continue;
          reached.push(now.name);
        }
        assert.deepEqual(reached, wanted, task);
      }
    },
  );

  prove("arrow keys on a wheel's label turn it by a tooth", {}, async (page) => {
    const label = (wheel) => page.getByRole("button", { name: RegExp(`^${wheel}`) }).first();
    const { shafts } = await report(page);
    const best = shafts.find(({ id }) => id === "cam_left").best_tooth_error_crank_deg / 2;
    await label("Left camshaft").focus();
    await keys(page, "ArrowRight");
    await reads(page, "wheels.cam_left.turned_deg", best + 7.5);
    await reads(page, "crank_deg", CRANK_DEG);
    await keys(page, "ArrowLeft", "ArrowDown");
    await reads(page, "crank_deg", -CRANK_DEG);
    await keys(page, "ArrowUp", "Shift+ArrowUp");
    await reads(page, "crank_deg", CRANK_DEG / 10);
    await keys(page, "Control+z", "Control+z", "Control+z", "Control+z", "Control+z");
    await reads(page, "crank_deg", 0);
    await label("Crankshaft").focus();
    await keys(page, "ArrowRight", "ArrowRight");
    await reads(page, "crank_deg", 2 * CRANK_DEG);
    await label("Tensioner").focus();
    const { tensioner } = await report(page);
    await keys(page, "ArrowLeft", "ArrowLeft");
    await reads(page, "tensioner.travel", tensioner.travel - 2);
    await keys(page, "ArrowRight", "ArrowRight", "ArrowRight");
    await reads(page, "tensioner.travel", tensioner.travel);
    // A smooth wheel that does not move: the keys are left to the page.
    await label("Idler").focus();
    await keys(page, "ArrowRight", "ArrowLeft");
    await reads(page, "crank_deg", 2 * CRANK_DEG);
    await keys(page, "Enter");
    assert.equal(await label("Idler").getAttribute("aria-pressed"), "true");
  });

  prove("tabs, menu and dialog by keys", {}, async (page) => {
    const chosen = () => page.getByRole("tab", { selected: true });
    const said = async () => (await chosen().textContent()).trim();
    const names = (await page.getByRole("tab").allTextContents()).map((name) => name.trim());
    assert(names.includes(L.two_turns) && names.includes(L.what_if), `${names}`);
    await chosen().focus();
    const first = names.indexOf(await said());
    for (let i = 1; i <= names.length; i += 1) {
      await keys(page, "ArrowRight");
      assert.equal(await said(), names[(first + i) % names.length]);
      assert(await chosen().evaluate((tab) => tab === document.activeElement));
      assert.equal(await page.getByRole("tabpanel").count(), 1);
    }
    await keys(page, "ArrowLeft");
    assert.equal(await said(), names[(first + names.length - 1) % names.length]);
    const panel = page.getByRole("tabpanel");
    assert.equal(await panel.getAttribute("aria-labelledby"), await chosen().getAttribute("id"));

    const summary = page.locator(".menu summary");
    const menu = page.locator("details.menu");
    await summary.focus();
    await keys(page, "Enter");
    assert(await menu.evaluate((details) => details.open));
    await keys(page, "Tab", "Escape");
    assert(!(await menu.evaluate((details) => details.open)), "Escape closes the menu");
    assert(await summary.evaluate((element) => element === document.activeElement));

    await keys(page, "Enter");
    await page.getByRole("button", { name: L.about, exact: true }).focus();
    await keys(page, "Enter");
    const dialog = page.getByRole("dialog", { name: L.about_heading });
    assert(await dialog.isVisible());
    assert(await dialog.evaluate((element) => element.contains(document.activeElement)));
    await keys(page, "Escape");
    assert(!(await dialog.isVisible()), "Escape closes the dialog");

    await page.locator(".skip").focus();
    assert(await page.locator(".skip").isVisible());
    await keys(page, "Enter");
    assert(await panel.evaluate((element) => element === document.activeElement));
  });

  prove("a mouse turns the dial, a sprocket, and moves the tensioner", {}, (page) =>
    worksUnder(page, drag),
  );

  if (name === "chromium") {
    const phone = { hasTouch: true, viewport: { width: 390, height: 844 } };
    prove("a finger does so on a phone", phone, (page) => worksUnder(page, swipe));

    prove("a finger on a sprocket's side turns it too", phone, async (page) => {
      const { wheels } = await pose(page);
      const right = await onScreen(
        page,
        wheels.findIndex(({ id }) => id === "cam_right"),
      );
      const before = await figure(page, "wheels.cam_right.turned_deg");
      await swipe(page, round(right, 0.8 * right.radius, 90, 180));
      const turned = (await figure(page, "wheels.cam_right.turned_deg")) - before;
      near(turned, 90, 4, "the right camshaft, dragged a quarter round from its side");
    });

    prove("two fingers enlarge the drawing", phone, async (page) => {
      const own = await page.locator("drive-view canvas").boundingBox();
      const [x, y] = [own.x + own.width / 2, own.y + own.height / 2];
      const session = await page.context().newCDPSession(page);
      const touch = (type, apart) =>
        session.send("Input.dispatchTouchEvent", {
          type,
          touchPoints: apart
            ? [
                { x: x - apart, y, id: 0 },
                { x: x + apart, y, id: 1 },
              ]
            : [],
        });
      const { wheels } = await pose(page);
      const cam = wheels.findIndex(({ id }) => id === "cam_left");
      const before = await onScreen(page, cam);
      await touch("touchStart", 30);
      for (const apart of [40, 50, 60]) await touch("touchMove", apart);
      await touch("touchEnd");
      await settled(page);
      const whole = page.getByRole("button", { name: L.zoom_fit });
      assert(await whole.isVisible(), "a way back is offered");
      await reads(page, "crank_deg", 0);
      await whole.click();
      const after = await onScreen(page, cam);
      near(after.radius, before.radius, 0.5, "the wheel's size again");
      assert(!(await whole.isVisible()));
    });
  }
});
