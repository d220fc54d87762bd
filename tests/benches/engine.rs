//! How long the engine's mathematics takes: medians over batches, in nanoseconds, beside the figures
//! aimed at. It reports and judges nothing: machines differ.
//!
//! Must not know: what the answers should be.

use core::hint::black_box;
use engine::{
    AtMarks, CamshaftFigures, CrankFigures, Engine, Events, Figures, Kind, Law, Motion, Phasing,
    Room, Stand, Teeth, Top, ValveFigures, Way,
};
use proofs::stopwatch::report;

/// An invented six in a vee with two camshafts to a bank and 24 valves, which go two by two.
fn twenty_four_valves() -> Figures {
    let valve = |kind, before, after, lift_mm, lean_deg, gap_at_top_mm| {
        Some(ValveFigures {
            motion: Motion::Law {
                events: Events::of(kind, before, after),
                at_lift_mm: 0.1,
                lift_mm,
                law: Law::Polynomial4567,
            },
            room: Some(Room { lean_deg, gap_at_top_mm }),
            spring: None,
        })
    };
    let camshaft = |bank: usize, kind| CamshaftFigures {
        cylinders: vec![bank, bank + 2, bank + 4],
        intake: (kind == Kind::Intake).then(|| valve(kind, 10.0, 50.0, 9.0, 20.0, 2.6)).flatten(),
        exhaust: (kind == Kind::Exhaust)
            .then(|| valve(kind, 48.0, 12.0, 8.6, -22.0, 2.8))
            .flatten(),
        phaser_deg: None,
    };
    Figures {
        bore_mm: Some(92.0),
        crank: Some(CrankFigures { stroke_mm: 80.0, rod_mm: 133.0 }),
        compression_ratio: Some(9.5),
        at_marks: AtMarks { crank_atdc_deg: -60.0, top: Top::Firing },
        fires_at_deg: vec![0.0, 120.0, 240.0, 360.0, 480.0, 600.0],
        camshafts: [0, 1]
            .into_iter()
            .flat_map(|bank| [Kind::Intake, Kind::Exhaust].map(|kind| camshaft(bank, kind)))
            .collect(),
        valves_meet_at_lift_sum_mm: None,
    }
}

fn main() {
    let figures = twenty_four_valves();
    let engine = match Engine::new(figures.clone()) {
        Ok(engine) => engine,
        Err(flaws) => {
            println!("no such engine: {flaws:?}");
            return;
        }
    };
    println!("{} cylinders, {} camshafts", engine.cylinders(), engine.camshafts().len());
    report("an engine's figures checked", None, || {
        black_box(Engine::new(black_box(figures.clone()))).ok();
    });
    report("all least gaps of 24 valves, in time", None, || {
        black_box(engine.least_gaps(black_box(&[0.0; 4]), Phasing::AtRest));
    });
    report("all least gaps at -6 to +6 teeth", Some(10e6), || {
        for teeth in -6..=6 {
            let errors = [f64::from(black_box(teeth)) * 15.0; 4];
            black_box(engine.least_gaps(&errors, Phasing::AtRest));
        }
    });
    report("one valve's arcs below a margin", None, || {
        let gap = engine.gap(0, Kind::Intake, black_box(30.0), Phasing::AtRest);
        black_box(gap.map(|gap| gap.below(2.0)));
    });
    let teeth = Teeth { deg_each: 15.0, all: 48 };
    report("first touching teeth of four camshafts", None, || {
        for camshaft in 0..4 {
            let first = engine.first_touch_of_camshaft(camshaft, 0.0, teeth, Phasing::AtRest);
            black_box(first);
        }
    });
    let Ok(loose) = engine.loose() else { return };
    report("one line of the map of contact", None, || {
        black_box(loose.touching_arcs(0, black_box(10.0)));
    });
    let stand = Stand { crank_deg: 100.0, camshafts_deg: vec![200.0, 13.0, -77.0, 400.0] };
    report("the way back to the marks, by parking", None, || {
        black_box(loose.way_to_marks(black_box(&stand)));
    });
    // Valves that can meet leave nothing but the search.
    let met = Figures { valves_meet_at_lift_sum_mm: Some(12.0), ..figures };
    let Ok(engine) = Engine::new(met) else { return };
    let Ok(loose) = engine.loose() else { return };
    let stand = Stand { crank_deg: 100.0, camshafts_deg: vec![200.0, 150.0, -77.0, -120.0] };
    let Way::Moves(moves) = loose.way_to_marks(&stand) else { return };
    println!("{} moves where valves can meet", moves.len());
    report("the way back where valves can meet", None, || {
        black_box(loose.way_to_marks(black_box(&stand)));
    });
}
