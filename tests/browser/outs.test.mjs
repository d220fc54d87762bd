// Shafts put teeth out, and slack: degrees from tooth counts, and slack from the report, from run to
// run as the crank is turned. What is expected is worked out here.
import assert from "node:assert/strict";
import {
  back,
  button,
  figure,
  forward,
  inEngines,
  keys,
  L,
  near,
  pose,
  poseText,
  press,
  reads,
  report,
  settled,
  task,
  words,
} from "./working.mjs";

const TEETH = { crank: 24, cam_left: 48, cam_right: 48 };
const NAMES = { crank: "Crankshaft", cam_left: "Left camshaft", cam_right: "Right camshaft" };
const CAMS = ["cam_left", "cam_right"];
/** One tooth, in crank degrees: the same at every sprocket. */
const CRANK_DEG = 360 / TEETH.crank;
const PITCH = 9.525;
const RUNS = ["crank>cam_left", "cam_left>cam_right", "cam_right>crank"];
/** The tensioner stands between the crank and the left camshaft, the next along the travel. */
const OWN = "crank>cam_left";
const INTO_CRANK = "cam_right>crank";

const lead = async (page) => (await page.locator("task-what-if .lead").textContent()).trim();
const behind = (page, id) => press(page, `${NAMES[id]}: ${L.tooth_behind}`);
const ahead = (page, id) => press(page, `${NAMES[id]}: ${L.tooth_ahead}`);

/** Fails unless the readings have these shafts so many teeth from in time, against the crank. */
async function outBy(page, teeth) {
  const { shafts } = await report(page);
  const { belt_teeth, wheels } = await pose(page);
  assert.equal(belt_teeth.length, 173);
  for (const { id, best_tooth_error_teeth } of shafts) {
    await reads(page, `shafts.${id}.out_deg`, ((teeth[id] ?? 0) * 360) / TEETH[id]);
    await reads(page, `shafts.${id}.out_crank_deg`, (teeth[id] ?? 0) * CRANK_DEG);
    // The marks as they would be seen: the crank's own stands where the crank does.
    const { mark_error_teeth } = wheels.find((wheel) => wheel.id === id);
    const seen = id === "crank" ? 0 : (teeth[id] ?? 0) + best_tooth_error_teeth;
    near(mark_error_teeth, seen, 1e-9, `${id}'s mark`);
  }
}

/** Slack of every run, from the readings, which must be the pose's; and their sum. */
async function slack(page) {
  const { runs } = await pose(page);
  const found = {};
  for (const { from, to, slack_mm } of runs) {
    found[`${from}>${to}`] = await figure(page, `runs.${from}>${to}.slack_mm`);
    assert.equal(found[`${from}>${to}`], slack_mm);
  }
  assert.deepEqual(Object.keys(found), RUNS);
  return found;
}

/** Fails unless all slack, so much of it, hangs in one run. */
async function allIn(page, run, mm) {
  const found = await slack(page);
  for (const each of RUNS) {
    near(found[each], each === run ? mm : 0, 1e-6, `slack in ${each}`);
    const said = await words(page, `runs.${each}.slack_mm`);
    const length = `${mm.toFixed(1)}\u00a0mm, ${(mm / PITCH).toFixed(1)}\u00a0teeth`;
    assert.equal(said, each === run ? length : "tight");
  }
}

const total = (found) => Object.values(found).reduce((sum, mm) => sum + mm, 0);

inEngines(["chromium", "firefox"], (prove, name) => {
  const inChromium = name === "chromium" ? prove : () => undefined;

  prove("one tooth on a camshaft is 7.5° of it and 15° of crank", {}, async (page) => {
    await task(page, L.what_if);
    await outBy(page, {});
    assert(await button(page, L.all_in_time).isDisabled());
    await behind(page, "cam_left");
    await reads(page, "shafts.cam_left.out_deg", -7.5, 0);
    await reads(page, "shafts.cam_left.out_crank_deg", -15, 0);
    await outBy(page, { cam_left: -1 });
    assert.equal(await words(page, "shafts.cam_left.out_deg"), "7.5°");
    assert.equal(await words(page, "shafts.cam_left.out_crank_deg"), "15° late");
    assert.equal(
      await lead(page),
      "Left camshaft 1\u00a0tooth behind: 7.5° at the shaft, 15° of crank late. Right camshaft is in time.",
    );
    await press(page, L.all_in_time);
    await outBy(page, {});
    assert.match(await lead(page), /^Every shaft is in time/);
    // The other task says the same of the drive as it stands.
    await ahead(page, "cam_right");
    await ahead(page, "cam_right");
    await task(page, L.two_turns);
    assert.equal(await words(page, "shafts.cam_right.ahead_teeth"), "2\u00a0teeth ahead");
    assert.match(await words(page, "shafts.cam_left.ahead_teeth"), /^in time\b/);
    const { shafts } = await report(page);
    const { best_tooth_error_teeth } = shafts.find(({ id }) => id === "cam_right");
    await reads(page, "shafts.cam_right.mark_error_teeth", 2 + best_tooth_error_teeth);
  });

  inChromium("every shaft's buttons both ways, up to half a turn", {}, async (page) => {
    await task(page, L.what_if);
    for (const id of CAMS) {
      for (const step of [ahead, ahead, behind, behind, behind]) await step(page, id);
      await outBy(page, { [id]: -1 });
      await ahead(page, id);
      await outBy(page, {});
    }
    const most = TEETH.crank / 2;
    await page.evaluate((crank) => globalThis.bench.act({ set_teeth: { crank } }), most);
    await settled(page);
    assert(await button(page, `Crankshaft: ${L.tooth_ahead}`).isDisabled());
    await behind(page, "crank");
    const each = -(most - 1);
    await outBy(page, { crank: most - 1, cam_left: each, cam_right: each });
    await press(page, L.all_in_time);
    await outBy(page, {});
  });

  inChromium("the crank ahead is every other shaft behind", {}, async (page) => {
    await task(page, L.what_if);
    await ahead(page, "crank");
    await outBy(page, { crank: 1, cam_left: -1, cam_right: -1 });
    assert.match(
      await lead(page),
      /^Crankshaft 1\u00a0tooth ahead: 15° of crank\. That is the same as every other shaft 1\u00a0tooth behind\./,
    );
    const crankAhead = await pose(page);
    await press(page, L.all_in_time);
    await behind(page, "cam_left");
    await behind(page, "cam_right");
    const camsBehind = await pose(page);
    for (const [i, wheel] of crankAhead.wheels.entries()) {
      const other = camsBehind.wheels[i];
      if (wheel.mark_error_teeth !== null) {
        near(wheel.mark_error_teeth, other.mark_error_teeth, 1e-9, `${wheel.id}'s mark`);
      }
    }
    // Turning over twice by hand shows it as well.
    await press(page, forward(L.one_turn));
    await press(page, forward(L.one_turn));
    await outBy(page, { cam_left: -1, cam_right: -1 });
  });

  prove("slack goes from run to run as the crank is turned", {}, async (page) => {
    const { tensioner } = await report(page);
    const all = tensioner.slack_when_back_mm;
    assert.equal(total(await slack(page)), 0);
    await press(page, L.right_back);
    await allIn(page, OWN, all);
    const hanging = `${all.toFixed(1)}\u00a0mm, ${(all / PITCH).toFixed(1)}\u00a0teeth, in the run from`;
    const sentence = page.locator("tensioner-part p").first();
    assert(
      (await sentence.textContent()).includes(`Slack: ${hanging} Crankshaft to Left camshaft.`),
    );
    // Backward, the belt goes slack where it runs into the crank, as soon as the other run is tight.
    const until = (all / PITCH) * CRANK_DEG;
    await press(page, back(L.one_tooth));
    const found = await slack(page);
    near(found[INTO_CRANK], PITCH, 1e-6, "a tooth of slack");
    near(found[OWN], all - PITCH, 1e-6, "the rest of the slack");
    near(total(found), all, 1e-6, "all slack");
    await press(page, back(L.quarter));
    await allIn(page, INTO_CRANK, all);
    // The camshafts stood until then, and were dragged from there.
    const { shafts } = await report(page);
    for (const { id, best_tooth_error_teeth } of shafts.filter(({ id }) => id !== "crank")) {
      const dragged = (until - 90 - CRANK_DEG) / CRANK_DEG + best_tooth_error_teeth;
      await reads(page, `shafts.${id}.mark_error_teeth`, dragged, 1e-6);
    }
    // Forward, where it leaves the crank.
    await press(page, forward(L.quarter));
    await allIn(page, OWN, all);
    await press(page, forward(L.one_turn));
    await allIn(page, OWN, all);
    await press(page, back(L.one_turn));
    await allIn(page, INTO_CRANK, all);
    // A camshaft turned forward draws the slack to its other side.
    await page.getByRole("button", { name: /^Left camshaft/ }).focus();
    await keys(page, "ArrowRight");
    const drawn = await slack(page);
    near(total(drawn), all, 1e-6, "all slack");
    near(drawn["cam_left>cam_right"], PITCH, 1e-6, "a tooth of slack");
  });

  prove("taking up makes it tight again, with marks where teeth put them", {}, async (page) => {
    await press(page, L.right_back);
    await press(page, back(L.quarter));
    await press(page, L.take_up);
    const { tensioner, shafts } = await report(page);
    await reads(page, "tensioner.travel", tensioner.travel, 1e-9);
    for (const run of RUNS) {
      await reads(page, `runs.${run}.slack_mm`, 0, 0);
      assert.equal(await words(page, `runs.${run}.slack_mm`), "tight");
    }
    assert.match(
      await page.locator("tensioner-part p").first().textContent(),
      /The belt is tight\./,
    );
    // The crank is harder to turn (8 N·m on 24 teeth) than both camshafts (2.5 each on 48): they give.
    await reads(page, "crank_deg", -90);
    const crank = -90 / CRANK_DEG;
    for (const { id, best_tooth_error_teeth } of shafts) {
      assert.match(await words(page, `shafts.${id}.ahead_teeth`), /^in time\b/);
      const wanted = crank + (id === "crank" ? 0 : best_tooth_error_teeth);
      await reads(page, `shafts.${id}.mark_error_teeth`, wanted, 1e-6);
    }
    await press(page, forward(L.quarter));
    for (const { id } of shafts) {
      assert.match(await words(page, `shafts.${id}.mark_error_teeth`), /^on\b/);
    }
    // A shaft hung a tooth out stays so through slack and tightening.
    await task(page, L.what_if);
    await behind(page, "cam_right");
    const before = await poseText(page);
    await press(page, L.right_back);
    await press(page, L.take_up);
    await outBy(page, { cam_right: -1 });
    const marked = (text) => JSON.parse(text).wheels.map((wheel) => wheel.mark_error_teeth);
    for (const [i, error] of marked(await poseText(page)).entries()) {
      if (error !== null) near(error, marked(before)[i], 1e-6, "a mark");
    }
  });

  inChromium("the tensioner's slider stops where the belt is tight", {}, async (page) => {
    const slider = page.getByRole("slider", { name: /^Tensioner travel/ });
    const { tensioner } = await report(page);
    await slider.focus();
    await keys(page, "Home");
    await reads(page, "tensioner.travel", -38);
    near(total(await slack(page)), tensioner.slack_when_back_mm, 1e-6, "all slack");
    let before = tensioner.slack_when_back_mm;
    for (let i = 0; i < 5; i += 1) {
      await keys(page, "PageUp");
      const now = total(await slack(page));
      assert(now < before, `further out is tighter: ${now}, ${before}`);
      before = now;
    }
    await keys(page, "End");
    await reads(page, "tensioner.travel", tensioner.travel);
    assert.equal(total(await slack(page)), 0);
    await keys(page, "Control+z", "Control+z", "Control+z", "Control+z", "Control+z", "Control+z");
    await reads(page, "tensioner.travel", -38);
  });
});
