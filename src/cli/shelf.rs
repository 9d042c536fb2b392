//! The instruments a command works on: the shipped ones with a person's own on top.

use super::args::Common;
use super::exit::Halt;
use super::out;
use crate::drill::set::{DrillSet, Shelf};
use crate::drill::task::kinds;
use crate::exact::{Exact, Nonsense, Quanta, parse_answer};
use crate::instrument::{Catalogue, Instrument, MOST_PARTS, Origin, Parts, Zero, crib, targets};
use crate::session::Programme;
use crate::store;
use crate::wording::command as say;
use std::path::Path;

/// The catalogue with the shop's own tools. What is wrong with a person's own files is said in a line each and does not stop
/// the others.
pub fn catalogue(common: &Common) -> Catalogue {
    let catalogue = instruments(common);
    match store::data_dir(common.data_dir.clone()) {
        Ok(dir) => with_crib(with_targets(catalogue, &dir), &dir),
        Err(_) => catalogue,
    }
}

/// The same without the tools.
pub fn instruments(common: &Common) -> Catalogue {
    // Without a home folder there are only the shipped instruments.
    let Ok(dir) = store::data_dir(common.data_dir.clone()) else {
        return Catalogue::new(Vec::new());
    };
    let (sources, errors) = store::read_own_files(&store::instruments_dir(&dir));
    for error in errors {
        out::complain(&error.to_string());
    }
    let catalogue = Catalogue::new(sources);
    for id in catalogue.ids() {
        if let Some(Origin::User { name, overrides_shipped: true }) = catalogue.origin(id) {
            out::complain(&say::in_place_of_shipped(&out::clean_name(name), id));
        }
    }
    for (source, faults) in catalogue.faults() {
        out::complain(&say::faulty(&out::clean_name(&source.name), faults.len()));
    }
    catalogue
}

/// The drill sets, an instructor's own on top. What is wrong with their files is said in a line each.
pub fn sets(common: &Common, catalogue: &Catalogue) -> Shelf {
    let Ok(dir) = store::data_dir(common.data_dir.clone()) else {
        return Shelf::new(Vec::new(), catalogue);
    };
    let (sources, errors) = store::read_own_files(&store::exercises_dir(&dir));
    for error in errors {
        out::complain(&error.to_string());
    }
    let shelf = Shelf::new(sources, catalogue);
    for id in shelf.ids() {
        if let Some(Origin::User { name, overrides_shipped: true }) = shelf.origin(id) {
            out::complain(&say::in_place_of_shipped_set(&out::clean_name(name), id));
        }
    }
    for (source, faults) in shelf.faults() {
        out::complain(&say::faulty(&out::clean_name(&source.name), faults.len()));
    }
    shelf
}

/// The catalogue with the times that an instructor set; what is wrong with their file is said in a line.
fn with_targets(catalogue: Catalogue, dir: &Path) -> Catalogue {
    match store::read_if_there(&store::targets_file(dir)) {
        Ok(None) => catalogue,
        Ok(Some(source)) => {
            let found = targets::read(&source, &catalogue);
            if !found.faults.is_empty() {
                out::complain(&say::faulty_targets(&out::clean_name(&source.name), found.faults.len()));
            }
            catalogue.with_targets(found.set)
        }
        Err(error) => {
            out::complain(&error.to_string());
            catalogue
        }
    }
}

/// The catalogue with the shop's own tools; what is wrong with their file is said in a line.
fn with_crib(catalogue: Catalogue, dir: &Path) -> Catalogue {
    match store::read_if_there(&store::crib_file(dir)) {
        Ok(None) => catalogue,
        Ok(Some(source)) => {
            let crib = crib::read(&source, &catalogue);
            if !crib.faults.is_empty() {
                out::complain(&say::faulty_crib(&out::clean_name(&source.name), crib.faults.len()));
            }
            catalogue.with_tools(crib.tools)
        }
        Err(error) => {
            out::complain(&error.to_string());
            catalogue
        }
    }
}

/// The set of an id, or the nearest name.
pub fn set<'a>(sets: &'a Shelf, id: &str) -> Result<&'a DrillSet, Halt> {
    sets.get(id).ok_or_else(|| {
        let near = crate::diag::nearest(id, sets.ids());
        Halt::usage(say::no_set(&crate::instrument::schema::shown(id), near))
    })
}

/// True where a name is that of a set, and of no instrument or tool.
pub fn is_set(common: &Common, catalogue: &Catalogue, name: &str) -> bool {
    !catalogue.names().any(|known| known == name) && sets(common, catalogue).get(name).is_some()
}

/// What is practised on when nothing is named: the shop's own tools, where there is no crib the shipped instruments.
pub fn practised(catalogue: &Catalogue) -> Vec<&Instrument> {
    match catalogue.tools() {
        [] => shipped(catalogue),
        tools => tools.iter().map(|tool| &tool.instrument).collect(),
    }
}

/// The instrument of an id or the tool of a label, or the nearest name.
pub fn find<'a>(catalogue: &'a Catalogue, id: &str) -> Result<&'a Instrument, Halt> {
    catalogue.get(id).ok_or_else(|| {
        let near = crate::diag::nearest(id, catalogue.names());
        Halt::usage(say::no_instrument(&crate::instrument::schema::shown(id), near))
    })
}

/// What is asked must make sense on the instrument it is asked about.
pub fn sensible(instrument: &Instrument, programme: &Programme) -> Result<(), Halt> {
    let (known, wanted) = (kinds(instrument), programme.kinds(instrument));
    if wanted.is_empty() {
        return Err(Halt::usage(say::nothing_on_level(&instrument.id)));
    }
    match wanted.iter().find(|kind| !known.contains(kind)) {
        Some(kind) => Err(Halt::usage(say::no_such_kind(&instrument.id, *kind, &known))),
        None => Ok(()),
    }
}

/// The shipped instruments in their order; a person's own in the place of a shipped one counts as that.
fn shipped(catalogue: &Catalogue) -> Vec<&Instrument> {
    let ours = |id: &&str| {
        !matches!(catalogue.origin(id), Some(Origin::User { overrides_shipped: false, .. }) | None)
    };
    catalogue.ids().filter(ours).filter_map(|id| catalogue.get(id)).collect()
}

/// A reading typed as an argument: on the graduations and within the range.
pub fn setting(instrument: &Instrument, text: &str) -> Result<Quanta, Halt> {
    within(instrument, value(instrument, text)?, lowest(instrument), instrument.high)
}

/// The parts of the smallest step in which a reading lies between the lines; none where it lies on one.
pub fn parts(instrument: &Instrument, text: &str) -> Result<Option<Parts>, Halt> {
    match instrument.parts_for(value(instrument, text)?) {
        Some(Parts(1)) => Ok(None),
        Some(parts) => Ok(Some(parts)),
        // The finest neighbours are named.
        None => setting(&instrument.refined(MOST_PARTS), text).map(|_| Some(MOST_PARTS)),
    }
}

/// A zero error typed as an argument: within one turn or division either way.
pub fn zero_error(instrument: &Instrument, text: &str) -> Result<Quanta, Halt> {
    if instrument.zero == Zero::None {
        return Err(Halt::usage(say::no_zero_error(&instrument.id)));
    }
    let most = instrument.most_off();
    within(instrument, value(instrument, text)?, -most, most)
}

/// The set of scales on one jaw that a reading's unit names, as `--variant` takes it; none for that of the first set.
pub fn set_in_unit(instrument: &Instrument, text: &str) -> Option<String> {
    let other = instrument.on_same_jaw()?;
    let wrong_unit = matches!(parse_answer(text, instrument.unit), Err(Nonsense::WrongUnit { .. }));
    let named = wrong_unit && parse_answer(text, other.tool.unit).is_ok();
    named.then(|| format!("{}={}", crate::instrument::READS, other.words[1]))
}

fn value(instrument: &Instrument, text: &str) -> Result<Exact, Halt> {
    parse_answer(text, instrument.unit)
        .map(|typed| typed.value)
        .map_err(|nonsense| Halt::usage(say::no_reading(&crate::instrument::schema::shown(text), nonsense)))
}

fn within(instrument: &Instrument, value: Exact, low: Quanta, high: Quanta) -> Result<Quanta, Halt> {
    if value < instrument.value(low) || value > instrument.value(high) {
        return Err(Halt::usage(say::out_of_range(instrument, value, low, high)));
    }
    instrument.lattice.at(value).ok_or_else(|| {
        let steps = value.over(instrument.lattice.quantum());
        let below = steps.numerator().div_euclid(steps.denominator());
        let below = Quanta(i64::try_from(below).expect("it lies within the range"));
        Halt::usage(say::between(instrument, value, below))
    })
}

/// The lowest reading that is drawn: where zero can be off, a turn or a division below it.
fn lowest(instrument: &Instrument) -> Quanta {
    match instrument.zero {
        Zero::None => instrument.low,
        Zero::CanBeOff => instrument.low - instrument.most_off(),
    }
}
