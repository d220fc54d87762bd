// Turning the crank: marks that come back after two turns, stripes that do not, and every belt tooth
// in its groove all the while. What is expected is worked out here from tooth counts alone.
import assert from "node:assert/strict";
import { describe, test } from "node:test";
import { engine } from "./engines.mjs";
import { launch, openPage, pageUrl } from "./harness.mjs";
import { WebKit } from "./webkit.mjs";
import {
  back,
  button,
  figure,
  forward,
  inEngines,
  keys,
  L,
  marks,
  near,
  pose,
  poseText,
  press,
  reads,
  report,
  settled,
  words,
} from "./working.mjs";

// The shipped layout: its belt, its crank and its camshafts.
const BELT = 173;
const CRANK = 24;
const CAM = 48;
const PITCH = 9.525;
const SHAFTS = ["crank", "cam_left", "cam_right"];
/** What a mark is on, and where it stands in time: from the layout file. */
const GROOVE_PAST_MARK = { crank: 0.5, cam_left: 0, cam_right: 0 };

/** Where the crank's stripe stands after so many turns. */
const stripe = (turns) => (((turns * CRANK) % BELT) + BELT) % BELT;

/** Fails unless every mark stands as two teeth counts say after so many crank turns. */
async function marksAfter(page, turns) {
  await reads(page, "crank_deg", 360 * turns);
  await reads(page, "stripes.past_crank_mark_teeth", stripe(turns));
  const { shafts } = await report(page);
  for (const { id, best_tooth_error_teeth } of shafts) {
    const teeth = id === "crank" ? CRANK : CAM;
    const away = (turns * CRANK) % teeth;
    const { mark, against } = await marks(page, id);
    assert.match(mark, away === 0 ? /^on\b/ : /^half a turn away/, `${id} after ${turns} turns`);
    assert.match(against, /^in time/);
    // Half a turn either way is the same place.
    const found = await figure(page, `shafts.${id}.mark_error_teeth`);
    const off = found - best_tooth_error_teeth - away;
    near(off - teeth * Math.round(off / teeth), 0, 1e-9, `${id}'s mark after ${turns} turns`);
  }
}

/** Fails unless every belt tooth that is said to sit in a groove does. */
function assertEngaged({ wheels, belt_teeth }) {
  const seated = { crank: 0, cam_left: 0, cam_right: 0 };
  for (const { id, at_mm, turned_deg } of wheels) {
    if (!SHAFTS.includes(id)) {
      assert(!belt_teeth.some((tooth) => tooth.in === id), `a smooth wheel has grooves: ${id}`);
      continue;
    }
    const teeth = id === "crank" ? CRANK : CAM;
    const radius = (teeth * PITCH) / (2 * Math.PI);
    for (const tooth of belt_teeth.filter((tooth) => tooth.in === id)) {
      seated[id] += 1;
      const [x, y] = [tooth.at_mm[0] - at_mm[0], tooth.at_mm[1] - at_mm[1]];
      // The mark starts at the top, and this drive turns clockwise.
      const clock = (Math.atan2(x, y) * 180) / Math.PI;
      const past = ((clock - turned_deg) * teeth) / 360 - GROOVE_PAST_MARK[id];
      const groove = Math.round(past) + GROOVE_PAST_MARK[id];
      const angle = ((groove * 360) / teeth + turned_deg) * (Math.PI / 180);
      const [dx, dy] = [x - radius * Math.sin(angle), y - radius * Math.cos(angle)];
      near(Math.hypot(dx, dy), 0, 1e-6, `from a groove of ${id}`);
    }
  }
  return seated;
}

/** Fails unless neighbours on a straight run lie a pitch apart on it; gives how many pairs do. */
function assertPitched({ belt_teeth }, { spans }) {
  let pairs = 0;
  for (const { leaves_mm, meets_mm, length_mm } of spans) {
    const along = [0, 1].map((i) => (meets_mm[i] - leaves_mm[i]) / length_mm);
    const on = ({ at_mm }) => {
      const d = [0, 1].map((i) => at_mm[i] - leaves_mm[i]);
      const far = d[0] * along[0] + d[1] * along[1];
      const off = d[0] * along[1] - d[1] * along[0];
      return far > 0 && far < length_mm && Math.abs(off) < 1e-6 ? far : undefined;
    };
    let onSpan = 0;
    for (const [i, tooth] of belt_teeth.entries()) {
      const [here, there] = [on(tooth), on(belt_teeth[(i + 1) % belt_teeth.length])];
      if (here !== undefined) onSpan += 1;
      if (here === undefined || there === undefined) continue;
      near(there - here, PITCH, 1e-6, "from tooth to tooth on a tight run");
      pairs += 1;
    }
    near(onSpan, length_mm / PITCH, 1, "teeth on a straight run");
  }
  return pairs;
}

inEngines(
  ["chromium", "firefox"],
  (prove, name) => {
    prove("two turns by the buttons bring the marks back, and not the stripe", {}, async (page) => {
      await marksAfter(page, 0);
      assert.match(
        await page.locator("task-two-turns .lead").textContent(),
        /^\s*All marks are on\./,
      );
      await press(page, forward(L.one_turn));
      await marksAfter(page, 1);
      await press(page, forward(L.one_turn));
      await marksAfter(page, 2);
      assert.match(await words(page, "stripes.past_crank_mark_teeth"), /^48\u00a0teeth past /);
      await press(page, L.two_turns_forward);
      await marksAfter(page, 4);
      for (let i = 0; i < 5; i += 1) await press(page, back(L.one_turn));
      await marksAfter(page, -1);
      await press(page, L.to_the_start);
      await marksAfter(page, 0);
    });

    if (name === "chromium")
      prove("every button turns by what its name says, both ways", {}, async (page) => {
        const by = [
          [L.one_degree, 1],
          [L.one_tooth, 360 / CRANK],
          [L.quarter, 90],
          [L.one_turn, 360],
        ];
        let crank = 0;
        for (const [name, deg] of by) {
          await press(page, forward(name));
          crank += deg;
          await reads(page, "crank_deg", crank);
          await press(page, back(name));
          await press(page, back(name));
          crank -= 2 * deg;
          await reads(page, "crank_deg", crank);
        }
        const { shafts } = await report(page);
        for (const { id, best_tooth_error_crank_deg } of shafts) {
          const turned =
            id === "crank" ? crank : ((crank + best_tooth_error_crank_deg) * CRANK) / CAM;
          await reads(page, `wheels.${id}.turned_deg`, turned);
        }
      });

    prove("two turns by the dial's keys", {}, async (page) => {
      const dial = page.getByRole("slider", { name: /^Turn dial/ });
      await dial.focus();
      await keys(page, "End");
      await marksAfter(page, 2);
      await keys(page, "Home");
      await marksAfter(page, 0);
      await keys(page, "ArrowRight", "ArrowUp", "ArrowUp");
      await reads(page, "crank_deg", 3);
      assert.equal(await dial.getAttribute("aria-valuenow"), "3");
      await keys(page, "ArrowLeft", "ArrowDown", "ArrowDown", "ArrowDown");
      await reads(page, "crank_deg", -1);
      await keys(page, "Shift+ArrowRight");
      await reads(page, "crank_deg", -1 + 360 / CRANK);
      await keys(page, "Home", "PageUp", "PageUp", "PageUp", "PageDown");
      await reads(page, "crank_deg", (2 * 360) / CRANK);
      await keys(page, ...Array(2 * CRANK - 2).fill("PageUp"));
      await marksAfter(page, 2);
      assert.equal(await dial.getAttribute("aria-valuetext"), "2 turns and 0°");
      await keys(page, ...Array(CRANK).fill("PageDown"));
      await marksAfter(page, 1);
      assert.equal(await dial.getAttribute("aria-valuenow"), "360");
    });

    prove(
      "the stripe meets its mark after as many turns as the belt has teeth",
      {},
      async (page) => {
        await reads(page, "stripes.crank_turns_to_meet_crank_mark", BELT);
        await reads(page, "stripes.crank_turns_to_meet_every_mark", 2 * BELT);
        await press(page, forward(L.one_turn));
        await press(page, L.run_to_meet);
        await reads(page, "crank_deg", 360 * BELT);
        await reads(page, "stripes.past_crank_mark_teeth", 0);
        assert.match(await words(page, "stripes.past_crank_mark_teeth"), /^at /);
        // An odd number of turns: the camshafts stand half a turn away.
        await marksAfter(page, BELT);
        // The very belt teeth that sat in the crank at the start do so again.
        const now = await pose(page);
        await press(page, L.to_the_start);
        const start = await pose(page);
        assert.deepEqual(
          now.belt_teeth.map((tooth) => tooth.in),
          start.belt_teeth.map((tooth) => tooth.in),
        );
      },
    );

    if (name === "chromium")
      prove("the table of turns says what turning shows", {}, async (page) => {
        const table = page.locator("table.turns tbody tr");
        const said = await table.evaluateAll((rows) =>
          rows.map(({ cells }) => [...cells].map((cell) => cell.textContent.replace("✓ ", ""))),
        );
        assert.deepEqual(
          said.map(([turn]) => turn),
          ["0", "1", "2"],
        );
        for (const [turn, ...rest] of said) {
          const cells = [];
          for (const id of SHAFTS) cells.push((await marks(page, id)).mark);
          cells.push(`${stripe(Number(turn))}\u00a0teeth`);
          assert.deepEqual(rest, cells, `turn ${turn}`);
          await press(page, forward(L.one_turn));
        }
      });

    prove("every tooth in its groove, and a pitch apart on a tight run", {}, async (page) => {
      const { wheels } = await report(page);
      const figures = await report(page);
      for (const deg of [0, 1, 7.5, 137, 359.5, 720, -133.7, 36_000.25]) {
        await page.evaluate((to) => globalThis.bench.act({ turn_to: { crank_deg: to } }), deg);
        const now = await pose(page);
        assert.equal(now.belt_teeth.length, BELT);
        near(now.crank_deg, deg, 1e-9, "the crank");
        const seated = assertEngaged(now);
        for (const id of SHAFTS) {
          const { teeth_in_mesh } = wheels.find((wheel) => wheel.id === id);
          near(seated[id], teeth_in_mesh, 1, `teeth in mesh at ${id}`);
        }
        const straight = figures.spans.reduce((sum, { length_mm }) => sum + length_mm, 0);
        assert(assertPitched(now, figures) > straight / PITCH - 3 * figures.spans.length);
      }
    });

    prove("a belt tooth moves on by the crank's teeth with every turn", {}, async (page) => {
      const start = await pose(page);
      for (const turns of [1, 2, 7, 172, -1]) {
        await page.evaluate(
          (to) => globalThis.bench.act({ turn_to: { crank_deg: to } }),
          360 * turns,
        );
        const { belt_teeth } = await pose(page);
        for (const [i, tooth] of belt_teeth.entries()) {
          const then = start.belt_teeth[(i + stripe(turns)) % BELT];
          assert.equal(tooth.in, then.in, `tooth ${i} after ${turns} turns`);
          for (const axis of [0, 1]) near(tooth.at_mm[axis], then.at_mm[axis], 1e-6, `tooth ${i}`);
        }
      }
    });

    prove("undo and redo restore everything", {}, async (page) => {
      const steps = [
        () => press(page, forward(L.one_tooth)),
        () => press(page, L.right_back),
        () => press(page, back(L.quarter)),
        () => press(page, forward(L.one_turn)),
        async () => {
          await page.getByRole("button", { name: /^Left camshaft/ }).focus();
          await keys(page, "ArrowRight");
        },
        () => press(page, L.take_up),
        async () => {
          await page.getByRole("tab", { name: L.what_if }).click();
          await press(page, `Right camshaft: ${L.tooth_behind}`);
        },
        () => press(page, `Crankshaft: ${L.tooth_ahead}`),
      ];
      const poses = [await poseText(page)];
      for (const step of steps) {
        await step();
        poses.push(await poseText(page));
        assert.notEqual(poses.at(-1), poses.at(-2), `step ${poses.length - 1} did nothing`);
      }
      const ways = [
        { undo: () => press(page, L.undo), redo: () => press(page, L.redo) },
        { undo: () => keys(page, "Control+z"), redo: () => keys(page, "Control+y") },
        { undo: () => keys(page, "Control+z"), redo: () => keys(page, "Control+Shift+z") },
      ];
      for (const { undo, redo } of ways) {
        for (let i = poses.length - 2; i >= 0; i -= 1) {
          await undo();
          assert.equal(await poseText(page), poses[i], `back to after step ${i}`);
        }
        assert(await button(page, L.undo).isDisabled(), "nothing is left to undo");
        for (let i = 1; i < poses.length; i += 1) {
          await redo();
          assert.equal(await poseText(page), poses[i], `on to after step ${i}`);
        }
        assert(await button(page, L.redo).isDisabled(), "nothing is left to redo");
      }
      // Doing something else ends what could be done again.
      await press(page, L.undo);
      await press(page, forward(L.one_degree));
      assert(await button(page, L.redo).isDisabled());
    });
  },
  others,
);

function others() {
  describe("with motion", { skip: engine("chromium").missing }, () => {
    test("a run passes through angles between, can be stopped, and ends where it should", async () => {
      const browser = await launch("chromium");
      try {
        const { page, seen } = await openPage(browser, { locale: "en-GB" });
        await button(page, L.two_turns_forward).click();
        await page.waitForFunction(() => globalThis.bench.panel.crank.value > 20);
        const between = await figure(page, "crank_deg");
        assert(between > 0 && between < 720, `${between}`);
        await settled(page);
        await marksAfter(page, 2);
        await button(page, L.run_to_meet).click();
        await page.waitForFunction(() => globalThis.bench.panel.crank.value > 1000);
        await press(page, L.stop);
        const stopped = await figure(page, "crank_deg");
        assert(stopped > 1000 && stopped < 360 * BELT, `${stopped}`);
        await page.waitForTimeout(150);
        await reads(page, "crank_deg", stopped);
        await press(page, L.undo);
        await marksAfter(page, 2);
        // Pressed again while it runs, it goes on from where it would have ended.
        await button(page, forward(L.one_turn)).click();
        await button(page, forward(L.one_turn)).click();
        await settled(page);
        await marksAfter(page, 4);
        await seen.assertQuiet();
      } finally {
        await browser.close();
      }
    });
  });

  describe("webkit", { skip: engine("webkit").missing }, () => {
    test("two turns and a tooth out", async () => {
      const window = await WebKit.launch();
      try {
        await window.open(pageUrl);
        const read = (key) =>
          window.run(
            "return Number(document.querySelector(arguments[0]).dataset.value)",
            `[data-key="${key}"]`,
          );
        await window.click("task-two-turns button.main");
        await window.waitFor(
          "return document.querySelector('[data-key=crank_deg]').dataset.value === '720'",
        );
        assert.equal(await read("stripes.past_crank_mark_teeth"), stripe(2));
        assert.equal(await read("shafts.crank.mark_error_teeth"), 0);
        assertEngaged(JSON.parse(await window.run("return bench.json('pose')")));
        await window.click("#tab-what_if");
        await window.click("[aria-label^='Left camshaft'] .stepper button");
        assert.equal(await read("shafts.cam_left.out_deg"), -360 / CAM);
        assert.equal(await read("shafts.cam_left.out_crank_deg"), -360 / CRANK);
      } finally {
        await window.close();
      }
    });
  });
}
