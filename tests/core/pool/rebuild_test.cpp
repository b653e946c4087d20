// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/pool/rebuild.h"

#include "core/pool/pool.h"

#include <gtest/gtest.h>

namespace ullage {
namespace {

TEST(Rebuild, AWholeDriveTakesItsBytesOverTheMeanRate) {
    // Rates of the fastest tracks from memory of data sheets; hours worked out from them.
    struct Row {
        double label_tb, fastest_mb, hours;
    };
    for (const Row& row : {Row{8, 210, 15.6}, Row{12, 240, 20.4}, Row{16, 261, 25.0}, Row{18, 270, 27.2},
                           Row{20, 285, 28.7}}) {
        const auto bytes = static_cast<double>(drive_bytes(Bytes{row.label_tb * 1e12}));
        EXPECT_NEAR(whole_drive_hours(bytes, BytesPerSecond{row.fastest_mb * 1e6}), row.hours, 0.06)
            << row.label_tb;
    }
}

TEST(Rebuild, TheMeanOverAllTracksIsThatOfTheZonesOfThePublishedExample) {
    // "Upgrading and Repairing PCs": zones from 118 to 56 MB/s, mean about 80.
    EXPECT_NEAR(mean_of_fastest * 118, 80, 1);
}

TEST(Rebuild, TheChanceOfAnotherFailureIsPoissons) {
    // 1 − exp(−AFR (N − 1) T / 8760): 8 drives, 48 h, worked out by hand.
    EXPECT_NEAR(chance_of_another_failure(7, 0.015, 48), 0.00058, 0.000005);
    EXPECT_NEAR(chance_of_another_failure(7, 0.05, 48), 0.0019, 0.00002);
    EXPECT_EQ(chance_of_another_failure(0, 0.05, 48), 0);
    EXPECT_EQ(chance_of_another_failure(7, 0, 48), 0);
}

}  // namespace
}  // namespace ullage
