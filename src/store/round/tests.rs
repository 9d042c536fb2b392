use super::*;
use crate::class::card::Card;
use crate::class::returned::testing::{attempt, header, machine};
use crate::class::returned::{Closing, read};
use crate::class::sitting::{End, Purpose};

type Tested = Result<(), Box<dyn std::error::Error>>;

fn card() -> Card {
    Card {
        number: "00000000000000aa".to_owned(),
        set: "first-rule".to_owned(),
        title: "Whole millimetres".to_owned(),
        revision: "5f1c".to_owned(),
        learners: vec!["k7".to_owned()],
        due: None,
        purpose: Purpose::Exercise,
        issued: "2026-11-29T08:00:00Z".to_owned(),
        from: machine(9).public(),
        text: "title = \"x\"\n".to_owned(),
    }
}

#[test]
fn a_key_is_made_once_and_only_its_owner_may_read_it() -> Tested {
    let dir = tempfile::tempdir()?;
    let own = dir.path().join("data");
    let first = key(&own, Holder::Machine, [1; 32])?;
    let again = key(&own, Holder::Machine, [2; 32])?;
    assert_eq!(first.public(), again.public());
    assert_ne!(key(&own, Holder::Instructor, [2; 32])?.public(), first.public());
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let mode = fs::metadata(own.join("machine.key"))?.permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
    fs::write(own.join("machine.key"), "lost\n")?;
    let said = key(&own, Holder::Machine, [3; 32]).expect_err("no key").to_string();
    assert!(said.contains("machine.key") && said.contains("it holds no key"), "{said}");
    assert_eq!(fs::read_to_string(own.join("machine.key"))?, "lost\n", "it is left as it is");
    Ok(())
}

#[test]
fn a_sitting_goes_on_after_a_power_cut_and_is_handed_in_when_the_share_is_there() -> Tested {
    let dir = tempfile::tempdir()?;
    let (own, share) = (dir.path().join("data"), dir.path().join("share"));
    let (mut file, mut writer) = WorkFile::begin(&own, &header())?;
    file.append(&writer.answer(1, 1, &attempt("12.5")))?;
    let path = file.path().to_owned();
    assert!(matches!(WorkFile::take_up(&path), Err(StoreError::Busy { .. })), "somebody is at it");
    drop(file);
    let mut bytes = fs::read(&path)?;
    bytes.extend(b"{\"after\":\"half a li");
    fs::write(&path, bytes)?;
    let TakenUp { mut file, mut writer, so_far } = WorkFile::take_up(&path)?;
    assert_eq!((so_far.entries.len(), so_far.closing), (1, Closing::CutShort));
    assert_eq!(open_work(&own)?.len(), 1);
    file.append(&writer.back("2026-11-30T08:30:00Z"))?;
    let end = writer.end("2026-11-30T08:31:00Z", End::Done, &machine(1));
    let path = file.finish(&end)?;
    assert_eq!(read(&fs::read(&path)?).map(|of| of.closing), Ok(Closing::Signed));
    assert!(WorkFile::take_up(&path).is_err(), "it is done");
    assert_eq!((open_work(&own)?.len(), waiting(&own)?), (0, 1));
    // The power went between the last line and the outbox.
    fs::rename(&path, own.join("sittings").join(header().file_name()))?;
    assert_eq!(waiting(&own)?, 1);
    // The share is away, then it is there.
    let away = hand_in(&own, &share)?;
    assert_eq!((away.copied.len(), away.waiting), (0, 1));
    assert!(away.why.is_some_and(|why| why.to_string().starts_with("cannot reach ")));
    assert!(!share.exists(), "nothing is made in its place");
    fs::create_dir(&share)?;
    let name = header().file_name();
    assert_eq!(hand_in(&own, &share)?.copied, std::slice::from_ref(&name));
    assert_eq!((waiting(&own)?, tries(&own, "00000000000000aa", "k7")?), (0, 1));
    assert_eq!(tries(&own, "00000000000000ab", "k7")?, 0);
    let (found, errors) = returned_files(&share)?;
    assert_eq!((found.len(), errors.len()), (1, 0));
    assert_eq!(found[0].name, format!("returned/k7/{name}"));
    assert_eq!(read_returned(&found[0])?, fs::read(own.join("handed-in").join(name))?);
    Ok(())
}

#[test]
fn nothing_in_the_share_is_overwritten() -> Tested {
    let dir = tempfile::tempdir()?;
    let (own, share) = (dir.path().join("data"), dir.path().join("share"));
    let folder = share.join("returned/k7");
    fs::create_dir_all(&folder)?;
    let theirs = folder.join(header().file_name());
    fs::write(&theirs, "somebody else's")?;
    let (file, writer) = WorkFile::begin(&own, &header())?;
    file.finish(&writer.end("2026-11-30T08:31:00Z", End::Left, &machine(1)))?;
    let copied = hand_in(&own, &share)?.copied;
    assert!(copied[0].ends_with("-2.work"), "{copied:?}");
    assert_eq!(fs::read_to_string(theirs)?, "somebody else's");
    let names: Vec<_> = fs::read_dir(&folder)?.filter_map(|of| of.ok().map(|of| of.file_name())).collect();
    assert_eq!(names.len(), 2, "no rest of the copying: {names:?}");
    Ok(())
}

#[test]
fn cards_and_the_folder_they_lie_in_are_kept() -> Tested {
    let dir = tempfile::tempdir()?;
    let (shop, own, share_dir) = (dir.path().join("shop"), dir.path().join("own"), dir.path().join("share"));
    let text = card().write(&machine(9));
    assert!(put_card(&shop, &share_dir, &card(), &text, &card().learners).is_err(), "no folder, no card");
    fs::create_dir(&share_dir)?;
    let path = put_card(&shop, &share_dir, &card(), &text, &card().learners)?;
    assert!(share_dir.join("returned/k7").is_dir());
    for place in [&share_dir, &shop] {
        assert_eq!(cards(place)?, [(card().file_name(), text.clone().into_bytes())]);
    }
    assert_eq!(share(&own)?, None);
    take_card(&own, &path, &card(), text.as_bytes())?;
    take_card(&own, &path, &card(), text.as_bytes())?;
    assert_eq!((cards(&own)?.len(), share(&own)?), (1, Some(share_dir)));
    Ok(())
}

#[cfg(unix)]
#[test]
fn links_and_hidden_files_are_not_opened() -> Tested {
    let dir = tempfile::tempdir()?;
    fs::create_dir_all(dir.path().join("returned/k7/a/b/c/d/e"))?;
    for name in [
        "returned/k7/x.work",
        "returned/k7/.linefall-1-0.part",
        "returned/k7/Thumbs.db",
        "returned/loose.txt",
    ] {
        fs::write(dir.path().join(name), "x")?;
    }
    std::os::unix::fs::symlink("/etc/passwd", dir.path().join("returned/k7/y.work"))?;
    let (found, _) = returned_files(dir.path())?;
    let names: Vec<&str> = found.iter().map(|of| of.name.as_str()).collect();
    // A folder deeper than any of ours is named as what it is.
    assert_eq!(
        names,
        ["returned/k7/a/b/c/d", "returned/k7/x.work", "returned/k7/y.work", "returned/loose.txt"]
    );
    assert!(read_returned(&found[2]).expect_err("a link").to_string().ends_with("it is no plain file"));
    assert_eq!(read_first(&found[1])?, b"x");
    assert!(returned_files(&dir.path().join("nowhere")).is_err());
    Ok(())
}
