//! Work: what to look out for at walls and packing that no figure can say.
//!
//! In: a job with loads. Out: cautions. Rule: each is raised where the card says
//! that the thing is there; a card without loads is asked about none of it.
//! Practice: all of them; the hour of fire watch is that of NFPA 51B (Memory).

use crate::caution::{Caution, Cautions, add};
use crate::job::{Job, Material};
use crate::words::End;

/// Cautions about ends in pockets, block, wood near masonry, treated wood, fire,
/// and shores. None for a card without loads. Call it last: shores that are
/// spoken of already are not spoken of twice.
pub fn cautions(job: &Job, cautions: &mut Cautions) {
    if job.loads.is_empty() {
        return;
    }
    if !cautions.contains(&Caution::ShoresFirst) {
        add(cautions, Caution::ShoresFirst);
    }
    for (end, wall) in End::BOTH.into_iter().zip(job.walls) {
        if wall.is_some() {
            add(cautions, Caution::EndMayRollOver { end });
        }
    }
    let masonry = |material| material == Material::Masonry;
    for (row, support) in (0_u8..).zip(&job.supports) {
        if masonry(support.material) && in_pocket(job, &support.name) {
            add(cautions, Caution::FillBlock { row });
        }
    }
    let walls = job.walls.iter().any(Option::is_some);
    let stone = |material| masonry(material) || material == Material::Concrete;
    if walls || job.supports.iter().any(|support| stone(support.material)) {
        add(cautions, Caution::WoodOffMasonry);
    }
    add(cautions, Caution::TreatedWood);
    add(cautions, Caution::HotWork);
}

/// Whether a support is named after a wall of the card.
fn in_pocket(job: &Job, name: &str) -> bool {
    let [a, b] = job.walls;
    (a.is_some() && name.eq_ignore_ascii_case("A"))
        || (b.is_some() && name.eq_ignore_ascii_case("B"))
}
