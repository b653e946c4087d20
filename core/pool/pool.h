// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Pools: drive groups → raw and usable bytes, and what a stored block costs in them.
///
/// Model. A drive labelled in whole GB has the bytes of its industry standard (IDEMA LBA1-03 up to
/// 8 TB, SFF-8447 above); partition and label space come off it; a group is width × the smallest
/// drive (parity) or one drive (mirror); the group is cut into allocation units of 16 GiB or the
/// like and what does not fill one is lost. Space is *charged* to data at the rate of a 128 KiB
/// reference block, so that a group's charged capacity is its raw bytes × (128 KiB ÷ what 128 KiB
/// allocates). One allocation unit of each group of more than 64 is kept for the write log. Usable
/// = charged capacity − reserve − log space; the reserve is 1/32 of what is left beside the log, at
/// most 128 GiB, less the log space (at most by half), at least 128 MiB (or half of a tiny pool).
///
/// A stored block of size b on a group of width w, parity p, sector q: d = ⌈b/q⌉ data sectors, p
/// parity sectors per row of (w − p), the total rounded up to a multiple of p + 1.
///
/// A pool may have several sets of groups, each alike in itself; every set charges at its own rate,
/// and stored bytes spread over the sets in proportion to their charged capacity.
///
/// Changes. Groups added are a set of their own. Drives swapped for larger ones give their group
/// the new size once all are swapped; the allocation unit stays. A parity group that is widened
/// gives the drives' room at once, but goes on charging at the rate of the width it was made with,
/// for ever; blocks written from then on are laid out at the new width, older ones keep theirs.
///
/// Assumptions: 512-byte logical sectors, each drive given whole (a partition that starts at 1 MiB
/// and ends 8 MiB before the end). A group without redundancy is `width` separate drives, each its
/// own group. A change takes no time: how long drives copy is not modelled.
///
/// Ignored: several sector sizes in a pool, drives slower than the rest, deduplication; that an
/// emptier set takes more of what is written than a fuller one.
///
/// Invariants: one more drive never lowers usable; more parity never raises it; usable ≤ raw. (Of a
/// single odd-sized block more parity *can* allocate less: 5 sectors take 9 with two parity drives
/// and 8 with three, because of the rounding to p + 1.)
///
/// Sources: the OpenZFS sources' published rules for parity groups, labels and reserve (version 2.1
/// and later; cited in the tests beside each check); IDEMA LBA1-03; SFF-8447.

#include "core/site/site.h"
#include "core/units/units.h"

#include <cstdint>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

/// Bytes of a drive from its label. A label that is a whole number of decimal GB from 50 GB up gets
/// the standard's sector count for 512-byte sectors (4096-byte drives have the same bytes); any
/// other size is taken as exact, rounded down to whole sectors. 0 ≤ label < 1 PB.
std::int64_t drive_bytes(Bytes label);

/// Sectors (512-byte) by IDEMA LBA1-03, for 50 GB … 8 TB.
std::int64_t lba1_03_sectors_512(std::int64_t gigabytes);
/// Sectors (512-byte) by SFF-8447, above 8 TB: rounded up to 1 GiB.
std::int64_t sff_8447_sectors_512(std::int64_t gigabytes);

/// Bytes left of a drive after partitioning and labels; 0 if nothing is left.
/// The partition starts at sector 2048, leaves 16384 sectors at the end and has a length in whole
/// MiB; of it, whole 256 KiB less 4.5 MiB of labels and boot area.
std::int64_t labelled_bytes(std::int64_t drive_bytes);

/// The allocation unit of a group of `group_bytes`: about 16 pieces in a small group, 512 MiB up to
/// 100 GiB, about 200 pieces above, never under 16 MiB, and 16 GiB from 3 TB to 2 PB.
std::int64_t allocation_unit(std::int64_t group_bytes);

/// Kept back of `space` charged bytes (the log's not among them) in a pool whose logs have `log`.
std::int64_t reserve_bytes(std::int64_t space, std::int64_t log);

/// Bytes that `block` stored bytes allocate on a group, parity and padding included (for a mirror
/// and a single drive: rounded up to a sector, counted once).
/// block > 0; width > parity; sector a power of two from 512 to 65536.
std::int64_t allocated_bytes(std::int64_t block, int width, Redundancy, std::int64_t sector);

/// What the pool shows as the block's size: allocated × the reference rate, in units of 512 bytes
/// with the integer arithmetic of the published rule: (allocated ÷ 512) × ⌊131072 ÷ (what 128 KiB
/// allocates ÷ 512)⌋. Arguments as above.
std::int64_t charged_bytes(std::int64_t block, int width, Redundancy, std::int64_t sector);

/// Groups that are alike, as they are now.
struct GroupSet {
    int groups = 1, width = 1;
    Redundancy redundancy;
    std::int64_t drive = 0;  ///< label of a drive, bytes
    int width_made = 1;      ///< when the groups were made: sets what is charged
    std::int64_t unit = 0;   ///< allocation unit, set when they were made
    int log_units = 0;       ///< of a group, likewise
    bool operator==(const GroupSet&) const = default;
};

/// A pool as it is now, after the changes so far.
struct PoolShape {
    std::vector<GroupSet> sets;
    int spares = 0;
    std::int64_t spare_drive = 0;  ///< label, bytes
    std::int64_t sector = 4096;
    bool operator==(const PoolShape&) const = default;
};

/// Errors: as those of `capacity`.
tl::expected<PoolShape, std::string> shape_of(const Pool&);
/// Groups made anew beside those there. Errors: as those of `capacity`.
tl::expected<PoolShape, std::string> with_groups(PoolShape, const DriveGroups&);
/// `with_groups` for each set of another pool, and its spares (of the larger kind of drive).
tl::expected<PoolShape, std::string> with_pool(PoolShape, const Pool&);
/// The planned change made. Errors: a set that is not there, a drive no larger than those of the
/// set, a width not above the present one or of groups without parity, `resize`, and those of
/// `capacity`.
tl::expected<PoolShape, std::string> changed(PoolShape, const BoxChange&);

struct PoolCapacity {
    double label_bytes = 0;  ///< what the labels add up to, spares included
    double drive_bytes = 0;  ///< what the drives really have, spares included
    double spare_bytes = 0;  ///< labels of the spares
    double formatted_bytes =
        0;                     ///< on all drives in groups, after partition, label and unit losses
    double raw_bytes = 0;      ///< the same, a mirror's copies counted once
    double charged_bytes = 0;  ///< raw at the reference rate: after redundancy
    double reserve_bytes = 0;  ///< kept back by the pool
    double log_bytes = 0;      ///< charged size of the units kept for the write log
    double usable_bytes = 0;   ///< charged − reserve − log space
    bool operator==(const PoolCapacity&) const = default;
};

/// Ranges: groups 1…10000, width 1…255, mirror of 2…4 with width the same, parity 1…3 below the
/// width, spares 0…10000, sector a power of two from 512 B to 64 KiB, drive under 1 PB.
/// Errors: anything outside those, a drive under 64 MiB after partitioning, over 2 EB in all. Exact
/// up to 2^53 bytes (9 PB), to a part in 10^15 above.
tl::expected<PoolCapacity, std::string> capacity(const Pool&);
PoolCapacity capacity(const PoolShape&);  ///< of a shape made by the functions above
int drives_of(const PoolShape&);          ///< spares included

/// From what the labels add up to, down to what is yours.
struct CapacityStep {
    enum class What { labels, spares, partitions, redundancy, reserve, ceiling } what;
    double taken_bytes = 0;  ///< by this step; below 0 where drives have more than their label says
    double left_bytes = 0;   ///< after it
    bool operator==(const CapacityStep&) const = default;
};
/// Each step's left is the one before it less what it takes; the last two leave the usable bytes
/// and those below the ceiling (0 < ceiling ≤ 1).
std::vector<CapacityStep> capacity_steps(const PoolCapacity&, double ceiling);

/// How much of a pool's usable space one stored byte of a dataset takes: charged size of its mean
/// stored block (block ÷ ratio, rounded up to sectors; stored uncompressed if that saves less than
/// an eighth or less than a sector) × (1 + metadata share) ÷ (block ÷ ratio). Files smaller than
/// the block size are not modelled. A ratio below 1 counts as 1.
/// So a ratio between 1 and 8/7, which in truth is a mixture of blocks that shrank and blocks that
/// did not, is charged as if nothing had shrunk: up to 1/7 too much, never too little.
/// The pool must be one that `capacity` accepts and block_size at least 1 B; else the answer is
/// NaN.
double charge_per_stored_byte(const Pool&, Bytes block_size, double compression_ratio);
/// The same for what is written on the pool as it is now.
double charge_per_stored_byte(const PoolShape&, Bytes block_size, double compression_ratio);

/// Share of metadata by block size: 2 % at 8 KiB, 1 % at 16 KiB, 0.2 % at 128 KiB, 0.05 % at 1 MiB
/// (rounded up from measured rows, see the tests), a power of the size between them. Below 8 KiB it
/// doubles with each halving (a block's pointer has the same size), above 1 MiB it stays 0.05 %.
double metadata_share(Bytes block_size);

}  // namespace ullage
