// The task Fitting in wrong orders: each is allowed, and each has its consequence, in figures and in a
// sentence. What is expected is worked out here from the layouts' own figures.
import assert from "node:assert/strict";
import {
  doNext,
  FOUR,
  moment,
  next,
  rehearse,
  SIX,
  told,
  upTo,
  warnings,
  wholeOrder,
} from "./rehearsing.mjs";
import {
  back,
  figure,
  forward,
  inEngines,
  L,
  near,
  press,
  reads,
  settled,
  task,
  words,
} from "./working.mjs";

/** Of both layouts: the crank's teeth, a camshaft's, a tooth in crank degrees. */
const CRANK = 24;
const CAM = 48;
const TOOTH_DEG = 360 / CRANK;
/** Of the six in a vee. */
const PITCH = 9.525;
const FORCE_N = 350;
const [LEFT, RIGHT] = ["Left camshaft", "Right camshaft"];
const [OWN, INTO] = ["crank>cam_left", "cam_right>crank"];

const hold = (page, name) => press(page, `${name}: ${L.hold}`);
const letGo = (page, name) => press(page, `${name}: ${L.let_go}`);
const standing = (page) => page.locator(".standing b").textContent();
const inTask = async (page, name) => {
  await page.locator("task-fitting").getByRole("button", { name, exact: true }).click();
  await settled(page);
};

const shaft = async (page, id) => (await moment(page)).shafts.find((each) => each.id === id);
const slack = async (page, name) => {
  const { runs } = await moment(page);
  return runs.find(({ from, to }) => `${from}>${to}` === name).slack_mm;
};

/** The same with valve springs that turn its left camshaft back. */
const SPRUNG = SIX.replace(
  'name = "Left camshaft"',
  'name = "Left camshaft"\nspring_torque_n_m = -6.0',
);

inEngines(["chromium"], (prove) => {
  prove("the pin pulled before the marks were read is warned of", {}, async (page) => {
    await task(page, L.fitting);
    await upTo(page, "Bring the crank forward until tight");
    const bolted = (await moment(page)).crank_deg;
    await upTo(page, "Turn it over twice, read the marks");
    for (const turns of [0, 1]) {
      if (turns) await press(page, forward(L.one_turn));
      await press(page, L.pull_pin);
      const [, deg] = (await warnings(page)).match(
        /^The pin was pulled after ([\d.]+)° of turning with it in, not after two turns \(720°\)/,
      );
      await press(page, L.undo);
      near(Number(deg), (await moment(page)).crank_deg - bolted, 0.051, `after ${turns} turns`);
      assert.equal(await warnings(page), "");
    }
    await press(page, forward(L.one_turn));
    await press(page, L.pull_pin);
    assert.equal(await warnings(page), "", "after the second turn there is nothing to say");
  });

  prove(
    "bolted up with slack in the wrong run, until the crank comes forward",
    {},
    async (page) => {
      await task(page, L.fitting);
      await upTo(page, "Bolt the tensioner up");
      await hold(page, "Crankshaft");
      const [own, into] = [await slack(page, OWN), await slack(page, INTO)];
      await doNext(page);
      assert.match(await told(page), /it goes no further, since the belt is tight between shafts/);
      const said = `Slack in the wrong run: ${into.toFixed(1)}\u00a0mm, 2\u00a0teeth, from ${RIGHT} to Crankshaft`;
      assert((await warnings(page)).includes(said), await warnings(page));
      assert((await warnings(page)).includes("read no mark before"));
      await inTask(page, L.bring_forward);
      assert.match(
        await page.locator(".refused").textContent(),
        /“?crank”? is held\. Let it go first/,
      );
      assert.equal(await slack(page, INTO), into, "nothing moved");
      await letGo(page, "Crankshaft");
      assert((await warnings(page)).includes(said), "it is still there");
      await inTask(page, L.bring_forward);
      assert.equal(await told(page), "Crankshaft brought 30° forward: the belt into it is tight.");
      assert(!(await warnings(page)).includes("wrong run"), await warnings(page));
      assert.equal(await slack(page, INTO), 0);
      near(await slack(page, OWN), own + into, 1e-6, "all slack at the tensioner");
      await inTask(page, L.bring_forward);
      assert.equal(await told(page), "The belt into Crankshaft is tight already.");
    },
  );

  prove(
    "a camshaft that nothing holds is named, with the belt off and hanging",
    {},
    async (page) => {
      await task(page, L.fitting);
      await hold(page, LEFT);
      await inTask(page, L.right_back);
      assert((await warnings(page)).includes(`Nothing holds ${RIGHT}: hold each on its mark`));
      await press(page, L.take_off);
      assert.match(await warnings(page), RegExp(`^Nothing holds ${RIGHT}: `));
      await letGo(page, LEFT);
      assert.match(await warnings(page), RegExp(`^Nothing holds ${LEFT} and ${RIGHT}: `));
      for (const name of [LEFT, RIGHT]) await hold(page, name);
      assert.equal(await warnings(page), "");
    },
  );

  prove("turning the crank with the belt hanging drags what nothing holds", {}, async (page) => {
    await task(page, L.fitting);
    await inTask(page, L.right_back);
    assert.match(await warnings(page), RegExp(`^Nothing holds ${LEFT} and ${RIGHT}: `));
    const free = ((await slack(page, OWN)) / PITCH) * TOOTH_DEG;
    const before = await moment(page);
    // Back: first the slack goes to the other side, then both camshafts come along.
    for (let i = 0; i < 3; i += 1) await press(page, back(L.one_tooth));
    const dragged = (CRANK / CAM) * (3 * TOOTH_DEG - free);
    assert(dragged > 1, `${dragged}`);
    const after = await moment(page);
    for (const i of [1, 2]) {
      const moved = after.shafts[i].turned_deg - before.shafts[i].turned_deg;
      near(moved, -dragged, 1e-6, after.shafts[i].id);
    }
    assert.equal(await slack(page, OWN), 0);
    const hands = await page.locator("task-fitting .hand h4 span").allTextContents();
    assert.match(hands[1], /teeth before\b/);
    // Held, they stay, and the crank goes no further than the slack lets it.
    for (let i = 0; i < 3; i += 1) await press(page, L.undo);
    for (const name of [LEFT, RIGHT]) await hold(page, name);
    for (let i = 0; i < 3; i += 1) await press(page, back(L.one_tooth));
    near(
      (await moment(page)).crank_deg - before.crank_deg,
      -free,
      1e-6,
      "as far as there is slack",
    );
    assert.match(await told(page), /there the belt is tight, and Left camshaft is held\.$/);
  });

  prove("let go, a camshaft under its valve springs jumps aside", {}, async (page) => {
    await rehearse(page, SPRUNG);
    await upTo(page, "Back the crank off 2\u00a0teeth");
    const before = (await shaft(page, "cam_left")).turned_deg;
    await letGo(page, LEFT);
    const moved = (await shaft(page, "cam_left")).turned_deg - before;
    near(moved, -20, 1e-9, "half a lobe's flank");
    assert.equal(
      await told(page),
      `${LEFT} let go. Nothing holds ${LEFT}: its valve springs turn it 20° back.`,
    );
    assert.match(await warnings(page), RegExp(`^Nothing holds ${LEFT}: `));
    // The other has none: it stays.
    const right = (await shaft(page, "cam_right")).turned_deg;
    await letGo(page, RIGHT);
    assert.equal((await shaft(page, "cam_right")).turned_deg, right);
    assert.equal(await told(page), `${RIGHT} let go.`);
    await press(page, `${LEFT}: ${L.to_its_mark}`);
    await hold(page, LEFT);
    near((await shaft(page, "cam_left")).mark_error_teeth, 0, 1e-9, "back on its mark, and held");
  });

  prove("a mark mistaken for the one beside it", {}, async (page) => {
    await rehearse(page, FOUR);
    await upTo(page, "Back the crank off 2\u00a0teeth");
    const name = "Intake camshaft";
    await letGo(page, name);
    await press(page, `${name}: ${L.to_other_mark} “EX”`);
    // 142.5° on the wheel, which runs clockwise, are 19 of its teeth.
    near((await shaft(page, "cam_intake")).mark_error_teeth, -19, 1e-9, "at the other mark");
    await hold(page, name);
    assert.equal(await warnings(page), `${name} is held 142.5° before its mark.`);
    await doNext(page);
    await press(page, L.hang_in_time);
    assert.match(await page.locator(".refused").textContent(), /is [\d.]+\u00a0teeth short/);
    await press(page, L.hang_as_it_falls);
    assert.match(await told(page), /^Belt put on, with other teeth between the marks/);
    await press(page, L.bolt_up);
    await press(page, L.bring_forward);
    for (const each of ["Exhaust camshaft", name]) await letGo(page, each);
    await inTask(page, L.two_turns_forward);
    near((await shaft(page, "cam_intake")).mark_error_teeth, -19, 1e-6, "its true mark");
    assert.match(
      await standing(page),
      /Intake camshaft is 17\u00a0teeth behind: 255° of crank late\./,
    );
    await press(page, L.pull_pin);
    await inTask(page, L.two_turns_forward);
    const end = (await page.locator("task-fitting .finished").textContent()).trim();
    assert.equal(end, L.done_but_out, "every step done, and yet no cover goes on");
    await task(page, L.two_turns);
    assert.equal(await words(page, "shafts.cam_intake.mark_error_teeth"), "19\u00a0teeth before");
    // The crank was backed off two teeth, and the belt went on just there.
    await reads(page, "shafts.cam_intake.ahead_teeth", -19 + 2);
    assert.equal(await words(page, "shafts.cam_intake.ahead_teeth"), "17\u00a0teeth behind");
    assert.equal(await words(page, "shafts.cam_exhaust.ahead_teeth"), "2\u00a0teeth ahead");
  });

  prove("turned back with the pin out, and what the spring holds against it", {}, async (page) => {
    await task(page, L.fitting);
    // What the spring puts on the belt: its force over how much path a mm of its travel takes up.
    const { travel } = (await moment(page)).tensioner;
    const by = 0.01;
    await page.evaluate(
      (to) => globalThis.bench.act({ tensioner_to: { travel: to } }),
      travel - by,
    );
    await settled(page);
    const rate = (await slack(page, OWN)) / by;
    await press(page, L.undo);
    const moment_n_m = ((FORCE_N / rate) * (CRANK * PITCH)) / (2 * Math.PI) / 1000;
    assert.equal(await warnings(page), "");
    await press(page, back(L.one_tooth));
    const [, said] = (await warnings(page)).match(
      /^Turned back with the pin out: .* at about (\d+)\u00a0N·m on the crank \(an estimate/,
    );
    near(Number(said), moment_n_m, 0.51, "the moment at which the spring gives way");
    await press(page, forward(L.one_tooth));
    assert.equal(await warnings(page), "", "forward again, it is past");
  });

  for (const [more, row] of [
    [1, 3],
    [-1, 1],
  ]) {
    const what = more > 0 ? "more" : "fewer";
    prove(
      `a tooth ${what} in the pulled run lands the crank where it was said`,
      {},
      async (page) => {
        await task(page, L.fitting);
        const lands = await figure(page, `fitting.landing.${row}.crank_lands_teeth`);
        const teeth = await figure(page, `fitting.landing.${row}.teeth_in_pulled_run`);
        assert.equal(teeth, (await figure(page, "fitting.landing.2.teeth_in_pulled_run")) + more);
        const marks = [];
        for (const id of ["cam_left", "cam_right"]) {
          marks.push(await figure(page, `fitting.landing.${row}.marks.${id}.teeth`));
        }
        await upTo(page, "Back the crank off 2\u00a0teeth");
        await letGo(page, RIGHT);
        await press(page, `${RIGHT}: ${L.to_its_mark}`);
        await hold(page, RIGHT);
        await doNext(page);
        const run = `${RIGHT} → Crankshaft`;
        await press(page, `${run}: ${more > 0 ? L.one_more : L.one_fewer}`);
        const output = page.getByRole("group", { name: run, exact: true }).locator("output");
        assert.equal(await output.textContent(), String(teeth));
        await press(page, L.hang_so);
        assert.match(await told(page), /^Belt put on, with other teeth between the marks/);
        await inTask(page, L.bring_forward);
        near((await shaft(page, "crank")).mark_error_teeth, lands, 1e-6, "with the tensioner back");
        await press(page, L.bolt_up);
        await inTask(page, L.bring_forward);
        near((await shaft(page, "crank")).mark_error_teeth, lands, 1e-6, "with it bolted up");
        // Tight, and with the crank on its own mark, the others read as the table says.
        for (const name of [LEFT, RIGHT]) await letGo(page, name);
        await press(page, L.pull_pin);
        for (const [i, id] of ["cam_left", "cam_right"].entries()) {
          const { shafts } = await moment(page);
          const apart = shafts[i + 1].mark_error_teeth - shafts[0].mark_error_teeth;
          near(apart, marks[i], 1e-6, id);
        }
        const way = more > 0 ? "behind: 15° of crank late" : "ahead: 15° of crank early";
        assert.equal(
          (await standing(page)).trim(),
          `${LEFT} is 1\u00a0tooth ${way}. ${RIGHT} is 1\u00a0tooth ${way}.`,
        );
      },
    );
  }

  prove("hanging that draws a shaft along says so", {}, async (page) => {
    await task(page, L.fitting);
    await upTo(page, "Hang the belt, counted");
    const before = (await moment(page)).crank_deg;
    await press(page, `${RIGHT} → Crankshaft: ${L.one_more}`);
    await press(page, L.hang_so);
    const by = (await moment(page)).crank_deg - before;
    assert(by > 1, "the run that leaves the crank is too short, and draws it forward");
    assert(
      (await told(page)).endsWith(`The belt draws along: Crankshaft ${by.toFixed(1)}° forward.`),
    );
  });

  prove("held shafts stop the crank, and the page says which", {}, async (page) => {
    await task(page, L.fitting);
    for (const [name, turn] of [
      [RIGHT, forward(L.one_tooth)],
      [LEFT, back(L.one_tooth)],
    ]) {
      await hold(page, LEFT);
      await hold(page, RIGHT);
      await press(page, turn);
      assert.match(await told(page), /there the belt is tight, and .* is held\.$/);
      assert((await told(page)).includes(`${name} is held.`), await told(page));
      near((await moment(page)).crank_deg, 0, 1e-6, "the crank");
      while (await page.getByRole("button", { name: L.undo, exact: true }).isEnabled()) {
        await press(page, L.undo);
      }
    }
    await hold(page, "Crankshaft");
    await press(page, forward(L.one_tooth));
    assert.match(
      await page.locator(".refused").textContent(),
      /crank.* is held\. Let it go first\./,
    );
  });

  prove("the tensioner leaves no room for a belt to come off", {}, async (page) => {
    await task(page, L.fitting);
    const before = await moment(page);
    await press(page, L.take_off);
    assert.match(await page.locator(".refused").textContent(), /Draw the tensioner back first\./);
    assert.deepEqual(await moment(page), before);
    assert.equal(await next(page), "Hold the shafts on their marks");
    const { names } = await wholeOrder(page, () => doNext(page));
    assert.equal(names.length, 11);
  });
});
