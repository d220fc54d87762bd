//! The drawing read back by an XML reader of another hand: what it shows is what the list holds.
//!
//! Must not know: how the text is put together.

use super::*;
use crate::drive_picture::DrivePicture;
use crate::list::Piece;
use crate::sketch_picture::SketchPicture;
use drive::Pose;
use job::{Action, Job};
use layout::{Plan, Sketch};
use roxmltree::{Document, Node};
use std::collections::BTreeMap;
use std::rc::Rc;

const SIX: &str = include_str!("../../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");
const NEAR_MM: f64 = 1e-3;

/// A job one tooth out, turned, with slack.
fn job() -> Job {
    let mut job = Job::new(Rc::new(Plan::open(SIX).unwrap()));
    for action in [
        Action::SetTeeth(BTreeMap::from([("cam_left".to_owned(), -1)])),
        Action::Tensioner(job::TensionerMove::Back),
        Action::TurnTo { crank_deg: 400.0 },
    ] {
        job.act(&action, false).unwrap();
    }
    job
}

fn drawn(job: &Job) -> List {
    let mut list = List::default();
    let pose = Pose::of(job.drive(), job.stance(), job.cord());
    DrivePicture::new(job.drive()).draw(&mut list, job, &pose, None);
    list
}

fn wheels<'p>(plan: &'p Plan, names: &'p [String]) -> Vec<WheelTexts<'p>> {
    let wheel = |(i, name): (usize, &'p String)| WheelTexts {
        id: plan.id(i),
        name,
        sprocket: plan.drive.sprocket_of(i),
    };
    names.iter().enumerate().map(wheel).collect()
}

fn drawing(job: &Job, title: &str, names: &[String]) -> String {
    let wheels = wheels(job.plan(), names);
    let texts = Texts { title, about: "A & B.", language: "en", wheels: &wheels };
    svg(&drawn(job), &Ground::of(job.drive()), &texts)
}

fn names(job: &Job) -> Vec<String> {
    (0..job.drive().wheels().len()).map(|i| job.plan().name(i).to_owned()).collect()
}

/// The points of a path at which its pieces begin and end, y up.
fn points(d: &str) -> Vec<DVec2> {
    let mut points = Vec::new();
    for piece in d.split_inclusive(|c: char| "MLAZ".contains(c)).collect::<Vec<_>>().windows(2) {
        let numbers = piece[1].trim_end_matches(|c: char| "MLAZ".contains(c));
        let numbers: Vec<f64> = numbers.split_whitespace().map(|n| n.parse().unwrap()).collect();
        if let [.., x, y] = numbers[..] {
            points.push(DVec2::new(x, -y));
        }
    }
    points
}

fn paths<'d>(document: &'d Document<'_>, class: Class) -> Vec<Node<'d, 'd>> {
    let group = |n: &Node<'_, '_>| n.attribute("class") == Some(class.name());
    let groups = document.descendants().filter(group);
    groups.flat_map(|g| g.children().filter(|n| n.has_tag_name("path"))).collect()
}

#[test]
fn everything_is_where_the_list_has_it() {
    let job = job();
    let list = drawn(&job);
    let text = drawing(&job, "Six", &names(&job));
    let document = Document::parse(&text).unwrap();
    let mut seen = 0;
    for class in Class::ALL.into_iter().filter(|class| *class != Class::Leader) {
        let items: Vec<&Item> = list.items().iter().filter(|item| item.class == class).collect();
        let paths = paths(&document, class);
        assert_eq!(paths.len(), items.len(), "{}", class.name());
        for (item, path) in items.iter().zip(paths) {
            let corners: Vec<DVec2> = list
                .outline(item)
                .filter_map(|piece| match piece {
                    Piece::Move(p) | Piece::Line(p) => Some(p),
                    Piece::Arc { centre, radius, from_rad, sweep_rad } => {
                        let out = drive::Angle::from_rad(from_rad + sweep_rad).unit();
                        Some(centre + out * radius)
                    }
                    Piece::Close => None,
                })
                .collect();
            let written = points(path.attribute("d").unwrap());
            let only_lines = !path.attribute("d").unwrap().contains('A');
            assert!(!only_lines || written.len() == corners.len());
            for corner in corners {
                let there = written.iter().any(|p| (*p - corner).length() < NEAR_MM);
                assert!(there, "{} {corner}", class.name());
                seen += 1;
            }
        }
    }
    assert!(seen > 1000);
}

#[test]
fn wedges_and_teeth_are_found_by_what_they_show() {
    let job = job();
    let pose = advice::pose(&job);
    let text = drawing(&job, "Six", &names(&job));
    let document = Document::parse(&text).unwrap();
    let teeth = paths(&document, Class::BeltTooth);
    assert_eq!(teeth.len(), pose.belt_teeth.len());
    for (n, tooth) in pose.belt_teeth.iter().enumerate() {
        assert_eq!(teeth[n].attribute("data-part"), Some(&*format!("belt-tooth {n}")));
        let corners = points(teeth[n].attribute("d").unwrap());
        let middle = (corners[0] + corners[3]) / 2.0;
        assert!((middle - DVec2::from_array(tooth.at_mm)).length() < NEAR_MM);
    }
    // A wedge's tip points where the mark is.
    let of = |class, part: &str| {
        let all = paths(&document, class).into_iter();
        let here: Vec<_> = all.filter(|n| n.attribute("data-part") == Some(part)).collect();
        assert_eq!(here.len(), 1, "{part}");
        points(here[0].attribute("d").unwrap())
    };
    for (class, id) in
        [(Class::MarkIn, "crank"), (Class::MarkOut, "cam_left"), (Class::MarkIn, "cam_right")]
    {
        let i = job.plan().wheel_index(id).unwrap();
        let (wheel, disc) = (&job.drive().wheels()[i], &job.stance().discs[i]);
        let error_rad = pose.wheels[i].mark_error_teeth.unwrap() * std::f64::consts::TAU
            / f64::from(wheel.teeth().unwrap());
        let at = wheel.mark.unwrap().cover.turned(disc.sense * error_rad);
        let tip = of(class, &format!("wheel {id}"))[0] - disc.centre;
        assert!((tip - at.unit() * tip.length()).length() < NEAR_MM, "{id}");
    }
    assert!(text.contains("data-part=\"stripe cam_left\""));
    assert!(text.contains("data-part=\"cover crank\""));
}

#[test]
fn texts_stand_as_given_whatever_they_hold() {
    let job = job();
    let mut called = names(&job);
    called[0] = "<crank> & \"co\"".to_owned();
    let title = "A < B & \"C\" > ä\u{1b}";
    let text = drawing(&job, title, &called);
    let document = Document::parse(&text).unwrap();
    let root = document.root_element();
    let first = |name: &str| root.descendants().find(|n| n.has_tag_name(name)).unwrap();
    assert_eq!(first("title").text(), Some("A < B & \"C\" > ä\u{fffd}"));
    assert_eq!(first("desc").text(), Some("A & B."));
    let names = root.descendants().find(|n| n.attribute("class") == Some("names")).unwrap();
    let lines = |n: Node<'_, '_>| {
        let lines: Vec<String> = n.children().filter_map(|n| Some(n.text()?.to_owned())).collect();
        lines.join(" ")
    };
    let told: Vec<String> = names.children().filter(Node::is_element).map(lines).collect();
    assert_eq!(told, called);
}

#[test]
fn all_of_it_lies_on_the_sheet_and_is_the_same_again() {
    let job = job();
    let text = drawing(&job, "Six", &names(&job));
    assert_eq!(text, drawing(&job, "Six", &names(&job)));
    let document = Document::parse(&text).unwrap();
    let numbers =
        |of: &str| -> Vec<f64> { of.split_whitespace().map(|n| n.parse().unwrap()).collect() };
    let view = numbers(document.root_element().attribute("viewBox").unwrap());
    let width = document.root_element().attribute("width").unwrap();
    assert_eq!(width, format!("{}mm", view[2]), "true to size");
    let inside = |x: f64, y: f64| {
        x > view[0] && y > view[1] && x < view[0] + view[2] && y < view[1] + view[3]
    };
    for node in document.descendants() {
        if let Some(d) = node.attribute("d") {
            assert!(points(d).iter().all(|p| inside(p.x, -p.y)), "{d}");
        }
        if let (Some(x), Some(y)) = (node.attribute("x"), node.attribute("y"))
            && node.attribute("class") != Some("paper")
        {
            assert!(inside(numbers(x)[0], numbers(y)[0]), "{x} {y}");
        }
    }
    // No number is finer than it need be.
    let long = text
        .split(|c: char| !c.is_ascii_digit() && c != '.')
        .find(|n| n.split_once('.').is_some_and(|(_, decimals)| decimals.len() > 4));
    assert_eq!(long, None);
}

#[test]
fn every_class_has_a_style() {
    for class in Class::ALL {
        assert!(STYLE.contains(&format!("\n.{} path ", class.name())), "{}", class.name());
    }
}

#[test]
fn wheels_without_a_belt_can_be_drawn_too() {
    let sketch = Sketch::of(&SIX.replace("teeth = 173", "teeth = 193")).unwrap();
    let mut list = List::default();
    let laid = advice::laid_out(&sketch);
    SketchPicture::new(&sketch.parts).draw(&mut list, &sketch.parts, &laid, &[0]);
    let texts = Texts { title: "T", about: "", language: "de", wheels: &[] };
    let ground = Ground::of_parts(&sketch.parts, &laid);
    let text = svg(&list, &ground, &texts);
    let document = Document::parse(&text).unwrap();
    assert_eq!(paths(&document, Class::Fault).len(), 1);
    // The way that the belt would take, once round, and nothing that looks like a belt.
    assert_eq!(paths(&document, Class::Unhung).len(), 1);
    for class in [Class::BeltBody, Class::BeltTooth, Class::Stripe, Class::Reference] {
        assert!(paths(&document, class).is_empty());
    }
    let drawn = list.items().iter().find(|item| item.class == Class::Unhung).unwrap();
    assert!((length_mm(list.outline(drawn)) - laid.path.unwrap().length_mm).abs() < 1e-9);
    Document::parse(&svg(&List::default(), &ground, &texts)).unwrap();
}

/// Length of an outline that begins once and is not closed.
fn length_mm(outline: impl Iterator<Item = Piece>) -> f64 {
    let mut here = DVec2::ZERO;
    let mut along = 0.0;
    for piece in outline {
        match piece {
            Piece::Move(p) => here = p,
            Piece::Line(p) => {
                along += (p - here).length();
                here = p;
            }
            Piece::Arc { centre, radius, from_rad, sweep_rad } => {
                let at = |rad: f64| centre + DVec2::new(libm::cos(rad), libm::sin(rad)) * radius;
                assert!((at(from_rad) - here).length() < 1e-9, "it joins on");
                along += radius * sweep_rad.abs();
                here = at(from_rad + sweep_rad);
            }
            Piece::Close => panic!("closed"),
        }
    }
    along
}
