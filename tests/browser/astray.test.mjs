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
const HOLD = "Hold the shafts on their marks";
const BACK_OFF = "Back the crank off 2\u00a0teeth";
const TAKE_UP = "Bring the crank forward until tight";
const BOLT_UP = "Bolt the tensioner up";
const TWICE = "Turn it over twice, read the marks";
const TWICE_AGAIN = "Turn it over twice again, read again";
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
    await upTo(page, TWICE);
    const bolted = (await moment(page)).crank_deg;
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
      await upTo(page, TAKE_UP);
      await hold(page, "Crankshaft");
      await press(page, L.bolt_up);
      const [own, into] = [await slack(page, OWN), await slack(page, INTO)];
      assert.match(await told(page), /it goes no further, since the belt is tight between shafts/);
      const said = `Slack in the wrong run: ${into.toFixed(1)}\u00a0mm, 2\u00a0teeth, from ${RIGHT} to Crankshaft`;
      assert((await warnings(page)).includes(said), await warnings(page));
      assert((await warnings(page)).includes("read no mark before"));
      await inTask(page, L.bring_forward);
      assert.match(
        await page.locator(".refused").textContent(),
        /^“Crankshaft” is held\. Let it go first\.$/,
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
    assert.match(hands[1], /teeth behind\b/);
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
    await upTo(page, BACK_OFF);
    const before = (await shaft(page, "cam_left")).turned_deg;
    await letGo(page, LEFT);
    const moved = (await shaft(page, "cam_left")).turned_deg - before;
    // As far as half a lobe's flank from the mark; the best tooth had it a little off that.
    const { mark_error_teeth } = await shaft(page, "cam_left");
    near((mark_error_teeth * 360) / CAM, -20, 1e-9, "half a lobe's flank from its mark");
    assert(Math.abs(moved + 20) > 0.1 && Math.abs(moved + 20) < 1, `${moved}`);
    assert.equal(
      await told(page),
      `${LEFT} let go. Nothing holds ${LEFT}: its valve springs turn it ${(-moved).toFixed(1)}° back.`,
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
    await upTo(page, BACK_OFF);
    const name = "Intake camshaft";
    await letGo(page, name);
    await press(page, `${name}: ${L.to_other_mark} “EX”`);
    // 142.5° on the wheel, which runs clockwise, are 19 of its teeth.
    near((await shaft(page, "cam_intake")).mark_error_teeth, -19, 1e-9, "at the other mark");
    await hold(page, name);
    assert.deepEqual((await warnings(page)).split("\n"), [
      `${name} stands 142.5° from its mark with no belt to keep it in step: on an engine valves may meet pistons. Stop, and bring it back the way it came.`,
      `${name} is held on “EX”, a mark that does not count here. Bring its own mark up.`,
    ]);
    assert.equal(await next(page), HOLD, "held so, it does not count as held");
    await press(page, L.back_off_button);
    await press(page, L.hang_in_time);
    assert.match(await page.locator(".refused").textContent(), /is [\d.]+\u00a0teeth short/);
    await press(page, L.hang_as_it_falls);
    assert.match(await told(page), /^Belt put on, with other teeth between the marks/);
    await press(page, L.bring_forward);
    assert.doesNotMatch(await warnings(page), /Not in time/);
    await press(page, L.bolt_up);
    // The crank was backed off two teeth, and the belt went on just there.
    const notInTime =
      /^Not in time: Exhaust camshaft 2\u00a0teeth ahead and Intake camshaft 17\u00a0teeth behind\. /;
    assert.match(await warnings(page), notInTime);
    for (const each of ["Exhaust camshaft", name]) await letGo(page, each);
    // 17 teeth late, the intake valves are in the pistons' way.
    await inTask(page, L.two_turns_forward);
    assert.match(
      await told(page),
      /it stops hard: an intake valve of cylinder \d \(Intake camshaft\)/,
    );
    assert((await moment(page)).crank_deg < 360);
    assert.match(
      await standing(page),
      /Intake camshaft is 17\u00a0teeth behind: 255° of crank late\./,
    );
    await press(page, L.pull_pin);
    assert.match(await warnings(page), notInTime);
    await inTask(page, L.two_turns_forward);
    assert.equal(await page.locator("task-fitting .finished").count(), 0, "no cover goes on");
    await task(page, L.two_turns);
    await reads(page, "shafts.cam_intake.ahead_teeth", -19 + 2);
    assert.equal(await words(page, "shafts.cam_intake.ahead_teeth"), "17\u00a0teeth behind");
    assert.equal(await words(page, "shafts.cam_exhaust.ahead_teeth"), "2\u00a0teeth ahead");
  });

  for (const more of [1, -1]) {
    const way = more > 0 ? "behind" : "ahead";
    prove(`hung a tooth out, both camshafts ${way}: no step passes it`, {}, async (page) => {
      await task(page, L.fitting);
      await upTo(page, BACK_OFF);
      await letGo(page, RIGHT);
      await press(page, `${RIGHT}: ${L.to_its_mark}`);
      await hold(page, RIGHT);
      await doNext(page);
      await press(page, `${RIGHT} → Crankshaft: ${more > 0 ? L.one_more : L.one_fewer}`);
      await press(page, L.hang_so);
      const covers = () => page.locator("task-fitting .finished").count();
      const told = `Not in time: ${LEFT} 1\u00a0tooth ${way} and ${RIGHT} 1\u00a0tooth ${way}. Turn it over no further and leave the pin in`;
      assert(!(await warnings(page)).includes("Not in time"), "nothing is up yet");
      await doNext(page);
      assert(!(await warnings(page)).includes("Not in time"), "nothing is up yet");
      await press(page, L.bolt_up);
      assert((await warnings(page)).startsWith(told), await warnings(page));
      for (const name of [LEFT, RIGHT]) await letGo(page, name);
      // Held dead on its mark, one camshaft kept the tensioner from its place.
      assert.equal(await next(page), BOLT_UP);
      await doNext(page);
      assert((await warnings(page)).startsWith(told), await warnings(page));
      assert.equal(await next(page), TWICE);
      // A tooth is survived: it turns, as often as anybody likes, and that is no step done.
      for (let turns = 2; turns <= 4; turns += 2) {
        const before = (await moment(page)).crank_deg;
        await doNext(page);
        const after = (await moment(page)).crank_deg;
        assert(after - before >= 720 && after - before < 1080, `${before} to ${after}`);
        assert.equal(after % 360, 0, "to the crank's mark");
        assert.equal(await next(page), TWICE, "read, the marks are wrong");
        assert((await warnings(page)).startsWith(told), await warnings(page));
        assert.equal(await covers(), 0);
      }
      await press(page, L.pull_pin);
      assert((await warnings(page)).startsWith(told), await warnings(page));
      await doNext(page);
      assert.equal(await next(page), TWICE_AGAIN);
      assert.equal(await covers(), 0);
      // Put right, it is passed.
      await inTask(page, L.right_back);
      assert(!(await warnings(page)).includes("Not in time"), "nothing is up any more");
    });
  }

  prove(
    "held dead on their marks, the camshafts keep no step from being done",
    {},
    async (page) => {
      await task(page, L.fitting);
      await upTo(page, BACK_OFF);
      for (const name of [LEFT, RIGHT]) {
        await letGo(page, name);
        await press(page, `${name}: ${L.to_its_mark}`);
        await hold(page, name);
      }
      // The best tooth leaves something at each: the belt is tight between them before the pin's place.
      await upTo(page, "Bolt the tensioner up");
      await doNext(page);
      assert.match(await told(page), /it goes no further, since the belt is tight between shafts/);
      await wholeOrder(page, () => doNext(page));
      assert.equal(await page.locator("task-fitting .finished").count(), 1);
      for (const { slack_mm } of (await moment(page)).runs) assert.equal(slack_mm, 0);
    },
  );

  for (const [title, motion] of [
    ["three teeth late a valve stops the crank, a tooth less and none does", "reduce"],
    ["seen to run, the crank stops where the valve is", "no-preference"],
  ]) {
    prove(title, { reducedMotion: motion }, async (page) => {
      for (let i = 0; i < 4; i += 1) await press(page, forward(L.one_tooth));
      near((await moment(page)).crank_deg, 60, 1e-9, "where no valve is near a piston");
      await task(page, L.what_if);
      for (let i = 0; i < 3; i += 1) await press(page, `${LEFT}: ${L.tooth_behind}`);
      await task(page, L.fitting);
      const before = await moment(page);
      // Cylinder 5 fires at 480: its exhaust closes as it comes up to 480 − 360, and that comes 45° late.
      const hard =
        /^Crank turned to ([\d.]+)°; it stops hard: an exhaust valve of cylinder 5 \(Left camshaft\) is against its piston, by the layout's figures\./;
      await press(page, forward(L.one_turn));
      const stopped = await moment(page);
      const [, at] = (await told(page)).match(hard);
      near(Number(at), stopped.crank_deg, 0.051, "what was told");
      assert(stopped.crank_deg > 60 && stopped.crank_deg < 120, `${stopped.crank_deg}`);
      near(
        stopped.shafts[1].turned_deg - before.shafts[1].turned_deg,
        (stopped.crank_deg - 60) / 2,
        1e-6,
        LEFT,
      );
      // There it stands, however often and by whatever it is tried.
      for (const again of [
        () => press(page, forward(L.one_turn)),
        () => press(page, forward(L.one_tooth)),
        () => inTask(page, L.two_turns_forward),
      ]) {
        await again();
        assert.match(await told(page), /it stops hard/);
        near((await moment(page)).crank_deg, stopped.crank_deg, 1e-4, "it goes no further");
        near(await figure(page, "crank_deg"), stopped.crank_deg, 1e-4, "and the reading neither");
        await press(page, L.undo);
      }
      await press(page, back(L.one_tooth));
      near((await moment(page)).crank_deg, stopped.crank_deg - TOOTH_DEG, 1e-6, "the way it came");
      for (let i = 0; i < 3; i += 1) await press(page, L.undo);
      if (motion !== "reduce") return;
      // A tooth less, and it clears.
      assert.match(await standing(page), /Left camshaft is 2\u00a0teeth behind/);
      await inTask(page, L.two_turns_forward);
      assert.equal(await told(page), "Crank turned to 780°.");
      near((await moment(page)).crank_deg, 780, 1e-9, "two whole turns");
    });
  }

  prove("with its pin out the tensioner takes up what comes within its reach", {}, async (page) => {
    await task(page, L.fitting);
    await upTo(page, TAKE_UP);
    await hold(page, "Crankshaft");
    await press(page, L.bolt_up);
    await press(page, L.pull_pin);
    const stood = (await moment(page)).tensioner.travel;
    assert((await slack(page, INTO)) > 1, "slack is where no tensioner reaches");
    await letGo(page, "Crankshaft");
    const { crank_deg, tensioner } = await moment(page);
    assert(tensioner.travel > stood + 1, `${stood} and then ${tensioner.travel}`);
    assert.equal(
      await told(page),
      `Crankshaft let go. The belt draws along: Crankshaft ${(crank_deg + 30).toFixed(0)}° forward. The tensioner takes up what it can, to ${tensioner.travel.toFixed(1)}\u00a0mm of travel.`,
    );
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
        await upTo(page, BACK_OFF);
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
      /^“Crankshaft” is held\. Let it go first\.$/,
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
