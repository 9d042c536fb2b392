//! `linefall completions` and `linefall man`.

use super::args::Arguments;
use super::exit::{Exit, Halt};
use super::out::Out;
use clap::CommandFactory;
use clap_mangen::Man;
use std::io;

/// Writes the completions for a shell.
pub fn completions(shell: clap_complete::Shell, out: &mut Out) -> Result<Exit, Halt> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "linefall", &mut script);
    out.bytes(&script)?;
    Ok(Exit::Fine)
}

/// Writes the manual page: one page, each command a section of its own.
pub fn man(out: &mut Out) -> Result<Exit, Halt> {
    let page = page().map_err(|cause| Halt::output(&cause))?;
    out.bytes(&page)?;
    Ok(Exit::Fine)
}

fn page() -> io::Result<Vec<u8>> {
    let mut command = Arguments::command().disable_help_subcommand(true);
    command.build();
    let mut page = Vec::new();
    let whole = Man::new(command.clone());
    whole.render_title(&mut page)?;
    whole.render_name_section(&mut page)?;
    whole.render_synopsis_section(&mut page)?;
    whole.render_description_section(&mut page)?;
    whole.render_options_section(&mut page)?;
    for sub in command.get_subcommands().filter(|sub| !sub.is_hide_set()) {
        let name = format!("linefall {}", sub.get_name());
        // What holds everywhere stands in the first part already.
        let own = sub.clone().bin_name(&name).mut_args(|arg| {
            let everywhere = arg.is_global_set();
            arg.hide(everywhere)
        });
        let man = Man::new(own);
        let mut section = Vec::new();
        man.render_synopsis_section(&mut section)?;
        man.render_description_section(&mut section)?;
        man.render_options_section(&mut section)?;
        let section = String::from_utf8_lossy(&section).replace("\n.SH ", "\n.SS ");
        let section = section.strip_prefix(".SH ").map_or_else(|| section.clone(), |s| format!(".SS {s}"));
        page.extend_from_slice(format!(".SH \"{}\"\n", name.to_uppercase()).as_bytes());
        page.extend_from_slice(section.as_bytes());
    }
    whole.render_version_section(&mut page)?;
    Ok(page)
}
