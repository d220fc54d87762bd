// The task Explain: every demonstration to its end, its captions against the readings beside it; by button,
// key and clicker; full screen and back; somebody's own work untouched afterwards.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { assertAccessible } from "./harness.mjs";
import {
  button,
  choose,
  figure,
  inEngines,
  keys,
  L,
  labels,
  press,
  settled,
  sideways,
  small,
  task,
} from "./working.mjs";

const FILES = new URL("../../crates/lesson/demonstrations/", import.meta.url);

/** Every demonstration as its file has it, by id. */
const files = readdirSync(FILES).map((name) =>
  JSON.parse(readFileSync(new URL(name, FILES), "utf8")),
);

const lesson = (page) => page.evaluate(() => globalThis.bench.lesson);
const offered = (page) =>
  page
    .locator("[data-demonstration]")
    .evaluateAll((all) => all.map((each) => each.dataset.demonstration));

async function start(page, id) {
  await page.locator(`[data-demonstration="${id}"]`).click();
  await settled(page);
}

/** The readings in the caption: key, figure and words. */
const inCaption = (page) =>
  page.locator(".lesson-caption [data-key]").evaluateAll((all) =>
    all.map((each) => ({
      key: each.dataset.key,
      value: each.dataset.value,
      words: each.textContent,
    })),
  );

/** The same readings wherever else the page has them now. */
const elsewhere = (page) =>
  page.locator("two-turns [data-key]").evaluateAll((all) =>
    all
      .filter((each) => !each.closest(".lesson-caption"))
      .map((each) => ({
        key: each.dataset.key,
        value: each.dataset.value,
        words: each.textContent,
      })),
  );

/** In the page: what does not fit or rubs something out while it is shown to a room. */
function shownToARoom() {
  const wrong = [];
  const side = document.querySelector(".side");
  if (side.scrollHeight > side.clientHeight) wrong.push(`the caption is ${side.scrollHeight} px`);
  for (const part of side.querySelectorAll("h1, .lesson-caption, button")) {
    const { top, bottom } = part.getBoundingClientRect();
    if (top < 0 || bottom > innerHeight) wrong.push(`${part.textContent} is cut`);
  }
  // What stands over the drive lets it through, or is a button.
  const dial = getComputedStyle(document.querySelector(".dial")).backgroundColor;
  if (!/\/ 0?\.\d+\)|, 0?\.\d+\)/.test(dial)) wrong.push(`the dial's ground is ${dial}`);
  return wrong;
}

/** Everything that a person's own work is, as the page holds it. */
const work = (page) =>
  page.evaluate(() => {
    const { bench } = globalThis;
    const { undo, redo, title } = bench.panel;
    return { undo, redo, title, pose: bench.json("pose"), text: bench.draftText };
  });

inEngines(["chromium"], (prove) => {
  prove("every demonstration to its end, its figures those of the readings", {}, async (page) => {
    await task(page, L.explain);
    const ids = await offered(page);
    assert.deepEqual([...ids].sort(), files.map(({ id }) => id).sort());
    for (const id of ids) {
      await start(page, id);
      const { steps } = files.find((file) => file.id === id);
      const seen = new Set();
      for (let step = 0; step < steps.length; step += 1) {
        if (step > 0) await press(page, L.step_on);
        assert.equal((await lesson(page)).step, step, id);
        const told = await inCaption(page);
        assert.equal(
          told.length,
          (steps[step].caption.en.match(/\{/g) ?? []).length,
          `${id}, ${step}`,
        );
        const places = [];
        for (const name of [L.explain, L.two_turns, L.what_if, L.fitting]) {
          await task(page, name);
          places.push(...(await elsewhere(page)));
        }
        for (const { key, value, words } of told) {
          const same = places.filter((place) => place.key === key);
          assert(same.length > 0, `${id}, step ${step}: ${key} stands nowhere else`);
          for (const place of same) assert.deepEqual(place, { key, value, words });
          seen.add(key);
        }
        await task(page, L.explain);
      }
      assert(seen.size > 0, `${id} names no reading`);
      assert.equal(await button(page, L.step_on).count(), 0);
      await press(page, L.end_demonstration);
    }
  });

  prove("somebody's own work is put aside and comes back untouched", {}, async (page) => {
    await page.evaluate(() => {
      globalThis.bench.act({ turn_to: { crank_deg: 100 } });
      globalThis.bench.act({ set_teeth: { cam_left: 1 } });
      globalThis.bench.undo();
    });
    await settled(page);
    const before = await work(page);
    assert(before.undo && before.redo);
    await task(page, L.explain);
    await start(page, "why-twice-round");
    assert.notEqual((await work(page)).title, before.title);
    await press(page, L.step_on);
    await page.evaluate(() => globalThis.bench.act({ turn_to: { crank_deg: 33 } }));
    await settled(page);
    // Another one straight from another task, too.
    await task(page, L.two_turns);
    await press(page, L.end_demonstration);
    assert.deepEqual(await work(page), before);
    await task(page, L.explain);
    await start(page, "one-tooth-out");
    // A layout is written into one's own work.
    await task(page, L.layout);
    assert.deepEqual(await work(page), before);
    await page.evaluate(() => globalThis.bench.redo());
    await settled(page);
    assert.equal(await page.evaluate(() => globalThis.bench.panel.any_out), true);
  });

  prove("work put aside in the middle of a replay or a run is whole again", {}, async (page) => {
    await page.evaluate(() => {
      for (const crank_deg of [100, 200]) globalThis.bench.act({ turn_to: { crank_deg } });
    });
    await settled(page);
    const before = await work(page);
    await page.evaluate(() => {
      const { bench } = globalThis;
      bench.replay();
      bench.startExercise(7);
      bench.endLesson();
    });
    await settled(page);
    assert.deepEqual(await work(page), before);
  });

  prove("a step is left to play with, and come back to exactly", {}, async (page) => {
    await task(page, L.explain);
    await start(page, "where-the-slack-goes");
    await press(page, L.step_on);
    const pose = () => page.evaluate(() => globalThis.bench.json("pose"));
    const before = await pose();
    const caption = await page.locator(".lesson-caption").textContent();
    await button(page, `${L.quarter}, ${L.forward}`).click();
    await settled(page);
    assert.notEqual(await pose(), before);
    assert.match(await page.locator(".lesson-caption").textContent(), new RegExp(L.back_to_step));
    await press(page, L.back_to_step);
    assert.equal(await pose(), before);
    assert.equal(await page.locator(".lesson-caption").textContent(), caption);
    assert.equal(await button(page, L.undo).isDisabled(), true);
  });

  // The longer words in the lesser room.
  for (const [width, height, lang] of [
    [1920, 1080, "en"],
    [1280, 720, "de"],
  ]) {
    prove(
      `shown to a room of ${width} × ${height} every step fits, its belts whole and its labels by their wheels`,
      { viewport: { width, height } },
      async (page) => {
        await page.evaluate((to) => globalThis.bench.prefer({ lang: to }), lang);
        const G = labels[lang];
        await task(page, G.explain);
        for (const { id, steps } of files) {
          await start(page, id);
          await press(page, G.full_screen);
          await page.waitForFunction(() => document.fullscreenElement !== null);
          for (let step = 0; step < steps.length; step += 1) {
            await page.evaluate((to) => globalThis.bench.goToStep(to, true), step);
            await settled(page);
            assert.deepEqual(await page.evaluate(shownToARoom), [], `${lang}, ${id}, ${step}`);
          }
          await page.evaluate(() => document.exitFullscreen());
          await button(page, G.full_screen).waitFor();
          await press(page, G.end_demonstration);
        }
      },
    );
  }

  prove(
    "by clicker and keys, full screen and back",
    { viewport: { width: 1920, height: 1080 } },
    async (page) => {
      await task(page, L.explain);
      await start(page, "how-the-belt-keeps-time");
      await press(page, L.full_screen);
      await page.waitForFunction(() => document.fullscreenElement !== null);
      await settled(page);
      const size = await page
        .locator(".lesson-caption p")
        .first()
        .evaluate((p) => parseFloat(getComputedStyle(p).fontSize));
      assert(size >= 36, `the caption is ${size} px large`);
      assert.equal(await page.locator("header").isVisible(), false);
      for (const [key, step] of [
        ["PageDown", 1],
        ["ArrowRight", 2],
        [" ", 3],
        ["PageUp", 2],
        ["ArrowLeft", 1],
      ]) {
        await keys(page, key);
        assert.equal((await lesson(page)).step, step, key);
      }
      await assertAccessible(page);
      await page.evaluate(() => document.exitFullscreen());
      await page.waitForFunction(
        () => !document.querySelector("two-turns").classList.contains("presenting"),
      );
      await press(page, L.full_screen);
      await page.waitForFunction(() => document.fullscreenElement !== null);
      await keys(page, "Escape");
      await page.waitForFunction(() => document.fullscreenElement === null);
      assert.equal((await lesson(page)).step, 1, "Escape leaves full screen first");
      await keys(page, "Escape");
      assert.equal(await lesson(page), null ?? undefined);
      assert.equal(await page.locator("header").isVisible(), true);
    },
  );

  prove(
    "it plays by itself, pauses, and moves for those who want motion",
    { reducedMotion: "no-preference" },
    async (page) => {
      await task(page, L.explain);
      await start(page, "how-the-belt-keeps-time");
      await press(page, L.step_on);
      await page.evaluate(() => {
        const { bench } = globalThis;
        globalThis.painted = new Set();
        bench.addEventListener("paint", () => {
          globalThis.painted.add(JSON.parse(bench.json("pose")).crank_deg);
        });
      });
      await button(page, L.step_on).click();
      await page.waitForFunction(() => !globalThis.bench.running);
      const angles = await page.evaluate(() => globalThis.painted.size);
      assert(angles > 2, "nothing was seen to turn");
      await settled(page);
      const jumped = await page.evaluate(() => globalThis.bench.json("pose"));
      await page.evaluate(() => globalThis.bench.goToStep(2));
      assert.equal(
        await page.evaluate(() => globalThis.bench.json("pose")),
        jumped,
        "seen to turn or not, it ends the same",
      );
      await page.clock.install();
      await press(page, L.by_itself);
      await page.clock.runFor(1000 * 9.5);
      await page.waitForFunction(() => globalThis.bench.lesson.step === 3);
      await press(page, L.pause);
      await page.clock.runFor(60_000);
      assert.equal((await lesson(page)).step, 3);
    },
  );

  prove("on a phone, in German", { viewport: { width: 360, height: 740 } }, async (page) => {
    await choose(page, L.other_language);
    const G = labels.de;
    await task(page, G.explain);
    await assertAccessible(page);
    assert.deepEqual(await page.evaluate(sideways), { wide: 0, out: [] });
    for (const file of files) {
      await start(page, file.id);
      for (let step = 1; step < file.steps.length; step += 1) await press(page, G.step_on);
      assert.deepEqual(await page.evaluate(sideways), { wide: 0, out: [] }, file.id);
      assert.deepEqual(await page.evaluate(small), [], file.id);
      const told = await page.locator(".lesson-caption").textContent();
      const words = file.steps.at(-1).caption.de.split(/\{[^}]*\}/);
      for (const part of words) assert(told.includes(part.trim()), `${file.id}: ${part}`);
      await assertAccessible(page);
      await press(page, G.end_demonstration);
    }
    await page.getByLabel(G.exercise_number).fill("52");
    await page.getByRole("button", { name: G.exercise_start, exact: true }).click();
    await page.locator("exercise-part").waitFor();
    assert.deepEqual(await page.evaluate(sideways), { wide: 0, out: [] });
    assert.deepEqual(await page.evaluate(small), []);
    const { width } = await page.locator("turn-buttons").boundingBox();
    assert(width > 340, `the buttons take the dial's room: ${width}`);
    await assertAccessible(page);
  });

  /** Starts the exercise of a number. */
  async function exercise(page, number) {
    await page.getByLabel(L.exercise_number).fill(String(number));
    await page.getByRole("button", { name: L.exercise_start, exact: true }).click();
    await page.locator("exercise-part").waitFor();
  }

  /** The answer that the page itself would give away once it is shown. */
  const hidden = (page) => page.evaluate(() => globalThis.bench.exercise.hidden);

  prove("the same number hides the same fault here as natively", {}, async (page) => {
    const numbers = Array.from({ length: 100 }, (_, i) => i * 10_101);
    const cargo = ["run", "--quiet", "--package", "proofs", "--profile", "test"];
    const native = execFileSync(
      "cargo",
      [...cargo, "--bin", "exercises", "--", ...numbers.map(String)],
      {
        cwd: fileURLToPath(new URL("../..", import.meta.url)),
        encoding: "utf8",
      },
    );
    const here = await page.evaluate((all) => {
      const { bench } = globalThis;
      return all.map((number) => {
        bench.startExercise(number);
        return bench.json("moment");
      });
    }, numbers);
    assert.deepEqual(here, native.trim().split("\n"));
    assert(new Set(here).size > 50, "numbers hide different faults");
  });

  prove("what the page holds of an exercise is the same whatever is hidden", {}, async (page) => {
    await task(page, L.explain);
    // Where the belt is tight nothing but the picture and its own sentences may differ: same layout, same
    // page, and the same answers to give.
    const all = await page.evaluate(async () => {
      const { bench } = globalThis;
      const app = document.querySelector("two-turns");
      const found = [];
      for (let number = 0; number < 150; number += 1) {
        bench.showCounts(true);
        bench.startExercise(number);
        if (bench.panel.runs.some(({ tag }) => tag !== "")) continue;
        await new Promise(requestAnimationFrame);
        for (const element of [app, ...app.querySelectorAll("*")]) await element.updateComplete;
        const shown = app.cloneNode(true);
        for (const own of shown.querySelectorAll(".seen, exercise-part h2, .slack-tags"))
          own.remove();
        const attributes = [...shown.querySelectorAll("*")].map((element) =>
          [...element.attributes]
            .filter(({ name }) => name !== "style")
            .map(
              ({ name, value }) =>
                `${name}=${value
                  .split(/\s+/)
                  .filter((word) => word && word !== "no-room")
                  .join(" ")}`,
            )
            .sort(),
        );
        const { seen, title, ...exercise } = bench.exercise;
        const held = JSON.stringify([bench.panel, exercise, shown.textContent, attributes]);
        bench.openExercise();
        found.push({ layout: bench.panel.title, held, hidden: bench.exercise.hidden.join(" ") });
      }
      return found;
    });
    const layouts = new Set(all.map(({ layout }) => layout));
    assert.equal(layouts.size, 5);
    for (const layout of layouts) {
      const own = all.filter((each) => each.layout === layout);
      assert(new Set(own.map(({ hidden }) => hidden)).size > 3, layout);
      assert.deepEqual(
        own.map(({ held }) => held),
        own.map(() => own[0].held),
        layout,
      );
    }
  });

  prove("a blind exercise gives nothing away, is answered wrong, then right", {}, async (page) => {
    const before = await work(page);
    await task(page, L.explain);
    // A number whose fault is one shaft, not the crank, teeth out: found by showing answers, as a teacher
    // may beforehand.
    const answer = await page.evaluate(() => {
      const { bench } = globalThis;
      for (let number = 0; number < 1000; number += 1) {
        bench.startExercise(number);
        bench.openExercise();
        const { hidden, shafts } = bench.exercise;
        const told = hidden[0].match(/^(.*) is (\d)\D+ (ahead|behind): [^:]*$/);
        const shaft = shafts.find(({ name }) => name === told?.[1]);
        if (hidden.length > 1 || !shaft) continue;
        bench.endLesson();
        return {
          number,
          sentence: hidden[0],
          teeth: Number(told[2]),
          ahead: told[3] === "ahead",
          ...shaft,
        };
      }
      throw new Error("no such number");
    });
    await exercise(page, answer.number);
    const text = () => page.locator("two-turns").evaluate((app) => app.textContent);
    assert.deepEqual(await hidden(page), []);
    for (const told of [/\bahead\b/, /\bbehind\b/, /\bof crank\b/, /All marks are on/]) {
      assert.doesNotMatch(await text(), told);
    }
    assert.deepEqual(
      await page
        .locator("[data-key^='shafts.'], [data-key^='wheels.'], [data-key^='runs.']")
        .count(),
      0,
    );
    for (const name of [L.layout, L.fitting, L.two_turns, L.what_if]) {
      assert.equal(await page.getByRole("tab", { name, exact: true }).isDisabled(), true, name);
    }
    assert.equal(await button(page, L.undo).isDisabled(), true);
    await assertAccessible(page);
    assert.equal(await page.locator("turn-dial, .count-tags li").count(), 0);
    assert.match(await text(), new RegExp(L.exercise_valves));
    await page.getByText(L.seen_heading).click();
    const seen = () => page.locator(".seen li").allTextContents();
    const asFound = await seen();
    assert(asFound.length >= 3);
    await page.evaluate(() => globalThis.bench.act({ turn_to: { crank_deg: 720 } }));
    await button(page, L.as_found).click();
    assert.deepEqual(await seen(), asFound);
    const steppers = () => page.locator("exercise-part output").allTextContents();
    assert.deepEqual(new Set(await steppers()), new Set(["in time"]));
    await button(page, L.answer_give).click();
    assert.match(await page.locator(".verdict").textContent(), /Not yet/);
    assert.deepEqual(await hidden(page), []);
    const way = answer.ahead ? L.tooth_ahead : L.tooth_behind;
    for (let i = 0; i < answer.teeth; i += 1) {
      await button(page, `${answer.name}: ${way}`).click();
    }
    const said = answer.sentence.match(/is (\d\D+ (?:ahead|behind)):/)[1];
    assert((await steppers()).includes(said), `${await steppers()} has no ${said}`);
    await button(page, L.answer_give).click();
    assert.match(await page.locator(".verdict").textContent(), /^\s*Right\./);
    assert((await page.locator(".verdict").textContent()).includes(answer.sentence));
    await task(page, L.two_turns);
    assert(Math.abs(await figure(page, `shafts.${answer.id}.ahead_teeth`)) > 0.5);
    await task(page, L.explain);
    await press(page, L.end_demonstration);
    assert.deepEqual(await work(page), before);
  });

  prove("a number that is none is refused in a sentence on the page", {}, async (page) => {
    await task(page, L.explain);
    const refused = page.locator("#exercise-refused");
    for (const typed of ["", "1000000", "-1", "1.5"]) {
      await page.getByLabel(L.exercise_number).fill(typed);
      await page.getByRole("button", { name: L.exercise_start, exact: true }).click();
      assert.equal((await refused.textContent()).trim(), L.exercise_refused, typed);
      assert.equal(await page.locator("exercise-part").count(), 0);
    }
    await assertAccessible(page);
    await exercise(page, 42);
  });

  prove("while figures are hidden slack has no figure in the picture either", {}, async (page) => {
    await task(page, L.explain);
    const tags = await page.evaluate(async () => {
      const { bench } = globalThis;
      for (let number = 0; number < 300; number += 1) {
        bench.startExercise(number);
        const hidden = bench.panel.runs.map(({ tag }) => tag).filter((tag) => tag !== "");
        if (hidden.length > 0) {
          bench.openExercise();
          return { hidden, open: bench.panel.runs.map(({ tag }) => tag).filter((tag) => tag) };
        }
      }
      return undefined;
    });
    assert(tags, "no exercise hangs slack");
    assert.deepEqual(new Set(tags.hidden), new Set(["slack"]));
    for (const tag of tags.open) assert.match(tag, /\d/);
  });

  prove("marks that are not the timing mark have their letters", {}, async (page) => {
    await task(page, L.explain);
    await start(page, "spring-and-camshaft");
    await press(page, L.step_on);
    const letters = page.locator(".letter-tags li");
    assert.deepEqual(await letters.allTextContents(), ["EX"]);
    const boxes = await page.evaluate(() => {
      const box = (element) => element.getBoundingClientRect().toJSON();
      return [".letter-tags li", "drive-view"].map((name) => box(document.querySelector(name)));
    });
    const [own, view] = boxes;
    assert(own.left > view.left && own.right < view.right && own.top > view.top);
    // The belt is off and camshafts have snapped round: their labels say so too.
    const out = await page.locator(".wheel-label.out small").allTextContents();
    const caption = await inCaption(page);
    assert.deepEqual(new Set(out), new Set(caption.map(({ words }) => words)));
  });
});
