// The page's hold on the program: passes actions on, tells everybody when something changed, and drives
// the frames. Keeps no copy of the program's truth beyond what it last said.
import {
  type Action,
  type AddsUpPart,
  type ArrangementPart,
  type BeltOffPart,
  type ClassAnswer,
  type DemonstrationRow,
  type EnginePart,
  type ExercisePart,
  type Filled,
  type FormRow,
  type Held,
  type Labels,
  type Left,
  type LessonPart,
  type Opened,
  type Panel,
  type ProblemLine,
  type StartedPart,
  type Told,
  Workbench,
} from "../generated/page.js";
import { readPalette } from "./palette.ts";
import { keepPreferences, type Preferences, readPreferences } from "./preferences.ts";

/** Readings go to the page at most this often while something moves, ms. */
const READINGS_EVERY_MS = 100;

/** From one step of a replay to the next, ms. */
const REPLAY_EVERY_MS = 900;

/** The document that the layout is, as it stands. */
export interface Sheet {
  /** Which one: every layout opened is one of its own. */
  number: number;
  title: string;
  /** The text of the layout on the bench. */
  layout: string;
  /** The text as it is being written. */
  written: string;
  /** How the job on the layout stands; nothing after the program has stopped. */
  left?: Left;
}

/**
 * Events: `panel` (the readings changed), `paint` (the picture changed), `labels` (language, units or
 * theme), `palette` (the colours changed), `layout` (another layout is on the bench), `draft` (a typed layout is sketched or given up), `told` (with a sentence), `stopped` (the program
 * has stopped; only its layout text is left), `moved` (a wheel was moved to another place), `opened` (a
 * layout was opened in place of the one before, not written on from it), `look` (a demonstration looks
 * somewhere else), `settle` (whoever has something typed and not handed on hands it on now).
 */
export class Bench extends EventTarget {
  readonly preferences: Preferences;
  labels: Labels;
  panel: Panel;
  /** Text of the layout on the bench; what is left to copy after the program has stopped. */
  layoutText: string;
  /** The layout's text as it is being written, and what is wrong with it. */
  draftText: string;
  draftProblems: ProblemLine[] = [];
  /** Titles of the layouts that ship. */
  shipped: string[];
  picked = -1;
  /** What was said last of something done. */
  lastTold = "";
  /** Whether the belt's teeth are shown counted. */
  counted = false;
  /** The layout's text, as it is being written, as a form. */
  form(): FormRow[] {
    return this.#call((core) => core.form())?.rows ?? [];
  }

  /** How what is typed into a field would be understood. */
  understand(path: string, texts: string[]): Filled {
    return this.#call((core) => core.understand(path, texts)) ?? { done: false, text: "" };
  }

  /** Fills a field of the form in. */
  fill(path: string, texts: string[]): Filled {
    const filled = this.#call((core) => core.fill(path, texts)) ?? { done: false, text: "" };
    if (filled.done) this.#otherLayout();
    return filled;
  }

  addEntry(list: string, at: number): void {
    if (this.#call((core) => core.addEntry(list, at))) this.#otherLayout();
  }

  removeAt(path: string): void {
    if (this.#call((core) => core.removeAt(path))) this.#otherLayout();
  }

  moveEntry(list: string, from: number, to: number): void {
    if (this.#call((core) => core.moveEntry(list, from, to))) this.#otherLayout();
  }

  /** The demonstration on the bench, while there is one. */
  lesson: LessonPart | undefined;
  /** The blind exercise on the bench, while there is one. */
  exercise: ExercisePart | undefined;
  /** Whether a hand in the view moves wheels to other places. */
  arranging = false;
  readonly #first: string;
  #shown = "";
  #replay: ReturnType<typeof setTimeout> | undefined;
  /** Steps that a replay has still before it. */
  #toReplay = 0;
  #core: Workbench;
  #frame = 0;
  #last = 0;
  #running = false;
  #readAt = 0;
  #dirty = false;
  /** Whether a wheel was moved since the readings were last read. */
  #arranged = false;
  #stopped = false;
  #probe: HTMLElement | undefined;
  #engine: EnginePart | undefined;

  constructor() {
    super();
    this.preferences = readPreferences();
    this.#core = new Workbench(this.preferences.lang, this.preferences.inch);
    this.labels = this.#core.labels();
    this.panel = this.#core.panel(false, false);
    this.layoutText = this.#core.layoutText();
    this.draftText = this.layoutText;
    this.#first = this.layoutText;
    this.shipped = this.#titles();
  }

  get running(): boolean {
    return this.#running;
  }

  #titles(): string[] {
    const count = Workbench.shippedCount();
    return Array.from(
      { length: count },
      (_, i) => this.#call((core) => core.shippedTitle(i)) ?? "",
    );
  }

  /** Every call into the program goes through here: a trap ends the page's hold on it. */
  #call<T>(what: (core: Workbench) => T): T | undefined {
    if (this.#stopped) return undefined;
    try {
      return what(this.#core);
    } catch (problem) {
      this.#stopped = true;
      this.#running = false;
      cancelAnimationFrame(this.#frame);
      this.dispatchEvent(new Event("stopped"));
      throw problem;
    }
  }

  act(action: Action, goesOn = false): void {
    this.#endReplay();
    this.#tell(this.#call((core) => core.act(action, goesOn)));
  }

  /** Does actions one after the other as one step, up to the first that cannot be done. */
  actAll(actions: Action[]): void {
    this.#endReplay();
    const all: Told = { done: true, text: "", stopped: false, other_layout: false };
    for (const [i, action] of actions.entries()) {
      const told = this.#call((core) => core.act(action, i > 0));
      if (!told) return;
      all.done = told.done;
      all.text = `${all.text} ${told.text}`.trim();
      if (!told.done) break;
    }
    if (actions.length > 0) this.#tell(all);
  }

  undo(): void {
    this.#endReplay();
    const told = this.#call((core) => core.undo());
    if (told?.done) this.#tell({ ...told, text: `${this.labels.undo}: ${told.text}` });
  }

  redo(): void {
    this.#endReplay();
    this.#tellUndone(this.#call((core) => core.redo()));
  }

  #tellUndone(told: Told | undefined): void {
    if (told?.done) this.#tell({ ...told, text: `${this.labels.redo}: ${told.text}` });
  }

  /** Back to how the layout was put on the bench; redo does everything again. */
  rewind(): void {
    this.#endReplay();
    this.#call((core) => core.rewind());
    this.lastTold = "";
    this.#running = false;
    this.#changed(true);
  }

  /** From the beginning, step by step, until it is where it was or something else is done. */
  replay(): void {
    this.#endReplay();
    this.#toReplay = this.#call((core) => core.rewind()) ?? 0;
    this.#running = false;
    this.#changed(true);
    const next = (): void => {
      if (this.#toReplay === 0) return;
      this.#toReplay -= 1;
      this.#tellUndone(this.#call((core) => core.redo()));
      if (this.#toReplay > 0) this.#replay = setTimeout(next, REPLAY_EVERY_MS);
    };
    this.#replay = setTimeout(next, REPLAY_EVERY_MS);
  }

  #endReplay(): void {
    clearTimeout(this.#replay);
    this.#toReplay = 0;
  }

  /** What is on the bench is about to be put aside: a replay under way is at its end at once, and nothing of it
   * stays in view. */
  #putAside(): void {
    if (this.counted) this.showCounts(false);
    for (let left = this.#toReplay; left > 0; left -= 1) this.#call((core) => core.redo());
    this.#endReplay();
  }

  /** Which task is shown, so that its own readings are wanted. */
  show(task: string): void {
    if (this.#shown === task) return;
    this.#shown = task;
    this.#readNow();
  }

  /** The exponent of cranking pressures; 0 for a range. */
  setExponent(exponent: number): void {
    this.#call((core) => core.setExponent(exponent));
    this.#changed(true);
  }

  /** Assumes a range for one of the panel's assumptions. */
  assume(place: number, low: number, high: number): void {
    this.#call((core) => core.assume(place, low, high));
    this.#changed(true);
  }

  /** Takes a wheel to seize, by index; below 0 none. */
  supposeSeized(wheel: number): void {
    this.#call((core) => core.supposeSeized(wheel));
    this.#changed(true);
  }

  /** Looks at the marks so many degrees off square; 0 is square again. */
  setSight(deg: number): void {
    this.#call((core) => core.setSight(deg));
    this.#changed(true);
  }

  /** What may be turned with the belt off, and a way back to the marks. */
  beltOff(): BeltOffPart | undefined {
    return this.#call((core) => core.beltOff()) ?? undefined;
  }

  /** Shows the belt's teeth counted, or no longer. */
  showCounts(counted: boolean): void {
    this.counted = counted;
    this.#call((core) => core.showCounts(counted));
    this.#changed(true);
  }

  /** Where tags of these sizes with the counts go; empty while they are not shown. */
  countTags(sizes: number[]): Float64Array {
    return this.#call((core) => core.countTags(new Float64Array(sizes))) ?? new Float64Array();
  }

  /** Where the letters of marks that are not the timing mark go, px: x and y one after the other. */
  letterTags(): Float64Array {
    return this.#call((core) => core.letterTags()) ?? new Float64Array();
  }

  runBy(deg: number): void {
    this.#run(this.#call((core) => core.runBy(deg, still())));
  }

  runTo(deg: number): void {
    this.#run(this.#call((core) => core.runTo(deg, still())));
  }

  stopRun(): void {
    this.#call((core) => core.stopRun());
    this.#running = false;
    this.#changed(true);
  }

  /** Puts one of the layouts that ship on the bench. */
  openShipped(index: number): void {
    this.openText(Workbench.shippedText(index));
  }

  /** Opens a layout's text, which is sound. */
  openText(text: string): void {
    this.open(new TextEncoder().encode(text));
  }

  /** Opens a layout file's bytes; gives its problems, none if it is on the bench now. */
  open(bytes: Uint8Array): Opened {
    return this.#opened(this.#call((core) => core.open(bytes)));
  }

  /** The same with what a link brings, which need not be sound yet to be gone on with. */
  openLinked(bytes: Uint8Array): Opened {
    return this.#opened(this.#call((core) => core.openLinked(bytes)));
  }

  #opened(opened: Opened = { problems: [] }): Opened {
    if (opened.problems.length === 0) {
      this.#otherLayout();
      this.dispatchEvent(new Event("opened"));
    }
    return opened;
  }

  /** Puts the layout that the page begins with on the bench. */
  startAfresh(): void {
    this.openText(this.#first);
  }

  /**
   * Puts a layout that was kept on the bench, the job on it as it was left, and beside it the text as it was
   * being written. Whether the job stands as it was left; if not, it stands in time on its marks.
   */
  restore({ layout, written, left }: Pick<Sheet, "layout" | "written" | "left">): boolean {
    this.#call((core) => core.open(new TextEncoder().encode(layout)));
    const stands = left !== undefined && this.#call((core) => core.takeUpLeft(left)) === true;
    if (written !== layout) this.#call((core) => core.edit(written, false));
    this.#otherLayout();
    return stands;
  }

  /** The document on the bench, or put aside while something is shown in its place. */
  sheet(): Sheet {
    const { layoutText: layout, draftText: written } = this;
    const number = this.#call((core) => core.sheet()) ?? -1;
    const title = this.#call((core) => core.layoutTitle()) ?? "";
    const left = this.#call((core) => core.left());
    return { number, title, layout, written, ...(left && { left }) };
  }

  /** Has everything that is typed handed on at once. */
  settle(): void {
    this.dispatchEvent(new Event("settle"));
  }

  /** Whether a text is that of a layout that ships. */
  isShipped(text: string): boolean {
    return this.shipped.some((_, i) => Workbench.shippedText(i) === text);
  }

  /** The drive as it stands, as an SVG file. */
  svg(): string {
    return this.#call((core) => core.svg()) ?? "";
  }

  /** When something was kept, as the reader writes it. */
  when(ms: number): string {
    return new Date(ms).toLocaleString(this.preferences.lang, {
      dateStyle: "medium",
      timeStyle: "short",
    });
  }

  /** Takes the layout's text as it is written: a sound one is on the bench at once, another one is kept beside it. */
  edit(text: string, goesOn: boolean): void {
    this.draftText = text;
    this.#call((core) => core.edit(text, goesOn));
    this.#otherLayout();
  }

  /** Whether a text that makes no sound drive yet is sketched in place of the bench. */
  sketch(on: boolean): void {
    const sketched = this.panel.draft !== null;
    this.#call((core) => core.sketch(on));
    this.#readNow();
    if (!sketched && this.panel.draft === null) return;
    this.dispatchEvent(new Event("draft"));
    this.#changed(true);
  }

  /** Index of the wheel with this id in what is shown; −1 if there is none. */
  wheelIndex(id: string | null | undefined): number {
    return (this.panel.draft?.wheels ?? this.panel.wheels).findIndex((wheel) => wheel.id === id);
  }

  paintShipped(
    index: number,
    canvas: CanvasRenderingContext2D,
    width: number,
    height: number,
    density: number,
  ): void {
    this.#call((core) => core.paintShipped(index, canvas, width, height, density));
  }

  /** The arrangements that a layout can be started from. */
  arrangements(): ArrangementPart[] {
    return this.#call((core) => core.arrangements())?.all ?? [];
  }

  /** What comes of three counts as they were typed; nothing is put on the bench. */
  startFrom(arrangement: number, typed: string[]): StartedPart | undefined {
    return this.#call((core) => core.startFrom(arrangement, typed)) ?? undefined;
  }

  paintArrangement(
    index: number,
    canvas: CanvasRenderingContext2D,
    width: number,
    height: number,
    density: number,
  ): void {
    this.#call((core) => core.paintArrangement(index, canvas, width, height, density));
  }

  /** Whether the text being written adds up; nothing where it cannot be read. */
  addsUp(): AddsUpPart | undefined {
    return this.#call((core) => core.addsUp()) ?? undefined;
  }

  #otherLayout(): void {
    this.#endReplay();
    this.layoutText = this.#call((core) => core.layoutText()) ?? this.layoutText;
    this.draftText = this.#call((core) => core.writtenText()) ?? this.draftText;
    this.draftProblems = this.#call((core) => core.writtenProblems())?.problems ?? [];
    this.picked = -1;
    this.lastTold = "";
    this.#running = false;
    this.#readNow();
    this.dispatchEvent(new Event("layout"));
    this.#changed(true);
  }

  prefer(change: Partial<Preferences>): void {
    Object.assign(this.preferences, change);
    keepPreferences(this.preferences);
    const { lang, inch } = this.preferences;
    this.#call((core) => core.setReader(lang, inch));
    this.labels = this.#call((core) => core.labels()) ?? this.labels;
    this.shipped = this.#titles();
    // What was said last was said in other words.
    this.lastTold = "";
    this.draftProblems = this.#call((core) => core.writtenProblems())?.problems ?? [];
    this.#readNow();
    this.dispatchEvent(new Event("labels"));
    this.#changed(true);
  }

  pick(wheel: number): void {
    this.picked = wheel;
    this.#call((core) => core.pick(wheel));
    this.#changed(true);
  }

  grab(x: number, y: number): Held | undefined {
    return this.#call((core) => core.grab(x, y)) ?? undefined;
  }

  dragTo(x: number, y: number, goesOn: boolean): void {
    this.#endReplay();
    const told = this.#call((core) => core.dragTo(x, y, goesOn));
    if (!told) return;
    this.#running = false;
    // Under a hand only what stops it is worth a word.
    if (told.stopped && told.text !== this.lastTold) this.#tell(told);
    else this.#changed(false);
  }

  /** Whether a hand in the view moves wheels to other places. */
  arrange(on: boolean): void {
    this.arranging = on;
    this.dispatchEvent(new Event("labels"));
  }

  /** Takes hold of the wheel at a point of the view to move it; −1 if there is none. */
  takeWheel(x: number, y: number): number {
    return this.#call((core) => core.takeWheel(x, y)) ?? -1;
  }

  moveWheelTo(x: number, y: number, goesOn: boolean): void {
    this.#moved(this.#call((core) => core.moveWheelTo(x, y, goesOn)));
  }

  nudgeWheel(wheel: number, rightMm: number, upMm: number): void {
    this.#moved(this.#call((core) => core.nudgeWheel(wheel, rightMm, upMm)));
  }

  /** A wheel is elsewhere: the view stays as it is. */
  #moved(opened: Opened | undefined): void {
    if (!opened) return;
    this.#endReplay();
    this.#running = false;
    this.draftProblems = opened.problems;
    this.draftText = this.#call((core) => core.writtenText()) ?? this.draftText;
    if (opened.problems.length === 0) this.layoutText = this.draftText;
    this.#arranged = true;
    this.#changed(false);
  }

  dialAngle(x: number, y: number, size: number): number {
    return this.#call((core) => core.dialAngle(x, y, size)) ?? Number.NaN;
  }

  /** Where tags of these sizes beside each run's slack go, px: x and y one after the other. */
  slackCrowns(sizes: number[]): Float64Array {
    return this.#call((core) => core.slackCrowns(new Float64Array(sizes))) ?? new Float64Array();
  }

  setPalette(probe: HTMLElement): void {
    this.#probe = probe;
    this.#call((core) => core.setPalette(readPalette(probe)));
    this.dispatchEvent(new Event("palette"));
    this.#changed(false);
  }

  /** Light colours for paper, and back again. */
  forPaper(on: boolean): void {
    const { style } = document.documentElement;
    style.colorScheme = on ? "light" : this.preferences.theme || "light dark";
    if (this.#probe) this.setPalette(this.#probe);
  }

  setSize(width: number, height: number, side: number, reserved: number[]): void {
    this.#call((core) => core.setSize(width, height, side, new Float64Array(reserved)));
    this.#changed(false);
  }

  keepLabelsOff(over: number[]): void {
    this.#call((core) => core.keepLabelsOff(new Float64Array(over)));
  }

  setZoom(zoom: number, panX: number, panY: number): void {
    this.#call((core) => core.setZoom(zoom, panX, panY));
    this.#changed(false);
  }

  placeLabels(sizes: number[]): Float64Array {
    return this.#call((core) => core.placeLabels(new Float64Array(sizes))) ?? new Float64Array();
  }

  paintDrive(canvas: CanvasRenderingContext2D, density: number): void {
    this.#call((core) => core.paintDrive(canvas, density));
  }

  paintDial(canvas: CanvasRenderingContext2D, size: number, density: number): void {
    this.#call((core) => core.paintDial(canvas, size, density));
  }

  /** What the page says of the engine's pictures; made anew when the readings are. */
  get engine(): EnginePart {
    this.#engine ??= this.#call((core) => core.enginePart());
    if (!this.#engine) throw new Error("stopped");
    return this.#engine;
  }

  /** Shows a cylinder in section; below 0 the one with the least gap. */
  chooseCylinder(cylinder: number): void {
    this.#call((core) => core.chooseCylinder(cylinder));
    this.#changed(true);
  }

  paintSection(
    canvas: CanvasRenderingContext2D,
    width: number,
    height: number,
    density: number,
  ): void {
    this.#call((core) => core.paintSection(canvas, width, height, density));
  }

  /** Where tags with the gaps go on the section, px: x and y one after the other. */
  sectionTags(width: number, height: number): Float64Array {
    return this.#call((core) => core.sectionTags(width, height)) ?? new Float64Array();
  }

  valveCurves(): Float64Array {
    return this.#call((core) => core.valveCurves()) ?? new Float64Array();
  }

  curveReading(place: number): string {
    return this.#call((core) => core.curveReading(place)) ?? "";
  }

  teethCurves(): Float64Array {
    return this.#call((core) => core.teethCurves()) ?? new Float64Array();
  }

  teethReading(place: number): string {
    return this.#call((core) => core.teethReading(place)) ?? "";
  }

  /** What that plot reads for the present choice where its camshafts stand at different teeth. */
  gapsNow(): string {
    return this.#call((core) => core.gapsNow()) ?? "";
  }

  /** Where on the plot of gaps against teeth the present choice is. */
  teethPlace(): number {
    return this.#call((core) => core.teethPlace()) ?? 0;
  }

  /** A number on an axis. */
  axisNumber(number: number): string {
    return this.#call((core) => core.axisNumber(number)) ?? "";
  }

  paintMap(
    canvas: CanvasRenderingContext2D,
    camshaft: number,
    size: number,
    density: number,
  ): void {
    this.#call((core) => core.paintMap(canvas, camshaft, size, density));
  }

  mapReading(camshaft: number): string {
    return this.#call((core) => core.mapReading(camshaft)) ?? "";
  }

  /** With the belt off, turns crank and camshaft to a point of the contact map. */
  mapTurn(camshaft: number, x: number, y: number, size: number, goesOn: boolean): void {
    this.#endReplay();
    const told = this.#call((core) => core.mapTurn(camshaft, x, y, size, goesOn));
    if (told && goesOn && told.done) this.#changed(false);
    else this.#tell(told ?? undefined);
  }

  /** With the belt off, turns crank and camshaft by so many degrees each. */
  mapStep(camshaft: number, crankDeg: number, camDeg: number): void {
    this.#endReplay();
    this.#tell(this.#call((core) => core.mapStep(camshaft, crankDeg, camDeg)) ?? undefined);
  }

  /** The JSON that the command line prints: for tests, and for whoever wants the figures. */
  json(which: "report" | "pose" | "fitting" | "tension" | "moment"): string {
    return this.#call((core) => core[`${which}Json`]()) ?? "";
  }

  demonstrations(): DemonstrationRow[] {
    return this.#call((core) => core.demonstrations())?.rows ?? [];
  }

  /** Puts a demonstration on the bench, and what was there aside. */
  startDemonstration(id: string): void {
    this.#putAside();
    this.#call((core) => core.startDemonstration(id));
    this.#otherLayout();
    this.dispatchEvent(new Event("look"));
  }

  /** Goes to a step of it; to the one where it is already, everything is put back as that step leaves it. */
  goToStep(step: number): void {
    this.#endReplay();
    this.lastTold = "";
    this.#running = this.#call((core) => core.goToStep(step, still())) ?? false;
    this.#readNow();
    this.dispatchEvent(new Event("look"));
    this.#changed(true);
  }

  /** Hides the fault of a number on the bench, and puts what was there aside. */
  startExercise(number: number): void {
    this.#putAside();
    this.#call((core) => core.startExercise(number));
    this.#otherLayout();
    this.dispatchEvent(new Event("look"));
  }

  /** Whether something is hidden on the bench, so that no reading may be shown. */
  get hides(): boolean {
    return this.exercise !== undefined && !this.exercise.open;
  }

  lookSquare(square: boolean): void {
    this.#call((core) => core.lookSquare(square));
    this.#changed(true);
  }

  /** Everything as the class found it. */
  asFound(): void {
    this.#call((core) => core.asFound());
    this.lastTold = "";
    this.#running = false;
    this.#changed(true);
  }

  /** How far an answer has a shaft out, in words. */
  answerTeeth(teeth: number): string {
    return this.#call((core) => core.answerTeeth(teeth)) ?? "";
  }

  giveAnswer(answer: ClassAnswer): void {
    this.#call((core) => core.giveAnswer(answer));
    this.#changed(true);
  }

  /** Shows what is hidden. */
  openExercise(): void {
    this.#call((core) => core.openExercise());
    this.#changed(true);
  }

  /** Ends what is shown: what was put aside is on the bench again. */
  endLesson(): void {
    if (!this.lesson && !this.exercise) return;
    this.#call((core) => core.endLesson());
    this.#otherLayout();
    this.dispatchEvent(new Event("look"));
  }

  #run(told: Told | undefined): void {
    this.#endReplay();
    this.#running = told?.done ?? false;
    this.#tell(told);
  }

  #tell(told: Told | undefined): void {
    if (!told) return;
    this.lastTold = told.text;
    this.dispatchEvent(new CustomEvent("told", { detail: told }));
    if (told.other_layout) this.#otherLayout();
    this.#changed(!this.#running);
  }

  #readNow(): void {
    const fitting = this.#shown === "fitting" || this.counted;
    const engine = this.#shown === "what_if";
    this.lesson = this.#call((core) => core.lesson()) ?? undefined;
    this.exercise = this.#call((core) => core.exercise()) ?? undefined;
    this.panel = this.#call((core) => core.panel(fitting, engine)) ?? this.panel;
    this.#readAt = performance.now();
    this.#dirty = false;
    this.#engine = undefined;
    this.dispatchEvent(new Event("panel"));
    if (this.#arranged) {
      this.#arranged = false;
      this.dispatchEvent(new Event("moved"));
    }
  }

  /** Something is other than before: paint with the next frame, and read now or soon. */
  #changed(readNow: boolean): void {
    if (this.#stopped) return;
    if (readNow) this.#readNow();
    else this.#dirty = true;
    if (!this.#frame) {
      this.#last = performance.now();
      this.#frame = requestAnimationFrame((now) => this.#step(now));
    }
  }

  #step(now: number): void {
    this.#frame = 0;
    const elapsed = now - this.#last;
    this.#last = now;
    if (this.#running) {
      this.#running = this.#call((core) => core.frame(elapsed)) ?? false;
      this.#dirty = true;
    }
    this.dispatchEvent(new Event("paint"));
    if (this.#dirty && now - this.#readAt > READINGS_EVERY_MS) this.#readNow();
    if (this.#running || this.#dirty) {
      this.#frame = requestAnimationFrame((next) => this.#step(next));
    }
  }
}

/** Whether the person wants no motion. */
function still(): boolean {
  return matchMedia("(prefers-reduced-motion: reduce)").matches;
}
