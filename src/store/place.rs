//! Where the data folder is, and what kind of place that is.

use super::StoreError;
use etcetera::BaseStrategy;
use etcetera::base_strategy::Xdg;
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// The environment variable that names the data folder.
const VARIABLE: &str = "LINEFALL_DATA_DIR";

/// The data folder: the flag's, else `$LINEFALL_DATA_DIR`, else `$XDG_DATA_HOME/linefall`, else `~/.local/share/linefall`, on
/// every system. [`StoreError::NoHome`] when none of these is known.
pub fn data_dir(flag: Option<PathBuf>) -> Result<PathBuf, StoreError> {
    let xdg = || Xdg::new().ok().map(|xdg| xdg.data_dir());
    choose(flag, std::env::var_os(VARIABLE), xdg).ok_or(StoreError::NoHome)
}

/// Empty texts are as good as none.
fn choose(
    flag: Option<PathBuf>,
    variable: Option<OsString>,
    xdg: impl FnOnce() -> Option<PathBuf>,
) -> Option<PathBuf> {
    flag.filter(|flag| !flag.as_os_str().is_empty())
        .or_else(|| variable.filter(|text| !text.is_empty()).map(PathBuf::from))
        .or_else(|| xdg().map(|dir| dir.join("linefall")))
}

/// The folder of a learner's own instruments in a data folder.
pub fn instruments_dir(data_dir: &Path) -> PathBuf {
    data_dir.join("instruments")
}

/// An instructor's own drill sets in a data folder.
pub fn exercises_dir(data_dir: &Path) -> PathBuf {
    data_dir.join("exercises")
}

/// The file of the shop's own tools in a data folder.
pub fn crib_file(data_dir: &Path) -> PathBuf {
    data_dir.join("crib.toml")
}

/// The file of the times that an instructor set in a data folder.
pub fn targets_file(data_dir: &Path) -> PathBuf {
    data_dir.join("targets.toml")
}

/// The instructor's roster in a data folder.
pub fn roster_file(data_dir: &Path) -> PathBuf {
    data_dir.join("roster.toml")
}

/// Device and number of a file.
pub(super) type Identity = (u64, u64);

/// Which file stands under a name; `None` without one, and always on systems that do not number their files.
#[cfg(unix)]
pub(super) fn identity(path: &Path) -> Option<Identity> {
    use std::os::unix::fs::MetadataExt;
    std::fs::metadata(path).ok().map(|file| (file.dev(), file.ino()))
}

#[cfg(not(unix))]
pub(super) fn identity(_: &Path) -> Option<Identity> {
    None
}

/// Why a file, or its folder, may not be written, if the system says so without being asked to write.
#[cfg(unix)]
pub(super) fn why_unwritable(file: &Path) -> Option<&'static str> {
    use rustix::fs::{Access, access};
    use rustix::io::Errno;
    let folder = file.parent().unwrap_or(Path::new("."));
    for (path, why) in [(file, "the file may not be written"), (folder, "the folder may not be written")] {
        match access(path, Access::WRITE_OK) {
            Err(Errno::ROFS) => return Some("the disk is mounted for reading only"),
            Err(Errno::ACCESS | Errno::PERM) => return Some(why),
            _ => {}
        }
    }
    None
}

#[cfg(not(unix))]
pub(super) fn why_unwritable(file: &Path) -> Option<&'static str> {
    let locked = std::fs::metadata(file).is_ok_and(|file| file.permissions().readonly());
    locked.then_some("the file may not be written")
}

/// The kind of network file system that a file lies on, or would if it were created.
#[cfg(target_os = "linux")]
pub(super) fn network(file: &Path) -> Option<&'static str> {
    let file = std::path::absolute(file).ok()?;
    let (place, magic) = file.ancestors().find_map(|place| {
        // The type of the number differs between machines; its 32 bits do not.
        rustix::fs::statfs(place).ok().map(|fs| (place, i128::from(fs.f_type) & 0xffff_ffff))
    })?;
    if magic == FUSE {
        return fuse_network(place);
    }
    NETWORKS.iter().find(|(known, _)| *known == magic).map(|(_, name)| *name)
}

#[cfg(not(target_os = "linux"))]
pub(super) fn network(_: &Path) -> Option<&'static str> {
    None
}

/// Magic numbers of statfs(2).
#[cfg(target_os = "linux")]
const NETWORKS: &[(i128, &str)] = &[
    (0x6969, "NFS"),
    (0x517b, "SMB"),
    (0xff53_4d42, "CIFS"),
    (0xfe53_4d42, "SMB"),
    (0x5346_414f, "AFS"),
    (0x6b41_4653, "AFS"),
    (0x7375_7245, "Coda"),
    (0x564c, "NCP"),
    (0x0102_1997, "9p"),
    (0x00c3_6400, "Ceph"),
    (0x0bd0_0bd0, "Lustre"),
    (0x4750_4653, "GPFS"),
];

/// File systems run by a program: some are local, some are not.
#[cfg(target_os = "linux")]
const FUSE: i128 = 0x6573_5546;

/// Those run by a program that reach over a network, as the table of mounts names them.
#[cfg(target_os = "linux")]
const FUSE_NETWORKS: &[(&str, &str)] = &[
    ("fuse.sshfs", "sshfs"),
    ("fuse.rclone", "rclone"),
    ("fuse.glusterfs", "GlusterFS"),
    ("fuse.davfs", "WebDAV"),
    ("fuse.davfs2", "WebDAV"),
    ("fuse.s3fs", "s3fs"),
    ("fuse.curlftpfs", "FTP"),
    ("fuse.smbnetfs", "SMB"),
    ("fuse.gvfsd-fuse", "GVfs"),
    ("fuse.ceph-fuse", "Ceph"),
    ("fuse.juicefs", "JuiceFS"),
];

#[cfg(target_os = "linux")]
fn fuse_network(place: &Path) -> Option<&'static str> {
    use std::os::unix::fs::MetadataExt;
    let device = std::fs::metadata(place).ok()?.dev();
    let device = format!("{}:{}", rustix::fs::major(device), rustix::fs::minor(device));
    let mounts = std::fs::read("/proc/self/mountinfo").ok()?;
    network_mount(&String::from_utf8_lossy(&mounts), &device)
}

/// Lines are `id parent major:minor root point options [fields] - type source options`.
#[cfg(target_os = "linux")]
fn network_mount(mounts: &str, device: &str) -> Option<&'static str> {
    let line = mounts.lines().find(|line| line.split(' ').nth(2) == Some(device))?;
    let kind = line.split(" - ").nth(1)?.split(' ').next()?;
    FUSE_NETWORKS.iter().find(|(known, _)| *known == kind).map(|(_, name)| *name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_flag_wins_then_the_variable_then_the_home_folder() {
        let xdg = || Some(PathBuf::from("/home/shop/.local/share"));
        let (flag, variable) = (Some(PathBuf::from("/stick")), Some(OsString::from("/srv/linefall")));
        assert_eq!(choose(flag.clone(), variable.clone(), xdg), flag);
        assert_eq!(choose(None, variable, xdg), Some(PathBuf::from("/srv/linefall")));
        let own = Some(PathBuf::from("/home/shop/.local/share/linefall"));
        assert_eq!(choose(None, None, xdg), own);
        assert_eq!(choose(Some(PathBuf::new()), Some(OsString::new()), xdg), own);
        assert_eq!(choose(None, None, || None), None);
        assert_eq!(instruments_dir(Path::new("/stick")), PathBuf::from("/stick/instruments"));
        assert_eq!(exercises_dir(Path::new("/stick")), PathBuf::from("/stick/exercises"));
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn a_mount_is_known_by_its_device() {
        let mounts = "22 1 8:1 / / rw shared:1 - ext4 /dev/sda1 rw\n\
                      90 22 0:45 / /home/shop/share rw,nosuid shared:40 - fuse.sshfs shop@bench:/srv rw\n\
                      91 22 0:46 / /media/stick rw - fuseblk /dev/sdb1 rw\n";
        assert_eq!(network_mount(mounts, "0:45"), Some("sshfs"));
        assert_eq!(network_mount(mounts, "0:46"), None);
        assert_eq!(network_mount(mounts, "8:1"), None);
        assert_eq!(network_mount("nonsense", "8:1"), None);
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn this_disk_is_local() {
        assert_eq!(network(&std::env::temp_dir().join("not/there/yet")), None);
        assert_eq!(network(Path::new("/proc/self")), None);
    }
}
