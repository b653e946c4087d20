// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/pool/pool.h"

#include <fmt/format.h>
#include <algorithm>
#include <array>
#include <bit>
#include <cassert>
#include <cmath>
#include <limits>

namespace ullage {
namespace {

using std::int64_t;

constexpr int64_t sector_512 = 512;
constexpr int64_t bytes_per_gb = 1'000'000'000;
constexpr int64_t one_mib = int64_t{1} << 20;
constexpr int64_t one_gib = int64_t{1} << 30;

constexpr int64_t reference_block = int64_t{128} << 10;

constexpr int64_t label_granule = int64_t{256} << 10;
constexpr int64_t labels_and_boot_area = 4 * label_granule + (int64_t{7} << 19);
constexpr int64_t least_partition = 64 * one_mib;

constexpr int64_t partition_start_sectors = 2048;
constexpr int64_t partition_tail_sectors = 16384;
constexpr int64_t partition_table_sectors = 33;  // the second table, at the end of the drive
constexpr int64_t partition_align_sectors = 2048;

constexpr int most_groups = 10000;
constexpr int most_spares = 10000;
constexpr int widest_group = 255;
constexpr double largest_drive = 1e15;
constexpr double largest_pool = 2e18;  // keeps every sum below within 63 bits

int64_t divide_up(int64_t a, int64_t b) { return (a + b - 1) / b; }
int64_t round_up(int64_t a, int64_t unit) { return divide_up(a, unit) * unit; }
int64_t round_down(int64_t a, int64_t unit) { return a / unit * unit; }

int parity_of(Redundancy r) { return r.kind == Redundancy::Kind::parity ? r.n : 0; }

/// The power of two above `a` (above, not at, a power of two itself).
int64_t power_of_two_above(int64_t a) {
    return int64_t{1} << std::bit_width(static_cast<std::uint64_t>(a));
}

/// Charged units (1/512) per allocated 512 bytes.
int64_t reference_rate(int width, Redundancy redundancy, int64_t sector) {
    return reference_block /
           (allocated_bytes(reference_block, width, redundancy, sector) / sector_512);
}

std::string fault_of_groups(const GroupSet& pool) {
    const Redundancy r = pool.redundancy;
    if (pool.groups < 1 || pool.groups > most_groups) {
        return fmt::format("a pool has 1 to {} groups of drives, not {}", most_groups, pool.groups);
    }
    if (pool.width < 1 || pool.width > widest_group) {
        return fmt::format("a group has 1 to {} drives, not {}", widest_group, pool.width);
    }
    switch (r.kind) {
        case Redundancy::Kind::none:
            if (r.n != 1) {
                return fmt::format("without redundancy there is 1 copy, not {}", r.n);
            }
            break;
        case Redundancy::Kind::mirror:
            if (r.n < 2 || r.n > 4) {
                return fmt::format("a mirror has 2 to 4 copies, not {}", r.n);
            }
            if (pool.width != r.n) {
                return fmt::format("a mirror of {} has {} drives in a group, not {}", r.n, r.n,
                                   pool.width);
            }
            break;
        case Redundancy::Kind::parity:
            if (r.n < 1 || r.n > 3) {
                return fmt::format("a group has 1 to 3 parity drives, not {}", r.n);
            }
            if (r.n >= pool.width) {
                return fmt::format(
                    "{} parity drives leave no room for data in a group of {}: at least {} drives "
                    "are needed",
                    r.n, pool.width, r.n + 1);
            }
            break;
    }
    return {};
}

std::string fault_of_drive(Bytes drive) {
    const double label = drive.value;
    if (!(label > 0 && label < largest_drive)) {
        return fmt::format("a drive has more than 0 and less than {} bytes, not {}", largest_drive,
                           label);
    }
    const int64_t left = labelled_bytes(drive_bytes(drive));
    if (left + labels_and_boot_area < least_partition) {
        return fmt::format(
            "a drive of {} bytes has {} left after partitioning; at least {} are needed", label,
            left > 0 ? left + labels_and_boot_area : 0, least_partition);
    }
    return {};
}

std::string fault_of_sector(Bytes size) {
    const double sector = size.value;
    if (!(sector >= 512 && sector <= 65536) || sector != std::floor(sector) ||
        !std::has_single_bit(static_cast<std::uint64_t>(sector))) {
        return fmt::format("a sector is a power of two from 512 to 65536 bytes, not {}", sector);
    }
    return {};
}

std::string fault_of_total(const PoolShape& shape) {
    double drives = shape.spares;
    double bytes = drives * static_cast<double>(shape.spare_drive);
    for (const GroupSet& set : shape.sets) {
        const double here = static_cast<double>(set.groups) * set.width;
        drives += here;
        bytes += here * static_cast<double>(set.drive);
    }
    if (bytes <= largest_pool) return {};
    return fmt::format("{} drives of {} bytes in all are more than the {} bytes a pool can have",
                       drives, bytes, largest_pool);
}

bool is_parity(const GroupSet& set) { return set.redundancy.kind == Redundancy::Kind::parity; }

/// Where the allocator sees one group each: every drive is its own without redundancy.
int64_t groups_seen(const GroupSet& set) {
    const bool none = set.redundancy.kind == Redundancy::Kind::none;
    return static_cast<int64_t>(set.groups) * (none ? set.width : 1);
}

/// Of one group, before it is cut into units.
int64_t group_bytes(const GroupSet& set) {
    return labelled_bytes(drive_bytes(Bytes{static_cast<double>(set.drive)})) *
           (is_parity(set) ? set.width : 1);
}

int64_t charged_unit(const GroupSet& set, int64_t sector) {
    return set.unit / sector_512 * reference_rate(set.width_made, set.redundancy, sector);
}

int64_t charged_of(const GroupSet& set, int64_t sector) {
    return groups_seen(set) * (group_bytes(set) / set.unit) * charged_unit(set, sector);
}

template <class Groups>
tl::expected<GroupSet, std::string> made(const Groups& groups) {
    GroupSet set;
    set.groups = groups.groups;
    set.width = set.width_made = groups.width;
    set.redundancy = groups.redundancy;
    std::string fault = fault_of_groups(set);
    if (fault.empty()) fault = fault_of_drive(groups.drive.value);
    if (!fault.empty()) return tl::make_unexpected(std::move(fault));
    set.drive = std::llround(groups.drive.value.value);
    set.unit = allocation_unit(group_bytes(set));
    set.log_units = group_bytes(set) / set.unit > 64 ? 1 : 0;
    return set;
}

}  // namespace

int64_t lba1_03_sectors_512(int64_t gigabytes) { return 97'696'368 + 1'953'504 * (gigabytes - 50); }

int64_t sff_8447_sectors_512(int64_t gigabytes) {
    return round_up(gigabytes * bytes_per_gb, one_gib) / sector_512;
}

int64_t drive_bytes(Bytes label) {
    const double gigabytes = std::round(label.value / 1e9);
    // "1.92 TB" arrives as 1.92 × 10^12 give or take a rounding error
    const bool whole = std::abs(label.value - gigabytes * 1e9) < 0.5;
    if (whole && gigabytes >= 50) {
        const auto gb = static_cast<int64_t>(gigabytes);
        return (gb <= 8000 ? lba1_03_sectors_512(gb) : sff_8447_sectors_512(gb)) * sector_512;
    }
    return round_down(static_cast<int64_t>(std::floor(label.value)), sector_512);
}

int64_t labelled_bytes(int64_t drive_bytes) {
    const int64_t free_sectors = drive_bytes / sector_512 - partition_table_sectors -
                                 partition_tail_sectors - partition_start_sectors;
    if (free_sectors <= 0) return 0;
    const int64_t partition = round_down(free_sectors, partition_align_sectors) * sector_512;
    return std::max<int64_t>(0, round_down(partition, label_granule) - labels_and_boot_area);
}

int64_t allocation_unit(int64_t group_bytes) {
    constexpr int64_t usual = 512 * one_mib;
    constexpr int64_t least = 16 * one_mib;
    constexpr int64_t most = 16 * one_gib;
    constexpr int64_t most_units = int64_t{1} << 17;

    const int64_t usual_units = group_bytes / usual;
    int64_t unit = usual;
    if (usual_units < 16) {
        unit = power_of_two_above(group_bytes / 16);
    } else if (usual_units > 200) {
        unit = power_of_two_above(group_bytes / 200);
    }
    if (unit < least) return least;
    if (unit <= most) return unit;
    return group_bytes / most > most_units ? power_of_two_above(group_bytes / most_units) : most;
}

int64_t reserve_bytes(int64_t space, int64_t log) {
    int64_t reserve = std::min(space / 32, 128 * one_gib);
    reserve -= std::min(log, reserve / 2);
    return std::max(reserve, std::min(space / 2, 128 * one_mib));
}

int64_t allocated_bytes(int64_t block, int width, Redundancy redundancy, int64_t sector) {
    const int parity = parity_of(redundancy);
    assert(block > 0 && sector > 0 && width > parity);
    const int64_t data = divide_up(block, sector);
    if (parity == 0) return data * sector;
    const int64_t with_parity = data + parity * divide_up(data, width - parity);
    return round_up(with_parity, parity + 1) * sector;
}

int64_t charged_bytes(int64_t block, int width, Redundancy redundancy, int64_t sector) {
    return allocated_bytes(block, width, redundancy, sector) / sector_512 *
           reference_rate(width, redundancy, sector);
}

tl::expected<PoolShape, std::string> shape_of(const Pool& pool) {
    if (pool.spares < 0 || pool.spares > most_spares) {
        return tl::make_unexpected(
            fmt::format("a pool has 0 to {} spare drives, not {}", most_spares, pool.spares));
    }
    if (std::string fault = fault_of_sector(pool.sector.value); !fault.empty()) {
        return tl::make_unexpected(std::move(fault));
    }
    auto first = made(pool);
    if (!first) return tl::make_unexpected(std::move(first.error()));
    PoolShape shape;
    shape.sets.push_back(*first);
    shape.spares = pool.spares;
    shape.spare_drive = pool.spares > 0 ? first->drive : 0;
    shape.sector = std::llround(pool.sector.value.value);
    if (std::string fault = fault_of_total(shape); !fault.empty()) {
        return tl::make_unexpected(std::move(fault));
    }
    for (const DriveGroups& groups : pool.further) {
        auto more = with_groups(std::move(shape), groups);
        if (!more) return more;
        shape = *std::move(more);
    }
    return shape;
}

tl::expected<PoolShape, std::string> with_groups(PoolShape shape, const DriveGroups& groups) {
    if (groups.sector && std::llround(groups.sector->value.value) != shape.sector) {
        return tl::make_unexpected(
            fmt::format("sectors of {} bytes beside sectors of {} in one pool are not modelled",
                        groups.sector->value.value, shape.sector));
    }
    auto set = made(groups);
    if (!set) return tl::make_unexpected(std::move(set.error()));
    shape.sets.push_back(*set);
    if (std::string fault = fault_of_total(shape); !fault.empty()) {
        return tl::make_unexpected(std::move(fault));
    }
    return shape;
}

tl::expected<PoolShape, std::string> with_pool(PoolShape shape, const Pool& pool) {
    auto more = shape_of(pool);
    if (!more) return more;
    if (more->sector != shape.sector) {
        return tl::make_unexpected(
            fmt::format("sectors of {} bytes beside sectors of {} in one pool are not modelled",
                        more->sector, shape.sector));
    }
    shape.sets.insert(shape.sets.end(), more->sets.begin(), more->sets.end());
    shape.spares += more->spares;
    shape.spare_drive = std::max(shape.spare_drive, more->spare_drive);
    if (std::string fault = fault_of_total(shape); !fault.empty()) {
        return tl::make_unexpected(std::move(fault));
    }
    return shape;
}

tl::expected<PoolShape, std::string> changed(PoolShape shape, const BoxChange& change) {
    if (change.kind == BoxChange::Kind::add_groups)
        return with_groups(std::move(shape), change.added);
    if (change.kind == BoxChange::Kind::resize) {
        return tl::make_unexpected(
            std::string("a pool is changed by its drives, not by a usable size"));
    }
    if (change.set < 1 || change.set > static_cast<int>(shape.sets.size())) {
        return tl::make_unexpected(fmt::format("there is no set {} of groups; the pool has {} then",
                                               change.set, shape.sets.size()));
    }
    GroupSet& set = shape.sets[static_cast<std::size_t>(change.set - 1)];
    if (change.kind == BoxChange::Kind::widen) {
        if (!is_parity(set)) {
            return tl::make_unexpected(
                std::string("only parity groups are widened; groups of another kind are added"));
        }
        if (change.width <= set.width) {
            return tl::make_unexpected(fmt::format("groups of {} drives cannot be widened to {}",
                                                   set.width, change.width));
        }
        set.width = change.width;
    } else {
        if (std::string fault = fault_of_drive(change.drive.value); !fault.empty()) {
            return tl::make_unexpected(std::move(fault));
        }
        const int64_t drive = std::llround(change.drive.value.value);
        if (drive <= set.drive) {
            return tl::make_unexpected(
                fmt::format("drives of {} bytes are no larger than those of {} that they replace",
                            drive, set.drive));
        }
        if (shape.spares > 0) shape.spare_drive = std::max(shape.spare_drive, drive);
        set.drive = drive;
    }
    std::string fault = fault_of_groups(set);
    if (fault.empty()) fault = fault_of_total(shape);
    if (!fault.empty()) return tl::make_unexpected(std::move(fault));
    return shape;
}

int drives_of(const PoolShape& shape) {
    int drives = shape.spares;
    for (const GroupSet& set : shape.sets) drives += set.groups * set.width;
    return drives;
}

tl::expected<PoolCapacity, std::string> capacity(const Pool& pool) {
    const auto shape = shape_of(pool);
    if (!shape) return tl::make_unexpected(shape.error());
    return capacity(*shape);
}

PoolCapacity capacity(const PoolShape& shape) {
    int64_t drive_total = shape.spares * drive_bytes(Bytes{static_cast<double>(shape.spare_drive)});
    int64_t raw = 0, formatted = 0, charged = 0, log = 0;
    PoolCapacity c;
    c.spare_bytes = static_cast<double>(shape.spares * shape.spare_drive);
    c.label_bytes = c.spare_bytes;
    for (const GroupSet& set : shape.sets) {
        const int64_t drives = static_cast<int64_t>(set.groups) * set.width;
        c.label_bytes += static_cast<double>(drives * set.drive);
        drive_total += drives * drive_bytes(Bytes{static_cast<double>(set.drive)});
        const int64_t in_units = groups_seen(set) * (group_bytes(set) / set.unit) * set.unit;
        raw += in_units;
        formatted += in_units * (set.redundancy.kind == Redundancy::Kind::mirror ? set.width : 1);
        charged += charged_of(set, shape.sector);
        log += groups_seen(set) * set.log_units * charged_unit(set, shape.sector);
    }
    const int64_t space = charged - log;
    const int64_t reserve = reserve_bytes(space, log);
    c.drive_bytes = static_cast<double>(drive_total);
    c.formatted_bytes = static_cast<double>(formatted);
    c.raw_bytes = static_cast<double>(raw);
    c.charged_bytes = static_cast<double>(charged);
    c.reserve_bytes = static_cast<double>(reserve);
    c.log_bytes = static_cast<double>(log);
    c.usable_bytes = static_cast<double>(space - reserve);
    return c;
}

std::vector<CapacityStep> capacity_steps(const PoolCapacity& c, double ceiling) {
    using What = CapacityStep::What;
    std::vector<CapacityStep> steps{{What::labels, 0, c.label_bytes}};
    const auto down_to = [&](What what, double left) {
        steps.push_back({what, steps.back().left_bytes - left, left});
    };
    if (c.spare_bytes > 0) down_to(What::spares, c.label_bytes - c.spare_bytes);
    down_to(What::partitions, c.formatted_bytes);
    down_to(What::redundancy, c.charged_bytes);
    down_to(What::reserve, c.usable_bytes);
    down_to(What::ceiling, c.usable_bytes * ceiling);
    return steps;
}

double charge_per_stored_byte(const Pool& pool, Bytes block_size, double compression_ratio) {
    const auto shape = shape_of(pool);
    return shape ? charge_per_stored_byte(*shape, block_size, compression_ratio)
                 : std::numeric_limits<double>::quiet_NaN();
}

double charge_per_stored_byte(const PoolShape& shape, Bytes block_size, double compression_ratio) {
    if (!(block_size.value >= 1 && block_size.value < largest_drive) || !(compression_ratio > 0)) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    const auto block = static_cast<int64_t>(std::llround(block_size.value));
    const double mean = static_cast<double>(block) / std::max(1.0, compression_ratio);

    int64_t stored = std::max<int64_t>(1, static_cast<int64_t>(std::ceil(mean)));
    // a block that saves less than a sector takes as many sectors as if it were not compressed
    if (stored > block - block / 8) stored = block;

    double charged = 0;
    double shares = 0;
    for (const GroupSet& set : shape.sets) {
        const auto share = static_cast<double>(charged_of(set, shape.sector));
        const int64_t allocated = allocated_bytes(stored, set.width, set.redundancy, shape.sector);
        charged += share * static_cast<double>(
                               allocated / sector_512 *
                               reference_rate(set.width_made, set.redundancy, shape.sector));
        shares += share;
    }
    return charged / shares * (1 + metadata_share(block_size)) / mean;
}

double metadata_share(Bytes block_size) {
    struct Point {
        double log2_bytes, share;
    };
    constexpr std::array<Point, 4> points{{{13, 0.02}, {14, 0.01}, {17, 0.002}, {20, 0.0005}}};
    const double x = std::log2(std::max(1.0, block_size.value));
    if (x <= points.front().log2_bytes) {
        return points.front().share * std::exp2(points.front().log2_bytes - x);
    }
    for (std::size_t i = 1; i < points.size(); ++i) {
        const Point a = points[i - 1], b = points[i];
        if (x > b.log2_bytes) continue;
        const double t = (x - a.log2_bytes) / (b.log2_bytes - a.log2_bytes);
        return a.share * std::pow(b.share / a.share, t);
    }
    return points.back().share;
}

}  // namespace ullage
