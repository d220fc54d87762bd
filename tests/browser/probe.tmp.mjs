import { openCore } from "./parity.mjs";
const core = await openCore();
const wb = new core.Workbench("en", false);
const small = (teeth) => `format = 1
title = "One camshaft"
crank_turns = "clockwise"

[belt]
teeth = ${teeth}
pitch_mm = 8.0
thickness_mm = 5.2
tooth_height_mm = 3.2
pitch_line_differential_mm = 0.7
width_mm = 20.0
tensile_stiffness_n = 300000.0
mass_kg_per_m = 0.08

[[wheel]]
id = "crank"
name = "Crank sprocket"
role = "crank"
face = "toothed"
teeth = 20
at_mm = [0.0, 0.0]
mark = { cover_clock_deg = 180.0, on = "groove" }
friction_n_m = 5.0

[[wheel]]
id = "roller"
name = "Roller"
role = "tensioner"
face = "back"
outside_diameter_mm = 50.0
at_mm = [-52.0, 120.0]
friction_n_m = 0.05

[[wheel]]
id = "cam"
name = "Camshaft sprocket"
role = "camshaft"
face = "toothed"
teeth = 40
at_mm = [0.0, 260.0]
mark = { cover_clock_deg = 90.0, on = "groove" }
friction_n_m = 2.0

[tensioner]
wheel = "roller"
kind = "slide"
tightening_clock_deg = 90.0
travel_mm = [-4.0, 25.0]
pinned_mm = 0.0
force_n = 250.0
`;
for (let n = 92; n < 104; n++) {
  const t=performance.now();
  const {problems} = wb.open(new TextEncoder().encode(small(n)));
  console.log(n, problems.length ? problems : JSON.parse(wb.reportJson()).tensioner);
}
for (const bytes of [new Uint8Array([0x66,0x6f,0xff,0xfe,0x80]), new Uint8Array(0), new TextEncoder().encode("# x\n".repeat(3e6)), new TextEncoder().encode("a = 1\n".repeat(2e5)), new TextEncoder().encode("[".repeat(1e6)), new TextEncoder().encode("x = " + "[".repeat(1e5))]) {
  const t=performance.now();
  try { const {problems} = wb.open(bytes);
  console.log(bytes.length, problems.length, problems.slice(0,3), Math.round(performance.now()-t), "ms"); } catch (e) { console.log("TRAP", bytes.length, e); }
}
