//! Plans job cards one after the other, on the development machine with feature
//! `count`, and logs the counts of each: `bash .ci/board replan`.
//!
//! The cards come where else the memory card is, as text, one behind the other, zeros
//! after each up to the next block.
#![no_std]
#![no_main]

use boltbay_board::board::Board;
use boltbay_board::card::CardBlocks;
use boltbay_board::once::Once;
use boltbay_board::{chosen, log, stack, tick};
use boltbay_core::card::{CardError, CardReader};
use boltbay_handheld::Memory;
use core::mem::MaybeUninit;
use embedded_sdmmc::{Block, BlockIdx};

static MEMORY: Once<MaybeUninit<Memory>> = Once::new(MaybeUninit::uninit());

#[inline(never)]
fn memory() -> &'static mut Memory {
    let Some(memory) = MEMORY.lend() else {
        panic!("a program starts once");
    };
    memory.write(Memory::new())
}

/// Reads the card that begins at a block; where the next one begins, if there is any.
#[inline(never)]
fn read(card: &impl CardBlocks, first: u32, memory: &mut Memory) -> Option<u32> {
    let mut reader = CardReader::new();
    let mut blocks = [Block::new()];
    memory.job.clear();
    for at in first.. {
        card.read(&mut blocks, BlockIdx(at)).ok()?;
        let [Block { contents }] = &blocks;
        let text = contents.split(|byte| *byte == 0).next()?;
        let mut fed = reader.feed(text, &mut memory.job);
        if text.len() < contents.len() {
            fed = fed.and_then(|()| reader.finish(&mut memory.job));
            fed.unwrap_or_else(|error: CardError| panic!("{error}"));
            return Some(at + 1);
        }
        fed.unwrap_or_else(|error| panic!("{error}"));
    }
    None
}

/// Makes the plan as after a correction, and says what it took.
#[inline(never)]
fn count(memory: &mut Memory) {
    let Memory {
        job, plan, scratch, ..
    } = memory;
    let before = tick::counts();
    plan.make(job, scratch);
    let counts = tick::counts().wrapping_sub(before);
    let stations = plan.placement().map_or(0, |placement| placement.stations);
    log!(
        "planned {} marks {} counts, stack so far {}",
        stations,
        counts,
        stack::deepest()
    );
}

#[cortex_m_rt::entry]
fn main() -> ! {
    let mut board = chosen::start();
    let memory = memory();
    let card = board.card();
    let mut block = 0;
    if let Some(card) = card.filter(CardBlocks::wake) {
        while let Some(next) = read(&card, block, memory) {
            block = next;
            count(memory);
        }
    }
    log!("end");
    loop {
        board.idle();
    }
}
