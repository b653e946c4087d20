// SPDX-License-Identifier: GPL-3.0-or-later
// Published values are from the OpenZFS sources and manual pages (named by file), its
// documentation, and outputs that people posted in its issues (named by number). The file system is
// cited as a published source of rules.
#include "core/pool/pool.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <limits>
#include <ostream>
#include <random>
#include <string>
#include <vector>

namespace ullage {
namespace {

using std::int64_t;

constexpr int64_t KiB = 1024;
constexpr double GiB = 1073741824.0;
constexpr double TiB = 1099511627776.0;

Redundancy parity(int p) { return {Redundancy::Kind::parity, p}; }
Redundancy mirror(int copies) { return {Redundancy::Kind::mirror, copies}; }
Redundancy no_redundancy() { return {}; }

Pool pool_of(int groups, int width, Redundancy r, double drive_tb, double sector = 4096) {
    Pool p;
    p.groups = groups;
    p.width = width;
    p.redundancy = r;
    p.drive = Bytes{drive_tb * 1e12};
    p.sector = Bytes{sector};
    return p;
}

PoolCapacity capacity_of(const Pool& pool) {
    const auto c = capacity(pool);
    EXPECT_TRUE(c.has_value()) << c.error();
    return c.value_or(PoolCapacity{});
}

// --- Blocks on a group -----------------------------------------------------------------------

struct BlockCase {
    const char* source;
    int width, p;
    int64_t sector, block, allocated, charged;  // charged -1: none published
};

TEST(ParityGroup, PublishedWorkedExamplesComeOutExactly) {
    const std::vector<BlockCase> cases{
        {"lib/libzfs/libzfs_dataset.c", 5, 1, 4096, 128 * KiB, 160 * KiB, -1},
        {"lib/libzfs/libzfs_dataset.c, charged 6.4K", 5, 1, 4096, 4 * KiB, 8 * KiB, 6544},
        {"lib/libzfs/libzfs_dataset.c, charged 12.8K", 5, 1, 4096, 8 * KiB, 16 * KiB, 13088},
        {"documentation, RAIDZ page", 3, 1, 4096, 4 * KiB, 8 * KiB, -1},
        {"documentation, RAIDZ page: 16 stripes of 12K", 3, 1, 4096, 128 * KiB, 192 * KiB, -1},
        {"issue 4544: 12288 allocated, 9528 charged", 9, 2, 512, 8 * KiB, 12288, 9528},
        {"issue 8163: 6 sectors of 64K", 11, 2, 65536, 128 * KiB, 6 * 65536, -1},
    };
    for (const auto& c : cases) {
        SCOPED_TRACE(c.source);
        EXPECT_EQ(allocated_bytes(c.block, c.width, parity(c.p), c.sector), c.allocated);
        if (c.charged >= 0) {
            EXPECT_EQ(charged_bytes(c.block, c.width, parity(c.p), c.sector), c.charged);
        }
    }
}

TEST(ParityGroup, ChargedSizesOfThePublishedExamplesAreWithinRoundingOfTheText) {
    // lib/libzfs/libzfs_dataset.c, "theory of raidz space accounting"
    EXPECT_NEAR(charged_bytes(128 * KiB, 5, parity(1), 4096) / 1024.0, 128, 0.2);
    EXPECT_NEAR(charged_bytes(4 * KiB, 5, parity(1), 4096) / 1024.0, 6.4, 0.05);
    EXPECT_NEAR(charged_bytes(8 * KiB, 5, parity(1), 4096) / 1024.0, 12.8, 0.05);
}

TEST(ParityGroup, AllocationsAreWholeMultiplesOfParityPlusOne) {
    // module/zfs/vdev_raidz.c: every free run must be able to hold one data sector
    for (int p = 1; p <= 3; ++p) {
        for (int width = p + 1; width <= 24; ++width) {
            for (int64_t block = 512; block <= 256 * KiB; block += 1536) {
                const int64_t sectors = allocated_bytes(block, width, parity(p), 512) / 512;
                ASSERT_EQ(sectors % (p + 1), 0) << width << " wide, parity " << p;
            }
        }
    }
}

TEST(ParityGroup, ABlockOfOneSectorCostsParityPlusOneAtAnyWidth) {
    // module/zfs/vdev_raidz.c, comment above vdev_raidz_psize_to_asize()
    for (int p = 1; p <= 3; ++p) {
        for (int width = p + 1; width <= 30; ++width) {
            EXPECT_EQ(allocated_bytes(1, width, parity(p), 4096), (p + 1) * 4096);
            EXPECT_EQ(allocated_bytes(4096, width, parity(p), 4096), (p + 1) * 4096);
        }
    }
}

TEST(ParityGroup, OverheadOfSmallBlocksMatchesIssue3255) {
    // 8 wide, two parity drives, 4K sectors: 213 % at 8K, "about 7 %" more at 16K to 64K, 0 at 128K
    const auto percent = [](int64_t block) {
        return 100.0 * static_cast<double>(charged_bytes(block, 8, parity(2), 4096)) /
               static_cast<double>(block);
    };
    EXPECT_NEAR(percent(8 * KiB), 213, 0.5);
    for (const int64_t kib_size : {16, 32, 64}) EXPECT_NEAR(percent(kib_size * KiB), 107, 0.5);
    EXPECT_NEAR(percent(128 * KiB), 100, 0.1);
}

TEST(ParityGroup, AGibibyteIn256KRecordsIsChargedLessThanItsSizeAsInIssue17201) {
    // 4 wide, one parity drive: 1,023,849 KiB shown, of which 105 KiB are metadata
    const int64_t charged = charged_bytes(256 * KiB, 4, parity(1), 4096) * 4096;
    EXPECT_EQ(charged, int64_t{1'023'744} * KiB);
}

TEST(ParityGroup, FullVolumesMatchTheOutputsInIssues1807And11640) {
    // 6 wide, two parity drives, 8K blocks, 10 GiB full: used 20.3G
    const Pool six = pool_of(1, 6, parity(2), 3);
    EXPECT_NEAR(10 * charge_per_stored_byte(six, kib(8), 1), 20.3, 20.3 * 0.01);
    EXPECT_EQ(allocated_bytes(8 * KiB, 6, parity(2), 4096) * (10 << 17), int64_t{32'212'254'720});
    // 5 wide, one parity drive, 8K blocks: 15T need 24.5T
    const Pool five = pool_of(1, 5, parity(1), 8);
    EXPECT_NEAR(15 * charge_per_stored_byte(five, kib(8), 1), 24.5, 24.5 * 0.01);
}

TEST(ParityGroup, RawAndChargedSizesOfIssue6954Agree) {
    // 5 wide, one parity drive: 101G allocated shown as 80.5G used; both rounded to what is printed
    const double rate = charged_bytes(128 * KiB, 5, parity(1), 4096) /
                        static_cast<double>(allocated_bytes(128 * KiB, 5, parity(1), 4096));
    EXPECT_LE(100.5 * rate, 80.55);
    EXPECT_GE(101.5 * rate, 80.45);
}

struct VolumeRow {
    int width;
    double measured[4];  // 4K sectors parity 1, parity 2; 512 B sectors parity 1, parity 2
    double computed[4];
};

TEST(ParityGroup, EveryMeasuredVolumeOverheadIsUpToTwoPercentMetadataAboveTheFormula) {
    // Percent of size that fully written volumes of 8K blocks took, measured by an answerer of the
    // Server Fault question "strange ZFS disk space usage report for a ZVOL"; and our own formula.
    const std::vector<VolumeRow> rows{
        {3, {135, 101, 101, 101}, {133.2, 99.6, 99.9, 99.6}},
        {4, {148, 148, 104, 104}, {145.3, 145.3, 102.9, 102.7}},
        {5, {162, 181, 101, 113}, {159.8, 177.5, 99.9, 111.7}},
        {6, {162, 203, 105, 101}, {159.8, 199.8, 103.8, 99.9}},
        {7, {171, 203, 108, 108}, {168.4, 199.8, 106.4, 106.6}},
        {8, {171, 217, 110, 114}, {168.4, 213.3, 108.6, 112.2}},
        {9, {181, 232, 101, 118}, {177.7, 228.5, 100.0, 116.3}},
        {10, {181, 232, 102, 106}, {177.7, 228.5, 100.6, 104.6}},
        {11, {181, 232, 103, 108}, {177.7, 228.5, 102.0, 106.6}},
        {12, {181, 232, 104, 110}, {177.7, 228.5, 102.8, 108.7}},
    };
    int cells = 0;
    for (const auto& row : rows) {
        for (int i = 0; i < 4; ++i, ++cells) {
            const int64_t sector = i < 2 ? 4096 : 512;
            const int p = i % 2 + 1;
            SCOPED_TRACE(::testing::Message()
                         << row.width << " wide, parity " << p << ", sector " << sector);
            const double percent =
                100.0 * static_cast<double>(charged_bytes(8192, row.width, parity(p), sector)) /
                8192;
            EXPECT_NEAR(percent, row.computed[i], 0.051);
            // the measured figures are whole percents: half of one is their rounding
            EXPECT_GE((row.measured[i] + 0.5) / percent, 1.01);
            EXPECT_LE((row.measured[i] - 0.5) / percent, 1.02);
            EXPECT_GE(row.measured[i] / percent, 1.00);
            EXPECT_LE(row.measured[i] / percent, 1.0205);
        }
    }
    EXPECT_EQ(cells, 40);
}

struct TableRow {
    int width, p, rate;
    int64_t allocated_kib[8];
    double percent[8];
};

TEST(ParityGroup, TableOfAllocatedAndChargedSizesIsUnchanged) {
    // Computed once from module/zfs/vdev_raidz.c and vdev.c: a regression table, 4 KiB sectors.
    const int64_t blocks[8] = {4, 8, 16, 32, 64, 128, 256, 1024};
    const std::vector<TableRow> rows{
        {3,
         1,
         341,
         {8, 16, 24, 48, 96, 192, 384, 1536},
         {133.2, 133.2, 99.9, 99.9, 99.9, 99.9, 99.9, 99.9}},
        {4,
         1,
         372,
         {8, 16, 24, 48, 88, 176, 344, 1368},
         {145.3, 145.3, 109.0, 109.0, 99.9, 99.9, 97.6, 97.1}},
        {5,
         1,
         409,
         {8, 16, 24, 40, 80, 160, 320, 1280},
         {159.8, 159.8, 119.8, 99.9, 99.9, 99.9, 99.9, 99.9}},
        {6,
         1,
         409,
         {8, 16, 24, 40, 80, 160, 312, 1232},
         {159.8, 159.8, 119.8, 99.9, 99.9, 99.9, 97.4, 96.1}},
        {8,
         1,
         431,
         {8, 16, 24, 40, 80, 152, 296, 1176},
         {168.4, 168.4, 126.3, 105.2, 105.2, 100.0, 97.3, 96.7}},
        {4,
         2,
         248,
         {12, 24, 36, 72, 132, 264, 516, 2052},
         {145.3, 145.3, 109.0, 109.0, 99.9, 99.9, 97.6, 97.1}},
        {5,
         2,
         303,
         {12, 24, 36, 60, 120, 216, 432, 1716},
         {177.5, 177.5, 133.2, 111.0, 111.0, 99.9, 99.9, 99.2}},
        {6,
         2,
         341,
         {12, 24, 24, 48, 96, 192, 384, 1536},
         {199.8, 199.8, 99.9, 99.9, 99.9, 99.9, 99.9, 99.9}},
        {7,
         2,
         341,
         {12, 24, 24, 48, 96, 192, 360, 1440},
         {199.8, 199.8, 99.9, 99.9, 99.9, 99.9, 93.7, 93.7}},
        {8,
         2,
         364,
         {12, 24, 24, 48, 96, 180, 348, 1368},
         {213.3, 213.3, 106.6, 106.6, 106.6, 100.0, 96.6, 95.0}},
        {9,
         2,
         390,
         {12, 24, 24, 48, 96, 168, 336, 1320},
         {228.5, 228.5, 114.3, 114.3, 114.3, 100.0, 100.0, 98.2}},
        {10,
         2,
         390,
         {12, 24, 24, 48, 84, 168, 324, 1284},
         {228.5, 228.5, 114.3, 114.3, 100.0, 100.0, 96.4, 95.5}},
        {11,
         2,
         390,
         {12, 24, 24, 48, 84, 168, 324, 1260},
         {228.5, 228.5, 114.3, 114.3, 100.0, 100.0, 96.4, 93.7}},
        {12,
         2,
         390,
         {12, 24, 24, 48, 84, 168, 312, 1236},
         {228.5, 228.5, 114.3, 114.3, 100.0, 100.0, 92.8, 91.9}},
        {7,
         3,
         292,
         {16, 32, 32, 64, 112, 224, 448, 1792},
         {228.1, 228.1, 114.1, 114.1, 99.8, 99.8, 99.8, 99.8}},
        {8,
         3,
         292,
         {16, 32, 32, 64, 112, 224, 416, 1648},
         {228.1, 228.1, 114.1, 114.1, 99.8, 99.8, 92.7, 91.8}},
        {11,
         3,
         372,
         {16, 32, 32, 48, 96, 176, 352, 1408},
         {290.6, 290.6, 145.3, 109.0, 109.0, 99.9, 99.9, 99.9}},
        {12,
         3,
         372,
         {16, 32, 32, 48, 96, 176, 352, 1376},
         {290.6, 290.6, 145.3, 109.0, 109.0, 99.9, 99.9, 97.6}},
    };
    for (const auto& row : rows) {
        for (int i = 0; i < 8; ++i) {
            SCOPED_TRACE(::testing::Message()
                         << row.width << " wide, parity " << row.p << ", " << blocks[i] << " KiB");
            const int64_t block = blocks[i] * KiB;
            const int64_t allocated = allocated_bytes(block, row.width, parity(row.p), 4096);
            const int64_t charged = charged_bytes(block, row.width, parity(row.p), 4096);
            EXPECT_EQ(allocated, row.allocated_kib[i] * KiB);
            EXPECT_EQ(charged, allocated / 512 * row.rate);
            EXPECT_NEAR(100.0 * static_cast<double>(charged) / static_cast<double>(block),
                        row.percent[i], 0.051);
        }
    }
}

TEST(ParityGroup, ALargerBlockOfTheSameRemainderNeverCostsMorePerByte) {
    // A period of (width − parity) × (parity + 1) sectors adds whole rows and whole roundings, so neither padding
    // nor the last row differs.
    for (int p = 1; p <= 3; ++p) {
        for (int width = p + 1; width <= 20; ++width) {
            const int64_t period = int64_t{width - p} * (p + 1);
            for (int64_t sectors = 1; sectors <= 300; ++sectors) {
                const auto cost = [&](int64_t n) {
                    return static_cast<double>(allocated_bytes(n * 4096, width, parity(p), 4096)) /
                           static_cast<double>(n);
                };
                ASSERT_LE(cost(sectors + period), cost(sectors) * (1 + 1e-12)) << width << " " << p << " " << sectors;
            }
        }
    }
}

TEST(ParityGroup, AllocatedIsNeverLessThanTheBlock) {
    std::mt19937_64 random(1);
    for (int i = 0; i < 20000; ++i) {
        const int p = std::uniform_int_distribution<int>(0, 3)(random);
        const int width = p + std::uniform_int_distribution<int>(1, 40)(random);
        const int64_t block = std::uniform_int_distribution<int64_t>(1, 16 << 20)(random);
        const int64_t sector = int64_t{512} << std::uniform_int_distribution<int>(0, 7)(random);
        const Redundancy r = p == 0 ? no_redundancy() : parity(p);
        const int64_t allocated = allocated_bytes(block, width, r, sector);
        ASSERT_GE(allocated, block);
        ASSERT_EQ(allocated % sector, 0);
        if (p > 0) {
            ASSERT_GE(allocated,
                      allocated_bytes(block, width, no_redundancy(), sector) + p * sector);
        }
    }
}

TEST(Mirror, ABlockIsRoundedUpToASectorAndCountedOnce) {
    // default of module/zfs/vdev.c (from memory)
    for (int copies = 2; copies <= 4; ++copies) {
        EXPECT_EQ(allocated_bytes(8192, copies, mirror(copies), 4096), 8192);
        EXPECT_EQ(allocated_bytes(8193, copies, mirror(copies), 4096), 12288);
        EXPECT_EQ(charged_bytes(8193, copies, mirror(copies), 4096), 12288);
    }
    EXPECT_EQ(charged_bytes(1, 1, no_redundancy(), 512), 512);
}

// --- Drives ----------------------------------------------------------------------------------

struct DriveRow {
    double tb;
    int64_t sectors_512, sectors_4096, bytes;
    double tib, nominal_tib;
};

TEST(Drive, BytesFollowTheIndustryStandards) {
    // LBA1-03 to 8 TB, SFF-8447 Rev 0.5 s. 4.2.1 above; LBA counts of 1, 4, 6 … 26 TB as listed by
    // real drives, those of 2, 3 and 30 TB computed.
    const std::vector<DriveRow> rows{
        {1, 1'953'525'168, 244'190'646, 1'000'204'886'016, 0.9097, 0.9095},
        {2, 3'907'029'168, 488'378'646, 2'000'398'934'016, 1.8194, 1.8190},
        {3, 5'860'533'168, 732'566'646, 3'000'592'982'016, 2.7290, 2.7285},
        {4, 7'814'037'168, 976'754'646, 4'000'787'030'016, 3.6387, 3.6380},
        {6, 11'721'045'168, 1'465'130'646, 6'001'175'126'016, 5.4580, 5.4570},
        {8, 15'628'053'168, 1'953'506'646, 8'001'563'222'016, 7.2774, 7.2760},
        {10, 19'532'873'728, 2'441'609'216, 10'000'831'348'736, 9.0957, 9.0949},
        {12, 23'437'770'752, 2'929'721'344, 12'000'138'625'024, 10.9141, 10.9139},
        {14, 27'344'764'928, 3'418'095'616, 14'000'519'643'136, 12.7334, 12.7329},
        {16, 31'251'759'104, 3'906'469'888, 16'000'900'661'248, 14.5527, 14.5519},
        {18, 35'156'656'128, 4'394'582'016, 18'000'207'937'536, 16.3711, 16.3709},
        {20, 39'063'650'304, 4'882'956'288, 20'000'588'955'648, 18.1904, 18.1899},
        {22, 42'970'644'480, 5'371'330'560, 22'000'969'973'760, 20.0098, 20.0089},
        {24, 46'875'541'504, 5'859'442'688, 24'000'277'250'048, 21.8281, 21.8279},
        {26, 50'782'535'680, 6'347'816'960, 26'000'658'268'160, 23.6475, 23.6469},
        {30, 58'594'426'880, 7'324'303'360, 30'000'346'562'560, 27.2852, 27.2848},
    };
    for (const auto& row : rows) {
        SCOPED_TRACE(row.tb);
        const int64_t bytes = drive_bytes(Bytes{row.tb * 1e12});
        EXPECT_EQ(bytes, row.bytes);
        EXPECT_EQ(bytes / 512, row.sectors_512);
        EXPECT_EQ(bytes % 4096, 0);
        EXPECT_EQ(bytes / 4096, row.sectors_4096);
        EXPECT_NEAR(static_cast<double>(bytes) / TiB, row.tib, 0.00006);
        EXPECT_NEAR(row.tb * 1e12 / TiB, row.nominal_tib, 0.00006);
    }
}

TEST(Drive, EightyGigabytesHaveTheSectorsOfTheStandardsExample) {
    EXPECT_EQ(lba1_03_sectors_512(80), 156'301'488);  // LBA1-02's own example
}

TEST(Drive, TheOldFormulaWouldOverstateTwentyTerabytes) {
    EXPECT_EQ(lba1_03_sectors_512(20000), 39'070'101'168);
    EXPECT_EQ(sff_8447_sectors_512(20000), 39'063'650'304);
    EXPECT_EQ(drive_bytes(Bytes{20e12}), sff_8447_sectors_512(20000) * 512);
}

TEST(Drive, ASizeThatIsNotWholeGigabytesIsTakenAsExact) {
    EXPECT_EQ(drive_bytes(Bytes{1e12 + 1000}), int64_t{1'000'000'000'512});  // less 488 B
    EXPECT_EQ(drive_bytes(Bytes{10 * GiB}), 10 * (int64_t{1} << 30));
    EXPECT_EQ(drive_bytes(Bytes{16e9}), int64_t{16'000'000'000});  // under 50 GB: no standard
    EXPECT_EQ(drive_bytes(Bytes{1.92 * 1e12}), lba1_03_sectors_512(1920) * 512);
}

TEST(Drive, PartitionAndLabelsTakeWhatThePublishedRulesTake) {
    // lib/libzfs/os/linux/libzfs_pool_os.c and include/sys/vdev_impl.h: an 8 TB drive
    EXPECT_EQ(labelled_bytes(8'001'563'222'016), int64_t{8'001'548'713'984});
    EXPECT_EQ(8'001'563'222'016 - 9'789'440 - 4'718'592, int64_t{8'001'548'713'984});
    EXPECT_EQ(labelled_bytes(0), 0);
    EXPECT_EQ(labelled_bytes(9 << 20), 0);
}

// --- Allocation units and reserve ------------------------------------------------------------

TEST(AllocationUnit, FollowsThePublishedSizes) {
    // module/zfs/vdev.c, comment above vdev_metaslab_set_size()
    const int64_t GB = 1'000'000'000, one_gib = int64_t{1} << 30;
    const auto pieces = [](int64_t group) { return group / allocation_unit(group); };
    EXPECT_GE(pieces(4 * GB), 8);  // under 8 GB: about 16 pieces
    EXPECT_LE(pieces(4 * GB), 16);
    EXPECT_EQ(allocation_unit(20 * one_gib), one_gib / 2);  // 8 to 100 GB: 512 MiB
    EXPECT_EQ(allocation_unit(100 * one_gib), one_gib / 2);
    for (const int64_t group : {150 * GB, 500 * GB, 1000 * GB, 2500 * GB}) {  // about 200 pieces
        EXPECT_GE(pieces(group), 100) << group;
        EXPECT_LE(pieces(group), 200) << group;
    }
    EXPECT_EQ(allocation_unit(3'500 * GB), 16 * one_gib);  // 3 TB to 2 PB: 16 GiB
    EXPECT_EQ(allocation_unit(2'000'000 * GB), 16 * one_gib);
    EXPECT_GT(allocation_unit(4'000'000 * GB), 16 * one_gib);
    EXPECT_EQ(allocation_unit(60 << 20), 16 << 20);
}

TEST(Reserve, FollowsTheRuleOfVersion21) {
    // module/zfs/spa_misc.c, spa_get_slop_space(), tag 2.1.0; no log
    const int64_t mib = 1 << 20, gib = 1 << 30, tib = int64_t{1} << 40;
    EXPECT_EQ(reserve_bytes(1 * gib, 0), 128 * mib);
    EXPECT_EQ(reserve_bytes(4 * gib, 0), 128 * mib);
    EXPECT_EQ(reserve_bytes(8 * gib, 0), 256 * mib);
    EXPECT_EQ(reserve_bytes(1 * tib, 0), 32 * gib);
    EXPECT_EQ(reserve_bytes(4 * tib, 0), 128 * gib);
    EXPECT_EQ(reserve_bytes(8 * tib, 0), 128 * gib);
    EXPECT_EQ(reserve_bytes(40 * tib, 0), 128 * gib);
    EXPECT_EQ(reserve_bytes(100 * mib, 0), 50 * mib);         // half of a tiny pool
    EXPECT_EQ(reserve_bytes(40 * tib, 16 * gib), 112 * gib);  // the log is part of it …
    EXPECT_EQ(reserve_bytes(40 * tib, 100 * gib), 64 * gib);  // … by half at most
}

// --- Whole pools -----------------------------------------------------------------------------

struct ModelRow {
    const char* layout;
    int groups, width;
    Redundancy redundancy;
    double drive_tb;
    int64_t size, available;
    double reserve_gib;
};

TEST(PoolCapacity, TwelveLayoutsComeOutToTheByte) {
    // Computed from the rules of version 2.1 and later (module/zfs/vdev.c, spa_misc.c), whole
    // drives, 4 KiB sectors, empty pool: SIZE, reserve, and what the root shows as available.
    const std::vector<ModelRow> rows{
        {"2 x 8 TB mirror", 1, 2, mirror(2), 8, 7'988'639'170'560, 7'851'200'217'088, 112.000},
        {"2 groups of 2 x 12 TB mirror", 2, 2, mirror(2), 12, 23'983'097'380'864,
         23'845'658'427'392, 96.000},
        {"4 groups of 2 x 20 TB mirror", 4, 2, mirror(2), 20, 79'989'470'920'704,
         79'852'031'967'232, 64.000},
        {"3 x 4 TB parity 1", 1, 3, parity(1), 4, 11'991'548'690'432, 7'849'119'842'304, 117.344},
        {"4 x 8 TB parity 1", 1, 4, parity(1), 8, 32'006'096'289'792, 23'116'990'382'080, 116.375},
        {"5 x 12 TB parity 1", 1, 5, parity(1), 12, 59'992'103'190'528, 47'785'940'353'024,
         115.219},
        {"6 x 16 TB parity 2", 1, 6, parity(2), 16, 96'001'109'000'192, 63'800'799'657'984,
         117.344},
        {"8 x 18 TB parity 2", 1, 8, parity(2), 18, 143'984'483'631'104, 102'226'529'878'016,
         116.625},
        {"8 x 20 TB parity 2", 1, 8, parity(2), 20, 159'996'121'710'592, 113'609'803'825'152,
         116.625},
        {"10 x 22 TB parity 2", 1, 10, parity(2), 22, 220'005'404'770'304, 167'444'802'961'408,
         115.812},
        {"2 groups of 6 x 16 TB parity 2", 2, 6, parity(2), 16, 192'002'218'000'384,
         127'739'038'269'440, 106.688},
        {"11 x 20 TB parity 3", 1, 11, parity(3), 20, 220'005'404'770'304, 159'710'237'949'952,
         116.375},
    };
    for (const auto& row : rows) {
        SCOPED_TRACE(row.layout);
        const auto c = capacity_of(pool_of(row.groups, row.width, row.redundancy, row.drive_tb));
        EXPECT_EQ(static_cast<int64_t>(c.raw_bytes), row.size);
        EXPECT_EQ(static_cast<int64_t>(c.usable_bytes), row.available);
        EXPECT_NEAR(c.reserve_bytes / GiB, row.reserve_gib, 0.001);
        EXPECT_EQ(c.usable_bytes, c.charged_bytes - c.reserve_bytes - c.log_bytes);
    }
}

TEST(PoolCapacity, OnlyAGroupOfMoreThan64UnitsKeepsOneForTheLog) {
    // module/zfs/vdev.c, vdev_metaslab_init(); units of 512 MiB, drives with 16 MiB to spare
    const auto with_units = [](int units) {
        return capacity_of(pool_of(1, 1, no_redundancy(), (units / 2.0 + 1.0 / 64) * GiB / 1e12));
    };
    EXPECT_EQ(with_units(64).raw_bytes, 32 * GiB);
    EXPECT_EQ(with_units(64).log_bytes, 0);
    EXPECT_EQ(with_units(65).raw_bytes, 32.5 * GiB);
    EXPECT_EQ(with_units(65).log_bytes, 0.5 * GiB);
    EXPECT_GE(with_units(65).usable_bytes, with_units(64).usable_bytes);
}

TEST(PoolCapacity, AMirrorShowsWhatIssue17085Shows) {
    // SIZE 3.44T, ALLOC 176G, AVAIL 3.16T. The drives are not named: 220 units of 16 GiB are the
    // only size that prints as 3.44T.
    const auto c = capacity_of(pool_of(1, 2, mirror(2), (220 * 16 + 1) * GiB / 1e12));
    EXPECT_NEAR(c.raw_bytes / TiB, 3.44, 0.005);
    EXPECT_NEAR((c.usable_bytes - 176 * GiB) / TiB, 3.16, 0.005);
}

/// Of pools made by older versions: units of 2^⌈…⌉ of a 200th of the group (0.6), another reserve. Our parts
/// give the groups' bytes and the rate; unit and reserve are those of the version.
TEST(PoolCapacity, OlderVersionsPoolsShowWhatWasPublishedByTheirOwnUnitsAndReserve) {
    struct Row {
        const char* source;
        int width, parity;
        double drive_tb, size_tib, space_tib;  // space: available of the empty pool
    };
    // SIZE and AVAIL printed in issue 1089 (0.6.x, reserve 1/64): 16.2T and 10.7T, 27.2T and 20.4T, 32.5T and
    // 24.4T.
    for (const Row& row : {Row{"1089, 6 x 3 TB", 6, 2, 3, 16.250, 10.654}, Row{"1089, 10 x 3 TB", 10, 2, 3, 27.250, 20.433},
                           Row{"1089, 12 x 3 TB", 12, 2, 3, 32.500, 24.369}}) {
        const double drive = static_cast<double>(labelled_bytes(drive_bytes(Bytes{row.drive_tb * 1e12})));
        const double group = drive * row.width;
        const double unit = std::exp2(std::floor(std::log2(group / 200)) + 1);
        const double size = std::floor(group / unit) * unit;
        const double rate = static_cast<double>(charged_bytes(128 * KiB, row.width, parity(row.parity), 4096)) /
                            static_cast<double>(allocated_bytes(128 * KiB, row.width, parity(row.parity), 4096));
        EXPECT_NEAR(size / TiB, row.size_tib, 0.0005) << row.source;
        EXPECT_NEAR(size * rate * 63 / 64 / TiB, row.space_tib, 0.001) << row.source;
    }
}

TEST(PoolCapacity, APoolOfVersion06ThatShowsNothingFreeHasItsReserveLeftAsInIssue4206) {
    // 6 x 4 TB, parity 1, 0.6.4: SIZE 21.8T, FREE 348G and nothing available: free is what is kept back, a 64th.
    const double drive = static_cast<double>(labelled_bytes(drive_bytes(Bytes{4e12})));
    const double unit = std::exp2(std::floor(std::log2(drive * 6 / 200)) + 1);
    const double size = std::floor(drive * 6 / unit) * unit;
    EXPECT_NEAR(size / TiB, 21.75, 0.0005);
    EXPECT_NEAR(size / 64 / GiB, 348.0, 0.05);
}

TEST(PoolCapacity, PoolsOfVersions07To20KeepAThirtySecondBack) {
    // Five drives, parity 1, rate 409/512. Issue 6954: SIZE 5.44T, used 80.5G, available 4.13T; issue 11640: SIZE 33.4T,
    // used + available 25.9T.
    const double rate = static_cast<double>(charged_bytes(128 * KiB, 5, parity(1), 4096)) /
                        static_cast<double>(allocated_bytes(128 * KiB, 5, parity(1), 4096));
    EXPECT_NEAR(5.44 * rate * 31 / 32 - 80.5 / 1024, 4.13, 0.005);
    EXPECT_NEAR(33.4 * rate * 31 / 32, 25.9, 0.06);
}

TEST(PoolCapacity, LabelsAndDrivesCountSparesAndSparesAddNoSpace) {
    Pool p = pool_of(2, 6, parity(2), 12);
    const auto without = capacity_of(p);
    p.spares = 2;
    const auto with = capacity_of(p);
    EXPECT_EQ(with.label_bytes, 14 * 12e12);
    EXPECT_EQ(with.drive_bytes, 14 * 12'000'138'625'024.0);
    EXPECT_EQ(without.label_bytes, 12 * 12e12);
    EXPECT_EQ(with.raw_bytes, without.raw_bytes);
    EXPECT_EQ(with.usable_bytes, without.usable_bytes);
}

TEST(PoolCapacity, DrivesWithoutRedundancyAreGroupsOfTheirOwn) {
    const auto one_group_of_three = capacity_of(pool_of(1, 3, no_redundancy(), 4));
    const auto three_groups_of_one = capacity_of(pool_of(3, 1, no_redundancy(), 4));
    EXPECT_EQ(one_group_of_three, three_groups_of_one);
    EXPECT_EQ(three_groups_of_one.charged_bytes, three_groups_of_one.raw_bytes);
}

TEST(PoolCapacity, MoreCopiesOfAMirrorChangeNothingButTheDrivesBought) {
    const auto two = capacity_of(pool_of(3, 2, mirror(2), 8));
    const auto four = capacity_of(pool_of(3, 4, mirror(4), 8));
    EXPECT_EQ(two.usable_bytes, four.usable_bytes);
    EXPECT_EQ(two.drive_bytes * 2, four.drive_bytes);
}

struct RandomPools {
    std::mt19937_64 random{42};
    int between(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); }
    double drive_tb() {
        // from 1 GB, over the borders of the allocation units, to 40 TB
        const double gb =
            std::exp(std::uniform_real_distribution<>(0.0, std::log(40000.0))(random));
        return (between(0, 1) == 0 ? gb : std::ceil(gb)) / 1000;
    }
    double sector() { return 512 << between(0, 7); }
};

TEST(PoolGeometry, OneMoreDriveNeverLowersUsable) {
    RandomPools any;
    for (int i = 0; i < 5000; ++i) {
        const int p = any.between(1, 3);
        Pool pool = pool_of(any.between(1, 6), p + any.between(1, 30), parity(p), any.drive_tb(),
                            any.sector());
        const double before = capacity_of(pool).usable_bytes;
        ++pool.width;
        const double wider = capacity_of(pool).usable_bytes;
        ASSERT_GE(wider, before) << pool.groups << " groups of " << pool.width << ", parity " << p
                                 << ", drive " << pool.drive.value.value << ", sector "
                                 << pool.sector.value.value;
        ++pool.groups;
        ASSERT_GE(capacity_of(pool).usable_bytes, wider);
    }
}

TEST(PoolGeometry, OneMoreGroupOfMirrorsNeverLowersUsable) {
    RandomPools any;
    for (int i = 0; i < 5000; ++i) {
        const int copies = any.between(2, 4);
        Pool pool = pool_of(any.between(1, 40), copies, mirror(copies), any.drive_tb());
        const double before = capacity_of(pool).usable_bytes;
        ++pool.groups;
        ASSERT_GE(capacity_of(pool).usable_bytes, before);
    }
}

TEST(PoolGeometry, MoreParityNeverRaisesUsable) {
    RandomPools any;
    for (int i = 0; i < 5000; ++i) {
        Pool pool =
            pool_of(any.between(1, 6), any.between(4, 40), parity(1), any.drive_tb(), any.sector());
        double before = std::numeric_limits<double>::infinity();
        for (int p = 1; p <= 3; ++p) {
            pool.redundancy.n = p;
            const double usable = capacity_of(pool).usable_bytes;
            ASSERT_LE(usable, before)
                << pool.width << " wide, parity " << p << ", sector " << pool.sector.value.value;
            before = usable;
        }
    }
}

TEST(PoolGeometry, UsableIsPositiveAndAtMostRawWhichIsAtMostTheDrives) {
    RandomPools any;
    for (int i = 0; i < 5000; ++i) {
        const int p = any.between(0, 3);
        const auto c = capacity_of(pool_of(any.between(1, 6), p + any.between(1, 30),
                                           p == 0 ? no_redundancy() : parity(p), any.drive_tb(),
                                           any.sector()));
        ASSERT_GT(c.usable_bytes, 0);
        ASSERT_LE(c.usable_bytes, c.charged_bytes);
        ASSERT_LE(c.charged_bytes, c.raw_bytes);
        ASSERT_LE(c.raw_bytes, c.drive_bytes);
    }
}

// --- What cannot be -----------------------------------------------------------------------------

std::string fault_of(const Pool& pool) {
    const auto c = capacity(pool);
    return c ? std::string() : c.error();
}

void expect_fault(const Pool& pool, const std::vector<std::string>& words) {
    const std::string fault = fault_of(pool);
    ASSERT_FALSE(fault.empty());
    for (const auto& word : words) EXPECT_NE(fault.find(word), std::string::npos) << fault;
}

TEST(PoolFaults, ParityMustLeaveADataDrive) {
    expect_fault(pool_of(1, 2, parity(2), 8), {"2 parity drives", "group of 2", "3 drives"});
    expect_fault(pool_of(1, 1, parity(3), 8), {"3 parity drives", "group of 1"});
    EXPECT_EQ(fault_of(pool_of(1, 3, parity(2), 8)), "");
}

TEST(PoolFaults, AMirrorsWidthIsItsNumberOfCopies) {
    expect_fault(pool_of(1, 3, mirror(2), 8), {"mirror of 2", "not 3"});
    expect_fault(pool_of(1, 5, mirror(5), 8), {"2 to 4", "not 5"});
    expect_fault(pool_of(1, 1, mirror(1), 8), {"2 to 4", "not 1"});
}

TEST(PoolFaults, CountsOutsideTheirRangeAreNamed) {
    expect_fault(pool_of(0, 4, parity(1), 8), {"groups", "not 0"});
    expect_fault(pool_of(-3, 4, parity(1), 8), {"groups", "not -3"});
    expect_fault(pool_of(1, 0, parity(1), 8), {"drives", "not 0"});
    expect_fault(pool_of(1, 300, parity(1), 8), {"255", "not 300"});
    expect_fault(pool_of(1, 8, parity(0), 8), {"1 to 3", "not 0"});
    expect_fault(pool_of(1, 8, parity(4), 8), {"1 to 3", "not 4"});
    expect_fault(pool_of(1, 1, {Redundancy::Kind::none, 2}, 8), {"without redundancy", "not 2"});
    Pool p = pool_of(1, 4, parity(1), 8);
    p.spares = -1;
    expect_fault(p, {"spare", "not -1"});
}

TEST(PoolFaults, SectorsAndDrivesThatCannotBeAreNamed) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const double sector : {0.0, 511.0, 1000.0, 4096.5, 131072.0, -4096.0, nan}) {
        expect_fault(pool_of(1, 4, parity(1), 8, sector), {"sector", "65536"});
    }
    for (const double tb : {0.0, -1.0, nan, 1e6}) {
        expect_fault(pool_of(1, 4, parity(1), tb), {"a drive has"});
    }
    expect_fault(pool_of(1, 4, parity(1), 50e6 / 1e12), {"50000000", "at least 67108864"});
    expect_fault(pool_of(1, 4, parity(1), 1e3 / 1e12), {"1000", "0 left"});
    expect_fault(pool_of(10000, 255, parity(1), 30), {"2550000 drives", "2e+18"});
    EXPECT_EQ(fault_of(pool_of(1, 4, parity(1), 100e6 / 1e12)), "");
}

// --- What a dataset's bytes take -------------------------------------------------------------

TEST(Charge, IncompressibleLargeBlocksCostTheirSizePlusMetadata) {
    EXPECT_NEAR(charge_per_stored_byte(pool_of(1, 2, mirror(2), 8), kib(128), 1), 1.002, 1e-12);
    const Pool six = pool_of(1, 6, parity(2), 8);
    EXPECT_NEAR(charge_per_stored_byte(six, kib(128), 1), 0.999 * 1.002, 0.0005);
    EXPECT_NEAR(charge_per_stored_byte(six, kib(8), 1), 1.998 * 1.02, 0.0005);
}

TEST(Charge, SmallBlocksOnWideParityGroupsCostTwoToThreeTimes) {
    EXPECT_NEAR(charge_per_stored_byte(pool_of(1, 12, parity(3), 8), kib(8), 1), 2.906 * 1.02,
                0.001);
    EXPECT_NEAR(charge_per_stored_byte(pool_of(1, 12, parity(2), 8), kib(8), 1), 2.285 * 1.02,
                0.001);
}

TEST(Charge, CompressionOf16KBlocksMustSaveAQuarterToSaveAnything) {
    // documentation, Compression page: 16K records on 4K sectors
    const Pool p = pool_of(1, 2, mirror(2), 8);
    const auto block_charge = [&](double ratio) {  // charged bytes of one block, without metadata
        return charge_per_stored_byte(p, kib(16), ratio) / 1.01 * 16384 / ratio;
    };
    EXPECT_NEAR(block_charge(1.0), 16384, 0.01);
    EXPECT_NEAR(block_charge(1.30), 16384, 0.01);  // 12603 B: a fourth sector is begun
    EXPECT_NEAR(block_charge(4.0 / 3), 12288, 0.01);
    EXPECT_NEAR(block_charge(1.5), 12288, 0.01);
    EXPECT_NEAR(block_charge(2.0), 8192, 0.01);
    EXPECT_NEAR(block_charge(100.0), 4096, 0.01);
}

TEST(Charge, CompressionBelowAnEighthIsNotStored) {
    // documentation, Compression page: the 12.5 % threshold
    const Pool p = pool_of(1, 2, mirror(2), 8, 512);
    const auto block_charge = [&](double ratio) {
        return charge_per_stored_byte(p, kib(128), ratio) / 1.002 * 131072 / ratio;
    };
    EXPECT_NEAR(block_charge(1.14), 131072, 0.01);     // saves 12.3 %
    EXPECT_NEAR(block_charge(8.0 / 7), 114688, 0.01);  // saves 12.5 %
    EXPECT_NEAR(block_charge(1.15), 114176, 0.01);     // 113976 B in whole sectors
}

TEST(Charge, AStoredByteNeverCostsLessThanItselfOnAMirrorAndARatioBelowOneCountsAsOne) {
    const Pool p = pool_of(1, 2, mirror(2), 8);
    for (double ratio = 1; ratio < 20; ratio += 0.01) {
        ASSERT_GE(charge_per_stored_byte(p, kib(128), ratio), 1.0) << ratio;
    }
    EXPECT_EQ(charge_per_stored_byte(p, kib(128), 0.5), charge_per_stored_byte(p, kib(128), 1));
}

TEST(Charge, APoolThatCannotBeHasNoCharge) {
    EXPECT_TRUE(std::isnan(charge_per_stored_byte(pool_of(1, 2, parity(2), 8), kib(128), 1)));
    const Pool p = pool_of(1, 4, parity(1), 8);
    EXPECT_TRUE(std::isnan(charge_per_stored_byte(p, Bytes{0}, 1)));
    EXPECT_TRUE(std::isnan(charge_per_stored_byte(p, kib(128), 0)));
    EXPECT_TRUE(
        std::isnan(charge_per_stored_byte(p, kib(128), std::numeric_limits<double>::quiet_NaN())));
}

TEST(Metadata, ShareIsAtLeastWhatWasMeasured) {
    // 1.0 … 2.0 % on full volumes of 8K blocks (Server Fault rows above), 0.010 % at 256K (issue
    // 17201); and at least one copy of a 128-byte pointer to each block (include/sys/spa.h).
    EXPECT_DOUBLE_EQ(metadata_share(kib(8)), 0.02);
    EXPECT_DOUBLE_EQ(metadata_share(kib(16)), 0.01);
    EXPECT_DOUBLE_EQ(metadata_share(kib(128)), 0.002);
    EXPECT_NEAR(metadata_share(mib(1)), 0.0005, 1e-12);
    EXPECT_GE(metadata_share(kib(256)), 0.0001);
    for (double kilo = 0.5; kilo <= 1024; kilo *= 2) {
        EXPECT_GE(metadata_share(kib(kilo)), 128 / (kilo * 1024)) << kilo;
    }
}

TEST(Metadata, ShareNeverRisesWithTheBlockSize) {
    double before = 1e9;
    for (double size = 512; size <= 32 << 20; size *= 1.01) {
        const double share = metadata_share(Bytes{size});
        ASSERT_LE(share, before * (1 + 1e-12)) << size;
        ASSERT_GE(share, 0.0005 * (1 - 1e-12));
        before = share;
    }
}

}  // namespace
}  // namespace ullage
