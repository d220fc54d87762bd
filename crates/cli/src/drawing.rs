//! The drive as it stands, as a drawing with its wheels' names and what it shows in sentences.
//!
//! Must not know: how a drawing is written down, or any word that `words` has not.

use crate::report_text::name;
use drive::Pose;
use job::Job;
use picture::{DrivePicture, Ground, List, Texts, WheelTexts};
use words::Reader;
use words::command::drawing_shows;

/// The drawing as SVG text.
pub fn svg(reader: Reader, job: &Job) -> String {
    let (plan, drive) = (job.plan(), job.drive());
    let names: Vec<String> = plan.layout.wheels.iter().map(|w| name(plan, &w.id)).collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let wheels = names.iter().enumerate().map(|(i, name)| WheelTexts {
        id: plan.id(i),
        name,
        sprocket: drive.sprocket_of(i),
    });
    let mut about = drawing_shows(reader, &advice::readings(job), &names);
    if plan.layout.provisional {
        about = format!("{} {about}", words::start::provisional(reader.lang));
    }
    let mut list = List::default();
    let pose = Pose::of(drive, job.stance(), job.cord());
    DrivePicture::new(drive).draw(&mut list, job, &pose, None);
    let texts = Texts {
        title: &plan.layout.title,
        about: &about,
        language: reader.lang.code(),
        wheels: &wheels.collect::<Vec<_>>(),
    };
    picture::svg(&list, &Ground::of(drive), &texts)
}
